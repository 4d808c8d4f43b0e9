/** Resistances of conductors against IEC 60228, ASTM B258 and their corrections for temperature. */
import { describe, expect, it, test } from 'vitest';
import {
  areaMm2,
  atTemperature,
  awgAreaMm2,
  awgDiameterMetres,
  copperCoefficient,
  copperResistivity,
  ohmsPerMetreAt20,
  strandedAwgFactor,
} from '../../server/physics/conductors.ts';
import { answersOf } from '../answers/spec.ts';
import { figure, gaugeOf, readTable } from '../reference/read.ts';

const resistances = readTable('iec-60228-resistance.csv');
const gauges = readTable('awg-astm-b258.csv');
const feetPerKilometre = 1000 / 0.3048;

describe('IEC 60228 (2004, 2023), tables 1, 2 and 3: greatest resistance at 20 °C', () => {
  const columns = [
    ['class1_plain', 1, false],
    ['class1_coated', 1, true],
    ['class2_plain', 2, false],
    ['class2_coated', 2, true],
    ['class5_plain', 5, false],
    ['class5_coated', 5, true],
  ] as const;
  const cells = resistances.flatMap((row) =>
    columns
      .filter(([column]) => row[column] !== '')
      .map(([column, conductorClass, tinned]) => ({
        mm2: figure(row, 'size_mm2'),
        column,
        conductorClass,
        tinned,
        ohmsPerKilometre: figure(row, column),
      })),
  );

  it('has every size and class', () => {
    expect(resistances.length).toBe(18);
    expect(cells.length).toBe(18 * 6 - 9);
  });

  test.each(cells)('$mm2 mm² $column: $ohmsPerKilometre Ω/km', ({ mm2, conductorClass, tinned, ohmsPerKilometre }) => {
    const ohms = ohmsPerMetreAt20({ size: { system: 'mm2', areaMm2: mm2 }, conductorClass, tinned });
    expect(ohms * 1000).toBeCloseTo(ohmsPerKilometre, 10);
  });

  // Ten sizes through the whole, class 5 plain copper as where nothing else is said; figures of table 3 typed in.
  test.each([
    ['0.75', 26.0],
    ['1', 19.5],
    ['1.5', 13.3],
    ['2.5', 7.98],
    ['4', 4.95],
    ['6', 3.3],
    ['10', 1.91],
    ['16', 1.21],
    ['25', 0.78],
    ['35', 0.554],
    ['50', 0.386],
    ['70', 0.272],
  ])('a run of %s mm² has %d Ω/km', (size, ohmsPerKilometre) => {
    expect(runOhms(`${size} mm²`)).toBeCloseTo(ohmsPerKilometre / 100, 12);
  });

  test.each([
    ['class 1', 7.41],
    ['class 2', 7.41],
    ['class 5', 7.98],
    ['class 6', 7.98],
    ['class 2, tinned', 7.56],
    ['class 5, tinned', 8.21],
    ['solid', 7.41],
  ])('a run of 2.5 mm², %s, has %d Ω/km', (clauses, ohmsPerKilometre) => {
    expect(runOhms('2.5 mm²', clauses)).toBeCloseTo(ohmsPerKilometre / 100, 12);
  });

  it('between sizes goes with 1/S, near what the next listed size has', () => {
    for (const mm2 of [1.25, 3, 8, 12, 20, 30, 42, 60]) {
      const ohms = ohmsPerMetreAt20({ size: { system: 'mm2', areaMm2: mm2 } });
      expect(ohms).toBeGreaterThan(copperResistivity / mm2);
      expect(ohms).toBeLessThan((1.18 * copperResistivity) / mm2);
    }
  });
});

describe('ASTM B258 solid wire', () => {
  const checked = gauges
    .map((row) => ({ row, written: row.awg ?? '', gauge: gaugeOf(row.awg ?? '') }))
    .filter(({ gauge }) => gauge >= -3 && gauge <= 18);

  it('reaches from 18 to 4/0', () => {
    expect(checked.length).toBe(22);
  });

  test.each(checked)('$written AWG: diameter, area, resistance', ({ row, gauge }) => {
    // Published diameters and circular mils (a university's table): within what rounding leaves.
    expect(Math.abs(awgDiameterMetres(gauge) / 0.0254 / figure(row, 'pub_d_in_a') - 1)).toBeLessThan(4e-4);
    const circularMils = (awgDiameterMetres(gauge) / 0.0254) ** 2 * 1e6;
    expect(Math.abs(circularMils / figure(row, 'pub_cmil_a') - 1)).toBeLessThan(3e-4);
    expect(areaMm2({ system: 'awg', gauge })).toBeCloseTo(figure(row, 'calc_area_mm2'), 3);
  });

  const published = checked
    .filter(({ gauge }) => gauge >= -1 && gauge <= 14)
    .map(({ row, written, gauge }) => ({
      written,
      gauge,
      // Where the column in Ω/km stops, that in Ω/1000 ft has four figures.
      ohmsPerKilometre:
        row.pub_ohm_per_km_b !== '' && row.pub_ohm_per_km_b !== undefined
          ? figure(row, 'pub_ohm_per_km_b')
          : (figure(row, 'pub_ohm_per_kft_20C_a') * feetPerKilometre) / 1000,
    }));

  test.each(published)('$written AWG: $ohmsPerKilometre Ω/km within 0.1 %', ({ gauge, ohmsPerKilometre }) => {
    const ohms = ohmsPerMetreAt20({ size: { system: 'awg', gauge }, solid: true });
    expect(Math.abs((ohms * 1000) / ohmsPerKilometre - 1)).toBeLessThan(0.001);
    // Stranded: its lay makes it 2 % longer (from memory).
    expect(ohmsPerMetreAt20({ size: { system: 'awg', gauge } })).toBeCloseTo(ohms * 1.02, 15);
  });

  it('has all sixteen of 14 to 2/0', () => {
    expect(published.map(({ written }) => written)).toEqual([
      ...['2/0', '1/0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12', '13', '14'],
    ]);
    expect(strandedAwgFactor).toBe(1.02);
  });

  test.each([
    ['14 AWG', 8.285],
    ['12 AWG', 5.211],
    ['10 AWG', 3.277],
    ['8 AWG', 2.061],
    ['6 AWG', 1.296],
    ['4 AWG', 0.8152],
    ['2 AWG', 0.5127],
    ['1 AWG', 0.4066],
    ['1/0 AWG', 0.3224],
    ['2/0 AWG', 0.2557],
  ])('a run of %s has %d Ω/km when solid, 2 %% more when stranded', (size, ohmsPerKilometre) => {
    const solid = runOhms(size, 'solid');
    expect(Math.abs(solid / (ohmsPerKilometre / 100) - 1)).toBeLessThan(0.001);
    expect(runOhms(size)).toBeCloseTo(solid * 1.02, 12);
  });

  it('doubles its area every three gauges, nearly, and ten times every ten', () => {
    // 92^(6/39) = 2.005, 92^(20/39) = 10.16: by the definition of the gauge.
    expect(awgAreaMm2(9) / awgAreaMm2(12)).toBeCloseTo(92 ** (6 / 39), 12);
    expect(awgAreaMm2(0) / awgAreaMm2(10)).toBeCloseTo(92 ** (20 / 39), 12);
  });
});

describe('temperature', () => {
  it('of copper follows IEC 60028: 1/58 Ω·mm²/m and 0.00393/K at 20 °C', () => {
    const constants = readTable('copper-constants.csv');
    const conductivity = constants.find(({ quantity }) => quantity === 'conductivity');
    expect(copperResistivity).toBe(1 / figure(conductivity ?? {}, 'value'));
    const coefficient = constants.find(({ quantity }) => quantity?.startsWith('constant-mass'));
    expect(copperCoefficient).toBe(figure(coefficient ?? {}, 'value'));
  });

  it('agrees with NEC chapter 9 table 8 note 2: R2 = R1 (1 + 0.00323 (t2 − 75))', () => {
    for (const celsius of [20, 40, 60, 90, 105]) {
      const ratio = atTemperature(1, celsius) / atTemperature(1, 75);
      expect(Math.abs(ratio - (1 + 0.00323 * (celsius - 75)))).toBeLessThan(3e-4);
    }
  });

  it('reaches nought at −234.5 °C (IEC 60287, weakly confirmed) and stays there', () => {
    expect(20 - 1 / copperCoefficient).toBeCloseTo(-234.5, 0);
    expect(atTemperature(1, -300)).toBe(0);
  });

  test.each(
    readTable('iec-60228-temperature-kt.csv').map((row) => ({
      celsius: figure(row, 't_C'),
      kt: figure(row, 'kt_published'),
    })),
  )('at $celsius °C is near the rounded factor $kt of IEC 60228 table B.1', ({ celsius, kt }) => {
    // That table rounds the coefficient to 0.004: 0.4 % apart at 100 °C.
    expect(Math.abs(atTemperature(1, celsius) * kt - 1)).toBeLessThan(0.005);
    expect(atTemperature(1, celsius)).toBeCloseTo(1 + 0.00393 * (celsius - 20), 14);
  });

  test.each([-20, 0, 20, 45, 70])('of conductors said in a case, %d °C, is the drop’s', (celsius) => {
    const { part } = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 2.5 mm² red, 10 m, B1:+ to LAMP:+
run W2 2.5 mm² black, 10 m, LAMP:- to B1:-
case now LAMP on, conductors at ${celsius} °C
`).in('now');
    // 5 A × 20 m × 7.98 mΩ/m at 20 °C.
    expect(part('LAMP').dropVolts).toBeCloseTo(5 * 20 * 0.00798 * (1 + 0.00393 * (celsius - 20)), 10);
  });
});

/** Resistance at 20 °C of ten metres of a run. */
function runOhms(size: string, clauses = 'plain'): number {
  const said = clauses === 'plain' ? '' : `, ${clauses}`;
  const { ohms } = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
load LAMP 1 A
run W1 ${size} red, 10 m${said}, B1:+ to LAMP:+
run W2 ${size} black, 10 m, LAMP:- to B1:-
`).core('W1');
  return ohms ?? Number.NaN;
}
