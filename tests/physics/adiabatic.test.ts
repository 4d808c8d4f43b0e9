/** What conductors withstand in a fault: IEC 60364-4-43 table 43A, every cell, and the rule that it follows. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { adiabaticK, withstandI2t } from '../../server/physics/adiabatic.ts';
import { adiabaticRows, type ConductorMaterial, type InsulationKind } from '../../server/tables/adiabatic.ts';
import { cite } from '../../server/tables/table.ts';
import { figure, type Row, readTable } from '../reference/read.ts';

const published = readTable('iec-60364-4-43-k-factors.csv');
const parts = (row: Row, column: string) => (row[column] ?? '').split('/').map(Number);
const size = (areaMm2: number) => ({ system: 'mm2', areaMm2 }) as const;

/** The kinds as the published table words them, thin and, where a second value stands, thick or touchable. */
const kinds: Readonly<Record<string, readonly [InsulationKind, InsulationKind?]>> = {
  '70 C PVC': ['pvc'],
  '90 C PVC': ['pvc'],
  '60 C rubber / thermosetting': ['rubber'],
  '85 C rubber / butyl': ['rubber'],
  '90 C EPR/XLPE': ['xlpe'],
  'mineral, PVC sheath': ['mineral-pvc'],
  'mineral, bare: not touchable / touchable': ['mineral-bare', 'mineral-bare-touchable'],
};

describe('table 43A: live conductors', () => {
  const live = published.filter(({ use }) => use === 'live conductor');

  it('has ten rows, each in the table the answers use', () => {
    expect(live.length).toBe(10);
    // The touchable mineral one is a row of its own there.
    expect(adiabaticRows.length).toBe(11);
  });

  test.each(live.map((row) => ({ row, name: `${row.conductor}, ${row.insulation}: ${row.k}` })))('$name', ({ row }) => {
    const [kind, other] = kinds[row.insulation ?? ''] ?? [];
    if (kind === undefined) throw new Error(`no kind for ${row.insulation}`);
    const material = row.conductor as ConductorMaterial;
    const celsius = figure(row, 'initial_C');
    const [thin, second] = parts(row, 'k');
    const found = withstandI2t(size(10), { celsius, kind }, material);
    expect([found.k, found.derived, found.assumed]).toEqual([thin, false, false]);
    expect(found.i2t).toBeCloseTo(((thin ?? 0) * 10) ** 2, 6);
    expect(found.sources.map(cite)).toEqual(['IEC 60364-4-43 table 43A (BS 7671 table 43.1)']);
    if (other !== undefined) expect(withstandI2t(size(10), { celsius: 70, kind: other }, material).k).toBe(second);
    else if (second !== undefined) {
      const thick = withstandI2t(size(400), { celsius, kind }, material);
      expect([thick.k, withstandI2t(size(300), { celsius, kind }, material).k]).toEqual([second, thin]);
      expect(thick.sources.map(cite).join()).toContain('not checked against the printed standard');
    }
  });

  it('90 A for 0.4 s in copper with PVC need 0.49 mm² (Basic Electrical Installation Work, p. 251: printed 0.49, exactly 0.495)', () => {
    const { k } = withstandI2t(size(1), { celsius: 70, kind: 'pvc' });
    expect(Math.sqrt(90 ** 2 * 0.4) / k).toBeCloseTo(0.495, 3);
    expect(withstandI2t(size(0.5), { celsius: 70, kind: 'pvc' }).i2t).toBeGreaterThan(90 ** 2 * 0.4);
    expect(withstandI2t(size(0.49), { celsius: 70, kind: 'pvc' }).i2t).toBeLessThan(90 ** 2 * 0.4);
  });
});

describe('the rule k = K √ln((β + θf)/(β + θi))', () => {
  const cells = published
    .filter(({ conductor }) => conductor !== 'steel')
    .flatMap((row) => {
      const starts = parts(row, 'initial_C');
      const ends = parts(row, 'final_C');
      const ks = parts(row, 'k');
      return ks.map((k, i) => ({
        name: `${row.use}, ${row.conductor}, ${row.insulation}`,
        material: row.conductor as ConductorMaterial,
        // A touchable mineral-insulated cable is 70 °C in service and 160 °C in a fault.
        from: row.insulation?.startsWith('mineral, bare') && i === 1 ? 70 : (starts[i] ?? starts[0] ?? Number.NaN),
        to:
          row.insulation?.startsWith('mineral, bare') && i === 1
            ? 160
            : (ends[i] ?? (i === 1 ? 140 : ends[0]) ?? Number.NaN),
        k,
      }));
    });

  test.each(cells)('$name: $k from $from °C to $to °C', ({ material, from, to, k }) => {
    expect(Math.abs(adiabaticK(material, from, to) - k)).toBeLessThan(1);
  });

  it('is nought where a fault can end no warmer than it starts', () => {
    expect(adiabaticK('copper', 160, 160)).toBe(0);
    expect(adiabaticK('copper', 200, 160)).toBe(0);
    expect(withstandI2t(size(6), { celsius: 260, kind: 'xlpe' }).i2t).toBe(0);
  });
});

describe('insulation of which only the temperature is said', () => {
  test.each([
    [70, 115, 'pvc', false],
    [90, 100, 'pvc', false],
    // 226 √ln(394.5/339.5)
    [105, 226 * Math.sqrt(Math.log(394.5 / 339.5)), 'pvc', true],
    // 226 √ln(484.5/359.5)
    [125, 226 * Math.sqrt(Math.log(484.5 / 359.5)), 'xlpe', true],
    [60, 226 * Math.sqrt(Math.log(394.5 / 294.5)), 'pvc', true],
  ] as const)('%d °C: k %d, taken as %s', (celsius, k, insulation, derived) => {
    const found = withstandI2t(size(2.5), { celsius });
    expect(found.k).toBeCloseTo(k, 9);
    expect([found.insulation, found.derived, found.assumed]).toEqual([insulation, derived, true]);
    expect(found.sources.map(cite).join()).toMatch(
      derived ? /annex A \(not checked against the printed standard\)/ : /table 43A/,
    );
  });

  it('never withstands more than the same of a kind that serves at it', () => {
    for (const { material, insulation, celsius } of adiabaticRows)
      expect(withstandI2t(size(4), { celsius }, material).i2t).toBeLessThanOrEqual(
        withstandI2t(size(4), { celsius, kind: insulation }, material).i2t,
      );
  });
});

it('a gauge counts with its own cross-section', () => {
  // 12 AWG is 3.309 mm² (ASTM B258).
  expect(withstandI2t({ system: 'awg', gauge: 12 }, { celsius: 70 }).i2t / (115 * 3.309) ** 2).toBeCloseTo(1, 3);
});

it('more copper never withstands less, a hotter start never more', () => {
  const kind = fc.constantFrom<(InsulationKind | undefined)[]>('pvc', 'rubber', 'xlpe', 'mineral-pvc', 'mineral-bare');
  fc.assert(
    fc.property(
      fc.double({ min: 0.2, max: 290, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
      fc.integer({ min: 40, max: 240 }),
      fc.integer({ min: 1, max: 40 }),
      kind,
      fc.constantFrom<ConductorMaterial[]>('copper', 'aluminium'),
      (area, more, celsius, hotter, of, material) => {
        const found = withstandI2t(size(area), { celsius, kind: of }, material).i2t;
        expect(Number.isFinite(found)).toBe(true);
        expect(withstandI2t(size(area + more), { celsius, kind: of }, material).i2t).toBeGreaterThanOrEqual(found);
        // The k of the table are rounded. Rubber of 85 °C is a better one than that of 60 °C, so its k is no smaller for being hotter in service.
        if (of !== 'rubber')
          expect(withstandI2t(size(area), { celsius: celsius + hotter, kind: of }, material).i2t).toBeLessThanOrEqual(
            found * 1.01,
          );
        expect(withstandI2t(size(area), { celsius, kind: of }, 'aluminium').i2t).toBeLessThan(
          withstandI2t(size(area), { celsius, kind: of }, 'copper').i2t + 1e-9,
        );
      },
    ),
  );
});
