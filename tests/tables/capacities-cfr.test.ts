/** Capacities of the set `cfr-33-183` against 33 CFR 183.425 table 5 and its notes. */
import { describe, expect, it, test } from 'vitest';
import { awgAreaMm2 } from '../../server/physics/conductors.ts';
import { cfr33183 } from '../../server/physics/limits/cfr-33-183.ts';
import type { CapacityConditions } from '../../server/physics/limits/limit-set.ts';
import { answersOf } from '../answers/spec.ts';
import { figure, gaugeOf, readTable, workedExample } from '../reference/read.ts';

const usual: CapacityConditions = {
  size: { system: 'awg', gauge: 10 },
  insulationCelsius: 105,
  ambientCelsius: 30,
  bunchedWith: 0,
  cores: 1,
  inConduit: false,
  engineSpace: false,
  nominalVolts: 12,
  aluminium: false,
};
const capacity = (conditions: Partial<CapacityConditions>) => cfr33183.capacity({ ...usual, ...conditions });
const columns = [60, 75, 80, 90, 105, 125, 200];

function runCapacity(clauses: string, { volts = 12, place = '30 °C' } = {}) {
  return answersOf(`system "Boat shed" ${volts} V, limits cfr-33-183
place HOLD ${place}
battery B1 lead-acid, ${volts} V, 80 Ah
load LAMP 5 A
run W1 ${clauses}, along HOLD, 3 ft, B1:+ to LAMP:+
run W2 10 AWG black, along HOLD, 3 ft, LAMP:- to B1:-
`).core('W1').capacity;
}

describe('33 CFR 183.425 table 5', () => {
  const cells = readTable('cfr-33-183-425-table-5.csv').flatMap((row) =>
    columns.map((celsius) => ({ awg: row.awg ?? '', celsius, amps: figure(row, `${celsius}C`) })),
  );

  it('has fifteen gauges by seven temperatures', () => {
    expect(cells.length).toBe(15 * 7);
  });

  test.each(cells)('$awg AWG at $celsius °C: $amps A', ({ awg, celsius, amps }) => {
    const gauge = gaugeOf(awg);
    const found = capacity({ size: { system: 'awg', gauge }, insulationCelsius: celsius });
    expect([found.amps, found.tableAmps, found.derived, found.reason]).toEqual([amps, amps, false, undefined]);
    const written = gauge <= 0 ? `${1 - gauge}/0` : String(gauge);
    expect(runCapacity(`${written} AWG red, ${celsius} °C`)?.amps).toBe(amps);
  });

  it('takes insulation between its columns by the lower one', () => {
    const found = capacity({ insulationCelsius: 100 });
    expect([found.amps, found.derived]).toEqual([55, true]);
    // Insulation unstated is 70 °C: the 60 °C column.
    expect(runCapacity('10 AWG red')?.amps).toBe(40);
  });

  it('has no capacity for less than 60 °C, nor for a gauge that it does not list', () => {
    expect(capacity({ insulationCelsius: 59 }).reason).toBe('insulation-below-table');
    const odd = capacity({ size: { system: 'awg', gauge: 11 } });
    expect([odd.amps, odd.reason]).toEqual([0, 'size-not-in-table']);
  });

  it('takes a size in mm² by the thickest gauge that is not thicker', () => {
    // 6 mm² lies between 10 AWG (5.26 mm²) and 8 AWG (8.37 mm²).
    expect([awgAreaMm2(10) < 6, awgAreaMm2(8) > 6]).toEqual([true, true]);
    const found = capacity({ size: { system: 'mm2', areaMm2: 6 } });
    expect([found.amps, found.derived]).toEqual([60, true]);
  });
});

describe('note 1: engine spaces, 50 °C', () => {
  const rows = readTable('cfr-33-183-425-notes.csv').filter(({ note }) => note?.startsWith('1'));
  const factors = rows.map((row) => ({
    celsius: Number.parseInt(row.condition ?? '', 10),
    factor: figure(row, 'factor'),
    status: row.status,
  }));

  it('has seven factors', () => {
    expect(factors.map(({ celsius }) => celsius)).toEqual(columns);
  });

  test.each(factors)('$celsius °C insulation: $factor ($status)', ({ celsius, factor }) => {
    const found = capacity({ insulationCelsius: celsius, ambientCelsius: 50, engineSpace: true });
    expect(found.ambientFactor).toBe(factor);
    expect(found.amps).toBeCloseTo(found.tableAmps * factor, 12);
    expect(runCapacity(`10 AWG red, ${celsius} °C`, { place: '50 °C, engine space' })?.ambientFactor).toBe(factor);
    // The factors from memory are never their own check: all but that of 200 °C follow the square root.
    if (celsius !== 200) expect(Math.abs(factor - Math.sqrt((celsius - 50) / (celsius - 30)))).toBeLessThan(0.01);
  });
});

describe('other ambients', () => {
  it('follow the square root, derived', () => {
    const found = capacity({ ambientCelsius: 65 });
    expect([found.ambientFactor, found.derived]).toEqual([expect.closeTo(Math.sqrt(40 / 75), 12), true]);
    expect(capacity({ ambientCelsius: 20 }).ambientFactor).toBe(1);
  });

  it('agree with the NEC’s worked product: 12 AWG of 75 °C in 40 °C', () => {
    // 25 A × 0.88 = 22 A: the factor is printed with two figures.
    const { inputs, answer } = workedExample('AM1');
    const found = runCapacity(`${inputs.gauge} AWG red, ${inputs.insulationCelsius} °C`, {
      place: `${inputs.ambientCelsius} °C`,
    });
    expect(found?.tableAmps).toBe(inputs.baseAmps);
    expect(Math.abs((found?.ambientFactor ?? 0) - answer.factor)).toBeLessThan(0.005);
    expect(Math.abs((found?.amps ?? 0) - answer.amps)).toBeLessThan(0.125);
  });

  test.each([
    [60, 60],
    [105, 105],
    [105, 130],
  ])('insulation of %d °C in %d °C carries nothing', (insulation, ambient) => {
    const found = capacity({ insulationCelsius: insulation, ambientCelsius: ambient });
    expect([found.amps, found.reason]).toEqual([0, 'ambient-at-limit']);
  });
});

describe('note 2 with 183.435(b): bundles', () => {
  test.each([
    [0, 1],
    [1, 1],
    [2, 0.7],
    [3, 0.6],
    [5, 0.6],
    [6, 0.5],
    [23, 0.5],
    [24, 0.4],
    [40, 0.4],
  ])('with %d other conductors at 50 V and above: %d', (others, factor) => {
    const found = capacity({ bunchedWith: others, nominalVolts: 50 });
    expect([found.bunchingFactor, found.amps]).toEqual([factor, expect.closeTo(60 * factor, 12)]);
  });

  it('has the published factors', () => {
    const published = readTable('cfr-33-183-425-notes.csv')
      .filter(({ note }) => note?.startsWith('2'))
      .map((row) => figure(row, 'factor'));
    expect(published).toEqual([0.7, 0.6, 0.5, 0.4]);
    expect([3, 4, 7, 25].map((n) => capacity({ bunchedWith: n - 1, nominalVolts: 60 }).bunchingFactor)).toEqual(
      published,
    );
  });

  it('has no limit below 50 V, and says so in a spec of 12 V and of 60 V', () => {
    for (const others of [2, 6, 30]) expect(capacity({ bunchedWith: others, nominalVolts: 49 }).bunchingFactor).toBe(1);
    expect(runCapacity('10 AWG red, 105 °C, bunched with 5')?.amps).toBe(60);
    expect(runCapacity('10 AWG red, 105 °C, bunched with 5', { volts: 60 })?.amps).toBeCloseTo(36, 12);
  });
});

describe('33 CFR 183.455(c)(1): the device', () => {
  it('may be 150 % of the capacity below 50 V, not above', () => {
    const found = capacity({});
    expect(cfr33183.permittedDeviceAmps(found, 12).amps).toBe(90);
    expect(cfr33183.permittedDeviceAmps(found, 49.9).amps).toBe(90);
    expect(cfr33183.permittedDeviceAmps(found, 50).amps).toBe(60);
  });

  test.each([
    // (c)(2): the next larger standard rating where there is none of the capacity, up to 150 % of it.
    [55, 60],
    [60, 60],
    [135, 150],
    [0.5, 0.5],
    [600, 600],
  ])('at 50 V and above a conductor for %d A may have one of %d A', (amps, most) => {
    expect(cfr33183.permittedDeviceAmps({ amps }, 50).amps).toBe(most);
  });
});
