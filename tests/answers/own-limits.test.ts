/** A set of limits of one's own: every figure it may replace, what stays the published set's, and what findings cite. */
import { describe, expect, it, test } from 'vitest';
import { limitsOf } from '../../server/answers/limits-of.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from './spec.ts';

interface Lamp {
  readonly out?: string;
  readonly fuse?: string;
  readonly load?: string;
  readonly feed?: string;
  readonly system?: string;
  readonly more?: string;
}

const lamp = (
  own: string,
  {
    out = '2.5 mm² red, 4 m',
    fuse = '20 A',
    load = '60 W',
    feed = '0.1 m',
    system = 'system "Shed" 12 V, limits ours',
    more = '',
  }: Lamp = {},
) => `${system}
stock ours limit-set ${own}
battery B1 lead-acid, 12 V, 100 Ah, internal 10 mΩ
fuse F1 ${fuse}
load LAMP ${load}
run W1 2.5 mm² red, ${feed}, B1:+ to F1:in
run W2 ${out}, F1:out to LAMP:+
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
${more}`;

const capacity = (own: string, changes?: Lamp) => answersOf(lamp(own, changes)).core('W2').capacity;
const limits = (own: string) => answersOf(lamp(own)).answers.limits;
const message = (text: string, slug: string, subject?: string) =>
  analyseText(text).findings.find((one) => one.slug === slug && (subject === undefined || one.subject === subject))
    ?.message ?? '';

describe('what it does not say stays as published', () => {
  test.each([...limitSets.values()].map((set) => [set.id, set] as const))('%s', (id, published) => {
    const own = limits(`based on ${id}`);
    expect([own.id, own.base]).toEqual(['ours', id]);
    for (const essential of [true, false]) expect(own.drop(essential)).toEqual(published.drop(essential));
    for (const sheathed of [true, false])
      expect(own.unfusedLength(sheathed)).toEqual(published.unfusedLength(sheathed));
    for (const sheathed of [true, false]) expect(own.tail(sheathed)).toEqual(published.tail(sheathed));
    expect([own.lightlyLoaded, own.pvFactor]).toEqual([published.lightlyLoaded, published.pvFactor]);
    const conditions = {
      size: { system: 'mm2', areaMm2: 6 },
      insulationCelsius: 105,
      ambientCelsius: 45,
      bunchedWith: 3,
      cores: 1,
      inConduit: false,
      engineSpace: false,
      nominalVolts: 12,
      aluminium: false,
    } as const;
    const iz = own.capacity(conditions);
    expect(iz).toEqual(published.capacity(conditions));
    expect(own.permittedDeviceAmps(iz, 12)).toEqual(published.permittedDeviceAmps(iz, 12));
  });
});

describe('capacities', () => {
  it('are all taken times the factor', () => {
    const whole = capacity('based on iec-60364-5-52', { out: '2.5 mm² red, 4 m, bunched with 3' });
    const part = capacity('based on iec-60364-5-52, factor 0.8', { out: '2.5 mm² red, 4 m, bunched with 3' });
    expect(part?.amps).toBeCloseTo((whole?.amps ?? 0) * 0.8, 12);
    expect(part?.sources.map(({ citation }) => citation)).toContain('ours, the spec’s own set');
  });

  it('stated for a size replace the table’s at 30 °C, and follow its ambient and bunching', () => {
    const own = 'based on iec-60364-5-52, capacity 2.5 mm² 18 A, factor 0.9';
    expect(capacity(own)?.amps).toBeCloseTo(18 * 0.9, 12);
    const hot = { out: '2.5 mm² red, 4 m, along LOFT, bunched with 3', more: 'place LOFT 50 °C' };
    const published = capacity('based on iec-60364-5-52', hot);
    expect(capacity(own, hot)?.amps).toBeCloseTo(
      18 * 0.9 * (published?.ambientFactor ?? 0) * (published?.bunchingFactor ?? 0),
      12,
    );
    // Another size is as published.
    expect(capacity(own.replace(', factor 0.9', ''), { out: '4 mm² red, 4 m' })?.amps).toBe(
      capacity('based on iec-60364-5-52', { out: '4 mm² red, 4 m' })?.amps,
    );
  });

  it('are as stated at 30 °C, also for insulation that the published set carries on by a rule', () => {
    const own = capacity('based on iec-60364-5-52, capacity 2.5 mm² 33 A', { out: '2.5 mm² red, 105 °C, 4 m' });
    expect([own?.amps, own?.derived, own?.ambientFactor]).toEqual([33, false, 1]);
  });

  it('stated for an insulation hold from that upwards', () => {
    const own = 'based on iec-60364-5-52, capacity 2.5 mm² 20 A, capacity 2.5 mm² 28 A insulation 90 °C';
    const at = (insulation: string) => capacity(own, { out: `2.5 mm² red, ${insulation}, 4 m` })?.amps;
    expect(['70 °C', '85 °C', '90 °C', '120 °C'].map(at)).toEqual([20, 20, 28, 28]);
  });

  it('may be of a size that the published set does not list', () => {
    const odd = { out: '20 AWG red, 4 m' };
    expect(capacity('based on cfr-33-183', odd)?.reason).toBe('size-not-in-table');
    expect(capacity('based on cfr-33-183, capacity 20 AWG 6 A', odd)?.amps).toBe(6);
  });

  it('are of copper: aluminium carries less, derived', () => {
    const own = capacity('based on iec-60364-5-52, capacity 2.5 mm² 20 A', {
      out: '2.5 mm² aluminium red, 4 m'.replace(' aluminium red', ' red, aluminium'),
    });
    expect([own?.amps, own?.derived]).toEqual([expect.closeTo(15.6, 12), true]);
  });
});

describe('other figures', () => {
  const own = limits(
    'based on iec-60364-5-52, device 90 %, drop 4 %, essential drop 2 %, unfused 0.2 m, sheathed unfused 1 m, tail 0.3 m, sheathed tail 2 m, lightly loaded 20 %, pv factor 1.5, source "Workshop rules"',
  );

  it('are as stated, and from its source', () => {
    const source = expect.objectContaining({ citation: 'ours (Workshop rules)', status: 'stated in the spec' });
    expect(own.permittedDeviceAmps({ amps: 50 }, 12)).toEqual({ amps: 45, source });
    expect([own.drop(false), own.drop(true)]).toEqual([
      { ratio: 0.04, source },
      { ratio: 0.02, source },
    ]);
    expect([own.unfusedLength(false), own.unfusedLength(true)]).toEqual([
      { metres: 0.2, source },
      { metres: 1, source },
    ]);
    expect([own.tail(false), own.tail(true)]).toEqual([
      { metres: 0.3, source },
      { metres: 2, source },
    ]);
    expect([own.lightlyLoaded, own.pvFactor]).toEqual([
      { ratio: 0.2, source },
      { factor: 1.5, source },
    ]);
  });

  it('unfused without a sheath holds for sheathed cables too', () => {
    expect(limits('based on iec-60364-5-52, unfused 0.2 m').unfusedLength(true).metres).toBe(0.2);
  });

  it('a tail keeps what the published set bounds the device before it by', () => {
    const own = limits('based on nec-310, tail 0.5 m');
    expect([own.tail(true).metres, own.tail(false).metres, own.tail(false).timesCapacity]).toEqual([0.5, 0.5, 10]);
  });

  it('a usual drop below the published one of what must not fail holds for that too', () => {
    const strict = limits('based on iec-60364-5-52, drop 2 %');
    expect([strict.drop(true).ratio, strict.drop(false).ratio]).toEqual([0.02, 0.02]);
    expect(limits('based on iec-60364-5-52, drop 6 %').drop(true).ratio).toBe(0.03);
  });

  it('nought in a bunch counts every cable', () => {
    expect(limits('based on iec-60364-5-52, lightly loaded 0 %').lightlyLoaded).toBeUndefined();
  });

  it('a device part replaces the small conductors’ rule of the NEC', () => {
    expect(limits('based on nec-310, device 100 %').permittedDeviceAmps({ amps: 25 }, 12).amps).toBe(25);
  });
});

describe('findings cite it by name and source', () => {
  const own = 'based on iec-60364-5-52, factor 0.6, drop 1 %, unfused 0.05 m, source "Workshop rules"';

  it('for a cable, a drop and a length', () => {
    const text = lamp(own);
    expect(message(text, 'cable-too-small', 'W1')).toMatch(/is good for [\d.]+ A by ours \(Workshop rules\)/u);
    expect(message(text, 'drop-over-limit')).toContain('more than 1 % (ours, Workshop rules)');
    expect(message(text, 'protection-too-far')).toContain('(ours, Workshop rules)');
    for (const { figures, slug } of analyseText(text).findings)
      if (slug === 'cable-too-small') expect(figures.limits).toBe('ours');
  });

  it('for a device that may be less than the cable carries', () => {
    expect(message(lamp('based on iec-60364-5-52, device 70 %, source "Workshop rules"'), 'cable-too-small')).toMatch(
      /yet its device may be no more than [\d.]+ A by ours \(Workshop rules\)/u,
    );
  });

  it('not where the figure is the published set’s', () => {
    const text = lamp('based on iec-60364-5-52, unfused 0.05 m', { fuse: '40 A' });
    expect(message(text, 'cable-too-small', 'W1')).toContain('is good for 27 A:');
  });

  it('and the values from memory of the set it is based on are still said, where they count', () => {
    const iso = lamp('based on iso-13297, drop 1 %, essential drop 1 %, unfused 0.05 m', { fuse: '40 A' });
    const caution = 'not checked against the printed standard';
    expect(message(iso, 'cable-too-small')).toContain(caution);
    expect(message(iso, 'drop-over-limit')).not.toContain(caution);
    expect(message(iso, 'protection-too-far')).not.toContain(caution);
    expect(message(lamp('based on iso-13297', { feed: '0.5 m' }), 'protection-too-far')).toContain(caution);
  });
});

describe('where it stands', () => {
  it('may be another file', () => {
    const rules = 'stock ours limit-set based on nec-310, drop 1 %\n';
    const text = `use "rules.amps"\n${lamp('').replace('stock ours limit-set \n', '')}`;
    const { answers, findings } = analyseText(text, { 'rules.amps': rules });
    expect([answers.limits.id, answers.limits.base, answers.limitsStated]).toEqual(['ours', 'nec-310', true]);
    expect(findings.map(({ slug }) => slug)).toContain('drop-over-limit');
  });

  it('may take another set of its own and override it', () => {
    const text = lamp('= strict, drop 6 %', {
      more: 'stock strict limit-set based on cfr-33-183, factor 0.5, drop 1 %\n',
    });
    const { limits: own } = analyseText(text).answers;
    expect([own.base, own.drop(false).ratio]).toEqual(['cfr-33-183', 0.06]);
    expect(own.drop(false).source.citation).toContain('ours');
  });

  it('a set over one that is not there is over that of the units', () => {
    const { model, answers } = analyseText(lamp('based on iec-60364-5-53, factor 0.5'));
    expect(limitsOf(model).base).toBe('iec-60364-5-52');
    expect(answers.limits.id).toBe('ours');
  });
});

it('chosen sizes follow it', () => {
  const blank = (own: string) =>
    answersOf(lamp(own, { out: '? mm² red, 1 m', fuse: '15 A' }))
      .chosen('W2')
      .join();
  expect([blank('based on iec-60364-5-52'), blank('based on iec-60364-5-52, factor 0.3')]).toEqual(['1 mm²', '10 mm²']);
});
