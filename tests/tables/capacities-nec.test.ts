/** Capacities of the set `nec-310` against NEC tables 310.16, 310.15(B)(1) and 310.15(C)(1), every cell. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { awgAreaMm2, type Size } from '../../server/physics/conductors.ts';
import type { CapacityConditions } from '../../server/physics/limits/limit-set.ts';
import { nec310 } from '../../server/physics/limits/nec-310.ts';
import { kcmilMm2, necRows } from '../../server/tables/nec-310.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from '../answers/spec.ts';
import { placeOf, read } from '../editor/hovering.ts';
import { figure, gaugeOf, readTable } from '../reference/read.ts';

const usual: CapacityConditions = {
  size: { system: 'awg', gauge: 8 },
  insulationCelsius: 75,
  ambientCelsius: 30,
  bunchedWith: 0,
  cores: 1,
  inConduit: false,
  engineSpace: false,
  nominalVolts: 12,
  aluminium: false,
};
const capacity = (conditions: Partial<CapacityConditions>) => nec310.capacity({ ...usual, ...conditions });
const columns = [60, 75, 90];

/** Gauges as such; what is printed in thousands of circular mils as its cross-section. */
function sizeOf(printed: string): Size {
  const number = Number(printed);
  return number >= 250 ? { system: 'mm2', areaMm2: number * kcmilMm2 } : { system: 'awg', gauge: gaugeOf(printed) };
}

const runCapacity = (clauses: string, ambient = 30) =>
  answersOf(`system "Shed" 12 V, ambient ${ambient} °C, limits nec-310
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 ${clauses}, 3 ft, B1:+ to LAMP:+
run W2 8 AWG black, 3 ft, LAMP:- to B1:-
`).core('W1').capacity;

describe('table 310.16', () => {
  const cells = readTable('nec-310-16.csv').flatMap((row) =>
    columns.flatMap((celsius) =>
      (['Cu', 'Al'] as const).map((metal) => ({
        printed: row.size_awg_kcmil ?? '',
        celsius,
        metal,
        amps: row[`${metal}_${celsius}C`] === '' ? undefined : figure(row, `${metal}_${celsius}C`),
      })),
    ),
  );

  it('has 21 sizes by six columns, three cells of them empty', () => {
    expect([cells.length, cells.filter(({ amps }) => amps === undefined).length]).toEqual([21 * 6, 3]);
    expect(necRows.length).toBe(21);
  });

  test.each(cells)('$printed $metal at $celsius °C: $amps A', ({ printed, celsius, metal, amps }) => {
    const size = sizeOf(printed);
    const found = capacity({ size, insulationCelsius: celsius, aluminium: metal === 'Al' });
    expect([found.amps, found.reason]).toEqual(amps === undefined ? [0, 'size-not-in-table'] : [amps, undefined]);
    if (size.system !== 'awg' || metal === 'Al') return;
    const written = size.gauge <= 0 ? `${1 - size.gauge}/0` : String(size.gauge);
    expect(runCapacity(`${written} AWG red, ${celsius} °C`)?.amps).toBe(amps);
  });

  it('takes insulation between its columns by the lower one, and above 90 °C by that of 90 °C', () => {
    expect(runCapacity('8 AWG red')?.amps).toBe(40);
    expect([capacity({ insulationCelsius: 105 }).amps, capacity({ insulationCelsius: 105 }).derived]).toEqual([
      55,
      true,
    ]);
    expect(capacity({ insulationCelsius: 59 }).reason).toBe('insulation-below-table');
  });

  it('takes a size in mm² by the thickest that is not thicker, derived', () => {
    // 10 mm² lies between 8 AWG (8.37 mm²) and 6 AWG (13.3 mm²); 150 mm² between 250 and 300 kcmil.
    expect([awgAreaMm2(8) < 10, awgAreaMm2(6) > 10, 250 * kcmilMm2 < 150, 300 * kcmilMm2 > 150]).toEqual(
      Array(4).fill(true),
    );
    const ten = capacity({ size: { system: 'mm2', areaMm2: 10 } });
    expect([ten.amps, ten.derived, capacity({ size: { system: 'mm2', areaMm2: 150 } }).amps]).toEqual([50, true, 255]);
    expect(capacity({ size: { system: 'awg', gauge: 18 } }).reason).toBe('size-not-in-table');
  });
});

describe('table 310.15(B)(1): ambient', () => {
  const bands = readTable('nec-310-15-b-1.csv').flatMap((row) => {
    const printed = row.ambient_C ?? '';
    const [from, upTo] = printed === '10 or less' ? [-20, 10] : printed.split('-').map(Number);
    return columns.map((celsius) => ({
      from: from ?? Number.NaN,
      upTo: upTo ?? Number.NaN,
      celsius,
      factor: row[`${celsius}C`] === '' ? undefined : figure(row, `${celsius}C`),
    }));
  });

  it('has 16 bands by three columns, nine cells of them empty', () => {
    expect([bands.length, bands.filter(({ factor }) => factor === undefined).length]).toEqual([48, 9]);
  });

  test.each(bands)('$from to $upTo °C, $celsius °C insulation: $factor', ({ from, upTo, celsius, factor }) => {
    // A whole band has the factor of its warm end; so has what lies between two printed bands.
    for (const ambient of [from, upTo, upTo - 0.5]) {
      const found = capacity({ ambientCelsius: ambient, insulationCelsius: celsius });
      expect([found.ambientFactor, found.reason]).toEqual(
        factor === undefined ? [0, 'ambient-at-limit'] : [factor, undefined],
      );
      expect(found.amps).toBeCloseTo(found.tableAmps * (factor ?? 0), 12);
    }
    // The warm end of each band follows the square-root rule.
    if (factor !== undefined)
      expect(Math.abs(factor - Math.sqrt((celsius - upTo) / (celsius - 30)))).toBeLessThan(0.01);
    expect(runCapacity(`8 AWG red, ${celsius} °C`, upTo)?.ambientFactor).toBe(factor ?? 0);
  });

  it('ends at 85 °C', () => {
    expect(capacity({ ambientCelsius: 85.1, insulationCelsius: 90 }).reason).toBe('ambient-at-limit');
  });
});

describe('table 310.15(C)(1): more than three current-carrying conductors', () => {
  const rows = readTable('nec-310-15-c-1.csv').map((row) => {
    const [from, to] = (row.conductors ?? '').split(/-| and above/).map(Number);
    return { from: from ?? Number.NaN, to: to === undefined || to === 0 ? 60 : to, factor: figure(row, 'factor') };
  });

  it('has seven rows', () => {
    expect(rows.map(({ from }) => from)).toEqual([1, 4, 7, 10, 21, 31, 41]);
  });

  test.each(rows)('$from to $to: $factor', ({ from, to, factor }) => {
    for (const conductors of [from, to]) {
      const found = capacity({ bunchedWith: conductors - 1 });
      expect([found.circuits, found.bunchingFactor]).toEqual([conductors, factor]);
      expect(found.amps).toBeCloseTo(50 * factor, 12);
    }
    expect(runCapacity(`8 AWG red, 75 °C, bunched with ${to - 1}`)?.bunchingFactor).toBe(factor);
  });

  it('counts the cores of the cable itself', () => {
    expect(capacity({ cores: 3, bunchedWith: 1 }).bunchingFactor).toBe(0.8);
    expect(capacity({ cores: 3, bunchedWith: 0 }).bunchingFactor).toBe(1);
    // And those of others, where they are known.
    expect(capacity({ bunchedWith: 2, bunchedCores: [2, 4] }).circuits).toBe(7);
  });

  it('says on hover that conductors are counted', () => {
    const text = `system 12 V, limits nec-310
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 8 AWG red, 3 ft, bunched with 4, B1:+ to LAMP:+
run W2 8 AWG black, 3 ft, LAMP:- to B1:-
`;
    const hovered = (run: string) => read(analyseText(text), placeOf(text, `run ${run}`) + 4)?.value;
    expect(hovered('W1')).toContain('× 0.8 for 5 conductors together');
    expect(hovered('W2')).toContain('× 1 for one conductor alone');
  });
});

describe('240.4(D): the device of a small conductor', () => {
  test.each([
    [14, 15],
    [12, 20],
    [10, 30],
  ])('%d AWG of copper: %d A, however good its insulation', (gauge, amps) => {
    const found = capacity({ size: { system: 'awg', gauge }, insulationCelsius: 90 });
    expect(found.amps).toBeGreaterThan(amps);
    expect(nec310.permittedDeviceAmps(found, 12).amps).toBe(amps);
    expect(nec310.permittedDeviceAmps(found, 12).source?.status).toBe('confirmed');
    // Less where the conductor itself is good for less.
    const hot = capacity({ size: { system: 'awg', gauge }, ambientCelsius: 70, insulationCelsius: 75 });
    expect(nec310.permittedDeviceAmps(hot, 12)).toEqual({ amps: hot.amps, source: undefined });
  });

  it('larger ones: their capacity', () => {
    expect(nec310.permittedDeviceAmps(capacity({}), 12).amps).toBe(50);
  });

  it('is told in the finding', () => {
    const found = (rating: number) =>
      analyseText(`system "Shed" 12 V, limits nec-310
battery B1 lead-acid, 12 V, 80 Ah
fuse F1 ${rating} A, blade, 32 V
load LAMP 5 A
run W1 6 AWG red, 90 °C, 0.3 ft, B1:+ to F1:in
run W2 14 AWG red, 90 °C, 3 ft, F1:out to LAMP:+
run W3 14 AWG black, 90 °C, 3 ft, LAMP:- to B1:-
`).findings.filter(({ slug, subject }) => slug === 'cable-too-small' && subject === 'W2');
    expect(found(15)).toEqual([]);
    expect(found(20)[0]?.message).toContain('no more than 15 A (NEC (NFPA 70) 240.4(D))');
  });
});

it('limits of drop, length and panels: 3 % and 5 % (210.19, confirmed), 18 inches (from memory), 156 % (690.8, confirmed)', () => {
  expect([nec310.drop(true).ratio, nec310.drop(false).ratio]).toEqual([0.03, 0.05]);
  expect(readTable('drop-limits.csv').find(({ source }) => source?.startsWith('NEC 210.19'))?.rule).toContain('5 %');
  expect(nec310.unfusedLength(false).metres).toBeCloseTo(0.4572, 12);
  expect(nec310.unfusedLength(false).source.status).toBe('from memory');
  expect(readTable('pv-circuit-rules.csv').find(({ rule }) => rule?.includes('1.5625'))).toBeDefined();
  expect(nec310.pvFactor.factor).toBe(1.5625);
});

it('hotter, thinner or more bunched never carries more', () => {
  const conditions = fc.record({
    size: fc.constantFrom<Size[]>(
      ...necRows.map(
        ({ size }): Size =>
          'gauge' in size ? { system: 'awg', gauge: size.gauge } : { system: 'mm2', areaMm2: size.kcmil * kcmilMm2 },
      ),
      { system: 'mm2', areaMm2: 6 },
    ),
    insulationCelsius: fc.integer({ min: 50, max: 150 }),
    ambientCelsius: fc.integer({ min: -20, max: 120 }),
    bunchedWith: fc.integer({ min: 0, max: 50 }),
    aluminium: fc.boolean(),
  });
  fc.assert(
    fc.property(conditions, fc.integer({ min: 1, max: 30 }), (one, more) => {
      const { amps } = capacity(one);
      const area = one.size.system === 'awg' ? awgAreaMm2(one.size.gauge) : one.size.areaMm2;
      expect(capacity({ ...one, ambientCelsius: one.ambientCelsius + more }).amps).toBeLessThanOrEqual(amps);
      expect(capacity({ ...one, bunchedWith: one.bunchedWith + more }).amps).toBeLessThanOrEqual(amps);
      expect(capacity({ ...one, size: { system: 'mm2', areaMm2: area + more } }).amps).toBeGreaterThanOrEqual(amps);
    }),
    { numRuns: 500 },
  );
});
