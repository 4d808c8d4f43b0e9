/**
 * Capacities of the set `iso-13297`. The values come from memory on both sides, so that they agree says only that nothing
 * was mistyped; what else is known of them is held to the confirmed tables beside them, and every finding must warn.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { iso13297 } from '../../server/physics/limits/iso-13297.ts';
import type { CapacityConditions } from '../../server/physics/limits/limit-set.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { allRules } from '../../server/rules/all.ts';
import { cfr183Rows } from '../../server/tables/cfr-33-183.ts';
import { cite } from '../../server/tables/table.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from '../answers/spec.ts';
import { figure, readTable } from '../reference/read.ts';

const usual: CapacityConditions = {
  size: { system: 'mm2', areaMm2: 2.5 },
  insulationCelsius: 70,
  ambientCelsius: 30,
  bunchedWith: 0,
  cores: 1,
  inConduit: false,
  engineSpace: false,
  nominalVolts: 12,
  aluminium: false,
};
const capacity = (conditions: Partial<CapacityConditions>) => iso13297.capacity({ ...usual, ...conditions });
const size = (areaMm2: number) => ({ system: 'mm2', areaMm2 }) as const;
const columns = [
  { column: '60C', celsius: 60 },
  { column: '70C', celsius: 70 },
  { column: '85-90C', celsius: 85 },
  { column: '85-90C', celsius: 90 },
  { column: '105C', celsius: 105 },
  { column: '125C', celsius: 125 },
  { column: '200C', celsius: 200 },
];

const runCapacity = (clauses: string, place = '30 °C') =>
  answersOf(`system "Boat shed" 12 V, limits iso-13297
place HOLD ${place}
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 ${clauses}, along HOLD, 1 m, B1:+ to LAMP:+
run W2 10 mm² black, along HOLD, 1 m, LAMP:- to B1:-
`).core('W1').capacity;

describe('the table of capacities', () => {
  const cells = readTable('iso-13297-capacities.csv').flatMap((row) =>
    columns.map(({ column, celsius }) => ({
      mm2: figure(row, 'size_mm2'),
      celsius,
      amps: figure(row, column),
      status: row.status,
    })),
  );

  it('has fifteen sizes by six columns, all from memory', () => {
    expect(cells.length).toBe(15 * 7);
    expect(cells.every(({ status }) => status === 'memory')).toBe(true);
  });

  test.each(cells)('$mm2 mm² at $celsius °C: $amps A', ({ mm2, celsius, amps }) => {
    const found = capacity({ size: size(mm2), insulationCelsius: celsius });
    expect([found.amps, found.tableAmps, found.derived, found.reason]).toEqual([amps, amps, false, undefined]);
    expect(found.sources.map(cite).join()).toContain('not checked against the printed standard');
    expect(runCapacity(`${mm2} mm² red, ${celsius} °C`)?.amps).toBe(amps);
  });

  it('lies near the confirmed 33 CFR table 5 at 105 °C, size by size', () => {
    // 10 AWG (5.26 mm²) 60 A, 6 AWG (13.3 mm²) 120 A, 2 AWG (33.6 mm²) 210 A.
    for (const [gauge, mm2] of [
      [10, 6],
      [6, 16],
      [2, 35],
    ] as const)
      expect(
        capacity({ size: size(mm2), insulationCelsius: 105 }).amps / (cfr183Rows.get(gauge)?.[4] ?? 0),
      ).toBeCloseTo(1, 0);
  });

  it('takes a size between two as the thinner, gauges too, and insulation by the lower column', () => {
    const between = capacity({ size: size(3) });
    expect([between.amps, between.derived]).toEqual([25, true]);
    // 12 AWG is 3.31 mm².
    expect(capacity({ size: { system: 'awg', gauge: 12 } }).amps).toBe(25);
    expect([capacity({ insulationCelsius: 104 }).amps, capacity({ insulationCelsius: 104 }).derived]).toEqual([
      30,
      true,
    ]);
    expect(capacity({ size: size(0.5) }).reason).toBe('size-not-in-table');
    expect(capacity({ insulationCelsius: 59 }).reason).toBe('insulation-below-table');
  });
});

describe('engine spaces', () => {
  const rows = readTable('iso-13297-rules.csv')
    .filter(({ rule }) => rule?.startsWith('engine-space'))
    .map((row) => ({
      celsius: Number(/(\d+) C(?: insulation)?$/.exec(row.rule ?? '')?.[1]),
      factor: figure(row, 'value'),
      status: row.status,
    }));

  it('have five factors, all from memory', () => {
    expect(rows.map(({ celsius }) => celsius)).toEqual([70, 90, 105, 125, 200]);
    expect(rows.every(({ status }) => status === 'from memory')).toBe(true);
  });

  test.each(rows)('$celsius °C insulation: $factor up to 60 °C', ({ celsius, factor }) => {
    for (const ambient of [40, 50, 60]) {
      const found = capacity({ insulationCelsius: celsius, ambientCelsius: ambient, engineSpace: true });
      expect([found.ambientFactor, found.amps]).toEqual([factor, expect.closeTo(found.tableAmps * factor, 12)]);
    }
    expect(runCapacity(`4 mm² red, ${celsius} °C`, '60 °C, engine space')?.ambientFactor).toBe(factor);
    // Warmer than that the square root counts where it is less.
    const hotter = capacity({ insulationCelsius: celsius, ambientCelsius: 65, engineSpace: true });
    expect(hotter.ambientFactor).toBeCloseTo(Math.min(factor, Math.sqrt((celsius - 65) / (celsius - 30))), 12);
  });

  it('of 60 °C leave nothing to 60 °C insulation', () => {
    const found = capacity({ insulationCelsius: 60, ambientCelsius: 60, engineSpace: true });
    expect([found.amps, found.reason]).toEqual([0, 'ambient-at-limit']);
  });
});

it('other ambients follow the square root, without gain in the cold', () => {
  expect(capacity({ ambientCelsius: 50 }).amps).toBeCloseTo(25 * Math.sqrt(20 / 40), 12);
  expect(capacity({ ambientCelsius: 50 }).derived).toBe(true);
  expect(capacity({ ambientCelsius: 5 }).amps).toBe(25);
});

it('limits of drop and length: 3 % (confirmed), 10 %, 200 mm (from memory)', () => {
  const rules = readTable('iso-13297-rules.csv');
  expect(rules.filter(({ value }) => value === '3 %').map(({ status }) => status)).toEqual(['confirmed']);
  expect([iso13297.drop(true).ratio, iso13297.drop(false).ratio]).toEqual([0.03, 0.1]);
  expect(rules.find(({ clause }) => clause === '8.1')?.value).toBe('200 mm');
  expect([iso13297.unfusedLength(false).metres, iso13297.unfusedLength(true).metres]).toEqual([0.2, 3]);
  expect(iso13297.permittedDeviceAmps(capacity({}), 12).amps).toBe(25);
});

describe('every finding that rests on it', () => {
  const spec = (limits: string) => `system "Boat shed" 12 V, limits ${limits}
battery B1 lead-acid, 12 V, 80 Ah
fuse F1 30 A, blade, 32 V
load LAMP 12 A
run W1 6 mm² red, 4 m, B1:+ to F1:in
run W2 1 mm² red, 9 m, F1:out to LAMP:+
run W3 1 mm² black, 9 m, LAMP:- to B1:-
`;
  const caution =
    'The values of iso-13297 are not checked against the printed standard: compare them with it before relying on this.';
  const slugs = ['cable-too-small', 'drop-over-limit', 'protection-too-far'];

  test.each(slugs)('%s says so', (slug) => {
    const found = analyseText(spec('iso-13297')).findings.filter((one) => one.slug === slug);
    expect(found.length).toBeGreaterThan(0);
    for (const { message } of found) expect(message.endsWith(caution)).toBe(true);
  });

  it('of any rule: what asks the set for a rating, a drop or a length is known to rest on it', () => {
    // What would not bear a larger device is told in a message, or only decides what is offered.
    const onlyOffers = 'fuse-odd-rating';
    const asking = allRules.filter(
      ({ slug }) =>
        slug !== onlyOffers &&
        /permittedDeviceAmps|limits\.(?:drop|unfusedLength)|in-the-way|larger-device/.test(
          readFileSync(new URL(`../../server/rules/${slug}.ts`, import.meta.url), 'utf8'),
        ),
    );
    expect(asking.map(({ slug }) => slug)).toEqual(expect.arrayContaining([...slugs, 'fuse-below-load']));
    for (const { slug, reads } of asking) expect([slug, reads.includes('system.limits')]).toEqual([slug, true]);
  });

  test.each([...limitSets.keys()].filter((id) => id !== 'iso-13297'))('%s has nothing of that', (id) => {
    const { findings } = analyseText(spec(id));
    expect(findings.map(({ slug }) => slug)).toContain('cable-too-small');
    for (const { message } of findings) expect(message).not.toContain('iso-13297');
  });
});

it('hotter, thinner or more bunched never carries more', () => {
  const conditions = fc.record({
    mm2: fc.double({ min: 0.5, max: 240, noNaN: true }),
    insulationCelsius: fc.integer({ min: 50, max: 220 }),
    ambientCelsius: fc.integer({ min: -20, max: 220 }),
    bunchedWith: fc.integer({ min: 0, max: 50 }),
    engineSpace: fc.boolean(),
  });
  fc.assert(
    fc.property(conditions, fc.integer({ min: 1, max: 30 }), ({ mm2, ...one }, more) => {
      const { amps } = capacity({ ...one, size: size(mm2) });
      expect(amps).toBeGreaterThanOrEqual(0);
      const of = (change: Partial<CapacityConditions>) => capacity({ ...one, size: size(mm2), ...change }).amps;
      expect(of({ ambientCelsius: one.ambientCelsius + more })).toBeLessThanOrEqual(amps);
      expect(of({ bunchedWith: one.bunchedWith + more })).toBeLessThanOrEqual(amps);
      expect(of({ size: size(mm2 + more) })).toBeGreaterThanOrEqual(amps);
    }),
    { numRuns: 500 },
  );
});
