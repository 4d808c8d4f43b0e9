/** Capacities of the set `iec-60364-5-52` against BS 7671 4D1A/4E1A and IEC 60364-5-52 B.52.14 and B.52.17. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { bunchedCircuits, iec60364552 } from '../../server/physics/limits/iec-60364-5-52.ts';
import type { Capacity, CapacityConditions } from '../../server/physics/limits/limit-set.ts';
import { bunchingFactor } from '../../server/tables/factors.ts';
import { slugs } from '../analysed.ts';
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

const capacity = (conditions: Partial<CapacityConditions>) => iec60364552.capacity({ ...usual, ...conditions });
const size = (areaMm2: number) => ({ system: 'mm2', areaMm2 }) as const;

/** Capacity of a run in a spec. */
function runCapacity(clauses: string, ambient = 30): Capacity {
  const found = answersOf(`system "Shed" 12 V, ambient ${ambient} °C, limits iec-60364-5-52
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 ${clauses}, 1 m, B1:+ to LAMP:+
run W2 10 mm² black, 1 m, LAMP:- to B1:-
`).core('W1').capacity;
  if (found === undefined) throw new Error('no capacity');
  return found;
}

describe.each([
  { file: 'bs-7671-4d1a.csv', table: '4D1A', insulation: 70 },
  { file: 'bs-7671-4e1a.csv', table: '4E1A', insulation: 90 },
])('BS 7671 table $table, two cables d.c., 30 °C', ({ file, insulation }) => {
  const rows = readTable(file).map((row) => ({
    mm2: figure(row, 'size_mm2'),
    conduit: figure(row, 'B_2cables'),
    clipped: figure(row, 'C_2cables'),
  }));

  it('has all sixteen sizes', () => {
    expect(rows.map(({ mm2 }) => mm2)).toEqual([1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240]);
  });

  test.each(rows)('$mm2 mm²: method B $conduit A, method C $clipped A', ({ mm2, conduit, clipped }) => {
    const open = capacity({ size: size(mm2), insulationCelsius: insulation });
    const inConduit = capacity({ size: size(mm2), insulationCelsius: insulation, inConduit: true });
    expect([open.amps, open.tableAmps, open.derived]).toEqual([clipped, clipped, false]);
    expect([inConduit.amps, inConduit.tableAmps, inConduit.derived]).toEqual([conduit, conduit, false]);
    // And in a spec.
    expect(runCapacity(`${mm2} mm² red, ${insulation} °C`).amps).toBe(clipped);
    expect(runCapacity(`${mm2} mm² red, ${insulation} °C, in conduit`).amps).toBe(conduit);
  });

  it('between its rows, below and beyond, keeps order and says that it is derived', () => {
    const areas = [0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 42, 50, 60, 70, 240, 300];
    const found = areas.map((mm2) => capacity({ size: size(mm2), insulationCelsius: insulation }));
    for (let i = 1; i < areas.length; i++) expect(found[i]?.amps).toBeGreaterThan(found[i - 1]?.amps ?? 0);
    const tabled = new Set(rows.map(({ mm2 }) => mm2));
    areas.forEach((mm2, i) => {
      expect(found[i]?.derived).toBe(!tabled.has(mm2));
    });
  });
});

describe('IEC 60364-5-52 table B.52.14: ambient', () => {
  const rows = readTable('iec-60364-5-52-b52-14.csv');
  const cells = rows.flatMap((row) =>
    [
      { column: 'PVC_70C', insulation: 70 },
      { column: 'XLPE_90C', insulation: 90 },
    ]
      .filter(({ column }) => row[column] !== '')
      .map(({ column, insulation }) => ({
        ambient: figure(row, 'ambient_C'),
        insulation,
        factor: figure(row, column),
      })),
  );

  it('has 27 cells', () => {
    expect(cells.length).toBe(11 + 16);
  });

  test.each(cells)('$ambient °C around $insulation °C insulation: $factor', ({ ambient, insulation, factor }) => {
    const found = capacity({ ambientCelsius: ambient, insulationCelsius: insulation });
    // The rule √((θmax − θa)/(θmax − 30)) stays within 0.01 of the table.
    expect(Math.abs(found.ambientFactor - factor)).toBeLessThan(0.01);
    expect(found.ambientFactor).toBeCloseTo(Math.sqrt((insulation - ambient) / (insulation - 30)), 12);
    expect(found.amps).toBeCloseTo(found.tableAmps * found.ambientFactor, 12);
    expect(runCapacity(`2.5 mm² red, ${insulation} °C`, ambient).amps).toBeCloseTo(found.amps, 9);
  });

  test.each([
    [70, 70],
    [70, 71],
    [90, 90],
    [90, 100],
    [105, 105],
    [105, 120],
  ])('insulation of %d °C in %d °C carries nothing', (insulation, ambient) => {
    const found = capacity({ insulationCelsius: insulation, ambientCelsius: ambient });
    expect([found.amps, found.reason]).toEqual([0, 'ambient-at-limit']);
    expect(runCapacity(`2.5 mm² red, ${insulation} °C`, ambient).amps).toBe(0);
  });

  it('of 70 to 89 °C insulation is that of the 70 °C column', () => {
    expect(capacity({ insulationCelsius: 85, ambientCelsius: 50 }).amps).toBe(capacity({ ambientCelsius: 50 }).amps);
    expect(capacity({ insulationCelsius: 85, ambientCelsius: 75 }).reason).toBe('ambient-at-limit');
  });
});

describe('above 90 °C', () => {
  test.each([
    [105, 30],
    [105, 55],
    [105, 90],
    [125, 60],
    [150, 30],
    [200, 40],
  ])('insulation of %d °C in %d °C: the 90 °C column × √((θmax − θa)/60), derived', (insulation, ambient) => {
    const found = capacity({ insulationCelsius: insulation, ambientCelsius: ambient });
    // 34 A: 4E1A, 2.5 mm², method C.
    expect(found.amps).toBeCloseTo(34 * Math.sqrt((insulation - ambient) / 60), 12);
    expect([found.tableAmps, found.derived, found.reason]).toEqual([34, true, undefined]);
  });

  it('goes on from the 90 °C column without a step', () => {
    const at90 = capacity({ insulationCelsius: 90, ambientCelsius: 50 });
    const above = capacity({ insulationCelsius: 90.001, ambientCelsius: 50 });
    expect(above.amps / at90.amps).toBeCloseTo(1, 4);
    expect([at90.derived, above.derived]).toEqual([false, true]);
  });
});

describe('below 70 °C', () => {
  test.each([40, 60, 69])('insulation of %d °C has no capacity, and that is found', (insulation) => {
    const found = capacity({ insulationCelsius: insulation });
    expect([found.amps, found.reason]).toEqual([0, 'insulation-below-table']);
    const text = `battery B1 lead-acid, 12 V, 80 Ah
fuse F1 5 A, blade, 32 V
load LAMP 3 A
run W0 6 mm² red, 0.1 m, B1:+ to F1:in
run W1 6 mm² red, 1 m, ${insulation} °C, F1:out to LAMP:+
run W2 6 mm² black, 1 m, LAMP:- to B1:-
`;
    expect(slugs(text)).toContain('cable-too-small');
    expect(slugs(text.replace(`, ${insulation} °C`, ''))).not.toContain('cable-too-small');
  });
});

describe('IEC 60364-5-52 table B.52.17, item 1: circuits bunched', () => {
  const [row = {}] = readTable('iec-60364-5-52-b52-17.csv');
  const tabled = [1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 16, 20].map((circuits) => ({
    circuits,
    factor: figure(row, String(circuits)),
  }));

  test.each(tabled)('$circuits circuits: $factor', ({ circuits, factor }) => {
    expect(bunchingFactor(circuits)).toBe(factor);
    // Single cores: two a circuit. Multicore cables: a circuit each.
    const singles = capacity({ bunchedWith: 2 * circuits - 1 });
    const multicore = capacity({ bunchedWith: circuits - 1, cores: 2 });
    for (const found of [singles, multicore]) {
      expect([found.circuits, found.bunchingFactor]).toEqual([circuits, factor]);
      expect(found.amps).toBeCloseTo(27 * factor, 12);
    }
  });

  test.each([
    [10, 0.45],
    [11, 0.45],
    [13, 0.41],
    [17, 0.38],
    [21, 0.38],
    [40, 0.38],
  ])('%d circuits, between the columns or past them: %d', (circuits, factor) => {
    expect(bunchingFactor(circuits)).toBe(factor);
  });

  // circuits = ⌈(cables + 1)/2⌉, `cables` the others that the run is bunched with.
  test.each([
    [0, 1],
    [1, 1],
    [2, 2],
    [3, 2],
    [4, 3],
    [5, 3],
    [6, 4],
    [7, 4],
    [10, 6],
    [11, 6],
  ])('bunched with %d other single cores: %d circuits', (others, circuits) => {
    expect(bunchedCircuits(others, 1)).toBe(circuits);
    const found = runCapacity(`2.5 mm² red, bunched with ${others}`);
    expect([found.circuits, found.bunchingFactor]).toEqual([circuits, bunchingFactor(circuits)]);
  });

  it('and ambient multiply', () => {
    // 6 mm², 70 °C, method C 47 A; 50 °C: √(20/40); three circuits: 0.70.
    expect(runCapacity('6 mm² red, bunched with 5', 50).amps).toBeCloseTo(47 * Math.sqrt(0.5) * 0.7, 9);
  });
});

it('hotter, thinner or more bunched never carries more', () => {
  const conditions = fc.record({
    mm2: fc.constantFrom(0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70),
    insulation: fc.integer({ min: 60, max: 150 }),
    ambient: fc.integer({ min: -10, max: 120 }),
    bunched: fc.integer({ min: 0, max: 40 }),
    inConduit: fc.boolean(),
  });
  fc.assert(
    fc.property(
      conditions,
      fc.integer({ min: 1, max: 30 }),
      ({ mm2, insulation, ambient, bunched, inConduit }, more) => {
        const of = (change: Partial<CapacityConditions>) =>
          capacity({
            size: size(mm2),
            insulationCelsius: insulation,
            ambientCelsius: ambient,
            bunchedWith: bunched,
            inConduit,
            ...change,
          }).amps;
        const amps = of({});
        expect(amps).toBeGreaterThanOrEqual(0);
        expect(of({ ambientCelsius: ambient + more })).toBeLessThanOrEqual(amps);
        expect(of({ bunchedWith: bunched + more })).toBeLessThanOrEqual(amps);
        expect(of({ insulationCelsius: insulation + more })).toBeGreaterThanOrEqual(amps);
        expect(of({ size: size(mm2 + more) })).toBeGreaterThanOrEqual(amps);
        expect(of({ inConduit: true })).toBeLessThanOrEqual(of({ inConduit: false }));
      },
    ),
    { numRuns: 500 },
  );
});
