/** What a set of limits of one's own cannot say, figure by figure; and that what it cannot say counts for nothing. */
import { describe, expect, it, test } from 'vitest';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { analyseText } from '../analysed.ts';

const found = (own: string, more = '', name = 'ours') => {
  const text = `system 12 V, limits ${name}\n${more}stock ${name} limit-set ${own}\n`;
  const { findings, answers } = analyseText(text);
  return {
    limits: answers.limits,
    told: findings.map(({ slug, place }) => `${slug} "${text.slice(place.span.start, place.span.end)}"`),
    messages: findings.map(({ message }) => message),
  };
};
const base = 'based on iec-60364-5-52';

test.each([
  ['factor 0', 'a factor on capacities is above 0'],
  ['factor 80', 'at most 2, such as 0.8'],
  ['device 0 %', 'more than 0 %'],
  ['device 1000 %', 'at most 300 %'],
  ['pv factor 0.8', 'from 1 to 3'],
  ['pv factor 125', 'from 1 to 3'],
  ['lightly loaded 130 %', 'from 0 % to 100 %'],
  ['drop 0 %', 'above 0 %'],
  ['essential drop 100 %', 'below 100 %'],
  ['capacity 6 mm² 0 A', 'a conductor carries some current'],
])('%s', (said, why) => {
  const { told, messages, limits } = found(`${base}, ${said}`);
  expect([told, messages[0]]).toEqual([[`contradictory-limits "${said}"`], expect.stringContaining(why)]);
  const published = limitSets.get('iec-60364-5-52');
  const conditions = {
    size: { system: 'mm2', areaMm2: 6 },
    insulationCelsius: 70,
    ambientCelsius: 30,
    bunchedWith: 0,
    cores: 1,
    inConduit: false,
    engineSpace: false,
    nominalVolts: 12,
    aluminium: false,
  } as const;
  expect(limits.capacity(conditions).amps).toBe(published?.capacity(conditions).amps);
  expect([limits.drop(false), limits.pvFactor, limits.lightlyLoaded]).toEqual([
    published?.drop(false),
    published?.pvFactor,
    published?.lightlyLoaded,
  ]);
});

describe('two figures that cannot both hold', () => {
  test.each([
    ['drop 2 %, essential drop 4 %', 'essential drop 4 %', 'may lose 4 %, and all else only 2 %'],
    ['unfused 1 m, sheathed unfused 0.5 m', 'sheathed unfused 0.5 m', 'never a smaller one'],
    ['tail 1 m, sheathed tail 0.5 m', 'sheathed tail 0.5 m', 'never a smaller one'],
    ['capacity 6 mm² 40 A, capacity 10 mm² 35 A', 'capacity 10 mm² 35 A', 'the larger size carries no less'],
    ['capacity 10 mm² 35 A, capacity 6 mm² 40 A', 'capacity 6 mm² 40 A', 'the larger size carries no less'],
    ['capacity 6 mm² 40 A, capacity 10 AWG 50 A', 'capacity 10 AWG 50 A', 'the larger size carries no less'],
    ['capacity 6 mm² 40 A, capacity 6 mm² 42 A', 'capacity 6 mm² 42 A', 'stands with 6 mm² 40 A already'],
  ])('%s', (said, place, why) => {
    const { told, messages } = found(`${base}, ${said}`);
    expect([told, messages[0]]).toEqual([[`contradictory-limits "${place}"`], expect.stringContaining(why)]);
  });

  it('are none where insulation sets the rows apart, nor where they agree', () => {
    expect(found(`${base}, capacity 6 mm² 40 A, capacity 10 mm² 38 A insulation 90 °C`).told).toEqual([]);
    expect(found(`${base}, drop 3 %, essential drop 3 %, unfused 1 m, sheathed unfused 1 m`).told).toEqual([]);
  });
});

it('what stands in the set that it takes is told there alone', () => {
  const { told } = found('= strict, drop 3 %', `stock strict limit-set ${base}, factor 0\n`);
  expect(told).toEqual(['contradictory-limits "factor 0"']);
});

it('has a name of its own', () => {
  const { told } = found(base, '', 'nec-310');
  expect(told).toEqual(['contradictory-limits "nec-310"']);
});

it('a quantity below nought is told once, as an impossible one', () => {
  expect(found(`${base}, drop -4 %`).told).toEqual(['impossible-value "-4 %"']);
  expect(found(`${base}, unfused -1 m`).told).toEqual(['impossible-value "-1 m"']);
  expect(found(`${base}, capacity 6 mm² -40 A`).told).toEqual(['impossible-value "-40 A"']);
});
