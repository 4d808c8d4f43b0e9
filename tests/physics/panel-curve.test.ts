/** The curve of a panel: its four points, its fall, its greatest power; and the same curve by an independent simulator. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { cellCelsius, drifted, pointsAt } from '../../server/physics/cell-temperature.ts';
import {
  ampsAt,
  inLight,
  isCurve,
  openVolts,
  type PanelCurve,
  type PanelPoints,
  panelCurve,
  voltsAt,
} from '../../server/physics/panel-curve.ts';
import {
  atCurrent,
  atPower,
  givenAt,
  greatestPower,
  openVoltsOf,
  type StringCurve,
} from '../../server/physics/panel-strings.ts';
import {
  coldVocFactor,
  coldVocFactors,
  typicalIscDrift,
  typicalNoct,
  typicalPowerDrift,
  typicalVocDrift,
} from '../../server/tables/photovoltaic.ts';
import { figure, readTable } from '../reference/read.ts';
import { simulatorVersion } from './simulator.ts';
import '../random.ts';

const points: PanelPoints = { voc: 23, isc: 6.9, vmp: 19.2, imp: 6.3 };
/** With its knee low for its current: a resistance in series makes it. */
const seriesPoints: PanelPoints = { voc: 22, isc: 6, vmp: 17.6, imp: 5.7 };

function curveOf(of: PanelPoints): PanelCurve {
  const curve = panelCurve(of);
  if (curve === undefined) throw new Error('no curve');
  return curve;
}

const anyPanel = fc
  .record({
    voc: fc.double({ min: 1, max: 100, noNaN: true }),
    isc: fc.double({ min: 0.05, max: 20, noNaN: true }),
    vm: fc.double({ min: 0.605, max: 0.985, noNaN: true }),
    im: fc.double({ min: 0.605, max: 0.985, noNaN: true }),
  })
  .map(({ voc, isc, vm, im }): PanelPoints => ({ voc, isc, vmp: vm * voc, imp: im * isc }));

describe('a panel’s curve', () => {
  it('passes through its four points, has its greatest power at the knee, and falls', () => {
    fc.assert(
      fc.property(anyPanel, fc.double({ min: -0.05, max: 1.15, noNaN: true }), (of, part) => {
        const curve = curveOf(of);
        expect(Math.abs(ampsAt(curve, 0) - of.isc)).toBeLessThan(1e-9 * of.isc);
        expect(Math.abs(ampsAt(curve, of.vmp) - of.imp)).toBeLessThan(1e-9 * of.isc);
        expect(Math.abs(ampsAt(curve, of.voc))).toBeLessThan(1e-9 * of.isc);
        expect(Math.abs(voltsAt(curve, of.imp).volts - of.vmp)).toBeLessThan(1e-9 * of.voc);
        expect(Math.abs(openVolts(curve) - of.voc)).toBeLessThan(1e-9 * of.voc);
        expect(voltsAt(curve, of.imp).slope).toBeCloseTo(-of.vmp / of.imp, 6);
        const [volts, more] = [part * of.voc, (part + 0.01) * of.voc];
        expect(ampsAt(curve, more)).toBeLessThanOrEqual(ampsAt(curve, volts));
        expect(volts * ampsAt(curve, volts)).toBeLessThanOrEqual(of.vmp * of.imp * (1 + 1e-12));
        expect(curve.seriesOhms >= 0 && curve.leakSiemens >= 0).toBe(true);
      }),
    );
  });

  it('is the same read either way, backwards too', () => {
    fc.assert(
      fc.property(anyPanel, fc.double({ min: -0.5, max: 0.999, noNaN: true }), (of, part) => {
        const curve = curveOf(of);
        const { volts } = voltsAt(curve, part * of.isc);
        if (volts > -0.9) expect(Math.abs(ampsAt(curve, volts) - part * of.isc)).toBeLessThan(1e-7 * of.isc);
      }),
    );
  });

  it('passes more than it gives over its bypass diodes', () => {
    const { volts } = voltsAt(curveOf(points), 10);
    expect(volts).toBeLessThan(-1);
    expect(volts).toBeGreaterThan(-1.1);
  });

  it('of figures that are no panel’s is still a curve', () => {
    for (const [vmp, imp] of [
      [25, 6.3],
      [19.2, 8],
      [0, 0],
      [1, 1],
      [Number.NaN, 1],
    ] as const) {
      expect(isCurve({ ...points, vmp, imp })).toBe(false);
      const curve = curveOf({ ...points, vmp, imp });
      expect(ampsAt(curve, 0)).toBeCloseTo(6.9, 9);
      expect(openVolts(curve)).toBeCloseTo(23, 9);
    }
    for (const none of [
      { ...points, voc: 0 },
      { ...points, isc: 0 },
      { ...points, isc: Number.POSITIVE_INFINITY },
    ])
      expect(panelCurve(none)).toBeUndefined();
  });

  it('in less light gives less of current, and little less of voltage', () => {
    const half = inLight(curveOf(points), 0.5);
    expect(ampsAt(half, 0)).toBeCloseTo(3.45, 6);
    expect(openVolts(half)).toBeGreaterThan(0.9 * 23);
    expect(openVolts(half)).toBeLessThan(23);
    expect(openVolts(inLight(half, 0))).toBe(0);
  });
});

const string = (ohms: number, ...panels: PanelCurve[]): StringCurve => ({ panels, ohms, lostVolts: 0 });

describe('strings', () => {
  const [strong, weak] = [curveOf(points), curveOf({ voc: 22.4, isc: 1.9, vmp: 17.8, imp: 1.7 })];

  it('of one panel without cable give its greatest power', () => {
    const most = greatestPower([string(0, strong)], 0);
    expect([most.volts, most.amps]).toEqual([expect.closeTo(19.2, 9), expect.closeTo(6.3, 9)]);
  });

  it('of like panels in series add their voltages', () => {
    const most = greatestPower([string(0, strong, strong)], 0);
    expect([most.volts, most.amps]).toEqual([expect.closeTo(38.4, 9), expect.closeTo(6.3, 9)]);
  });

  it('of unlike panels in series give what the strong one does alone, if that is more', () => {
    const most = greatestPower([string(0, strong, weak)], 0);
    // Not the 1.7 A that both could: the weak one is passed by.
    expect(most.amps).toBeGreaterThan(6);
    expect(most.volts).toBeLessThan(19.2 - 0.9);
    expect(most.volts * most.amps).toBeGreaterThan(1.7 * (19.2 + 17.8));
  });

  it('in parallel the weaker is driven backwards above its open-circuit voltage', () => {
    const { each, amps } = givenAt([string(0, strong), string(0, weak)], 22.8);
    expect([Math.sign(each[0] ?? 0), Math.sign(each[1] ?? 0)]).toEqual([1, -1]);
    expect(amps).toBeCloseTo((each[0] ?? 0) + (each[1] ?? 0), 12);
    expect(openVoltsOf([string(0, strong), string(0, weak)])).toBeGreaterThan(22.4);
  });

  it('held to less take the higher voltage', () => {
    const two = [string(0.05, strong), string(0.1, strong)];
    const most = greatestPower(two, 0);
    expect(atPower(two, most.volts * most.amps + 1, most)).toBe(most);
    const hundred = atPower(two, 100, most);
    expect(hundred.volts * hundred.amps).toBeCloseTo(100, 9);
    expect(hundred.volts).toBeGreaterThan(most.volts);
    const five = atCurrent(two, 5, most);
    expect(five.amps).toBeCloseTo(5, 9);
    expect(five.volts).toBeGreaterThan(most.volts);
    expect(atPower(two, 0, most).amps).toBeCloseTo(0, 9);
  });

  it('give most where nothing near gives more, and the same from a guess', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(anyPanel, fc.double({ min: 0, max: 0.5, noNaN: true })), { minLength: 1, maxLength: 3 }),
        (some) => {
          // Alike in voltage, as panels in parallel are.
          const strings = some.map(([{ voc, isc, vmp, imp }, ohms]) =>
            string(ohms, curveOf({ voc: 22, isc, vmp: (vmp / voc) * 22, imp })),
          );
          const most = greatestPower(strings, 0);
          const watts = most.volts * most.amps;
          for (const volts of [0.9, 0.99, 0.999, 1.001, 1.01].map((part) => part * most.volts))
            expect(volts * givenAt(strings, volts).amps).toBeLessThanOrEqual(watts * (1 + 1e-12));
          expect(greatestPower(strings, 0, most.volts * 1.001).volts).toBeCloseTo(most.volts, 6);
        },
      ),
    );
  });
});

describe('cell temperature (IEC 61215)', () => {
  const rows = new Map(readTable('pv-temperature.csv').map((row) => [row.item, row]));
  const value = (item: string) => figure(rows.get(item) ?? {}, 'value');

  it('is the nominal one under nominal conditions', () => {
    for (const noct of [33, 48, 58]) expect(cellCelsius(value('NOCT air'), noct, value('NOCT sun'))).toBe(noct);
    expect(typicalNoct).toBe(value('NOCT typical module'));
  });

  it('agrees with the published example, and so does the power there', () => {
    const cell = cellCelsius(value('example air'), value('example NOCT'), value('example sun'));
    expect(cell).toBeCloseTo(value('example cell temperature'), 12);
    const rated = value('example power at 25 C in W');
    expect(drifted(rated, value('example drift in W/C') / rated, cell)).toBeCloseTo(
      value('example power at its cell temperature in W'),
      9,
    );
  });

  it('drifts as typical panels do where nothing is stated', () => {
    for (const [drift, name] of [
      [typicalVocDrift, 'Voc'],
      [typicalPowerDrift, 'Pmax'],
      [typicalIscDrift, 'Isc'],
    ] as const) {
      const ends = [value(`${name} drift least in %/C`), value(`${name} drift most in %/C`)];
      expect(100 * drift).toBeCloseTo(((ends[0] ?? 0) + (ends[1] ?? 0)) / 2, 9);
    }
  });

  it('hotter never gives more power, nor more voltage; more current', () => {
    const drifts = { voc: -0.003, isc: 0.0005, power: -0.004 };
    let before = Number.POSITIVE_INFINITY;
    for (let celsius = -40; celsius <= 120; celsius += 5) {
      const here = pointsAt(points, drifts, celsius);
      const curve = curveOf(here);
      const most = greatestPower([string(0.05, curve)], 0);
      expect(most.volts * most.amps).toBeLessThan(before);
      before = most.volts * most.amps;
      expect(here.voc).toBeCloseTo(23 * (1 - 0.003 * (celsius - 25)), 9);
      expect(ampsAt(curve, 0)).toBeCloseTo(6.9 * (1 + 0.0005 * (celsius - 25)), 9);
    }
    // Past all sense something is left.
    expect(drifted(23, -0.003, 1000)).toBeGreaterThan(0);
  });
});

describe('the cold (NEC table 690.7(A), from memory)', () => {
  test.each(readTable('nec-690-7-cold-voc.csv'))('$highest_C to $lowest_C °C: $factor', (row) => {
    for (const end of ['highest_C', 'lowest_C']) expect(coldVocFactor(figure(row, end))).toBe(figure(row, 'factor'));
  });

  it('is 1 at 25 °C and above, and never less in greater cold', () => {
    expect(coldVocFactor(25)).toBe(1);
    expect(coldVocFactor(40)).toBe(1);
    for (let celsius = -60; celsius < 30; celsius++)
      expect(coldVocFactor(celsius)).toBeGreaterThanOrEqual(coldVocFactor(celsius + 1));
    expect(coldVocFactors).toHaveLength(14);
  });
});

/** A panel as a netlist has it: its formula as a current source, its series resistance, and the cables of its string. */
function panelLines(curve: PanelCurve, name: string, at: string, ohms: number): string[] {
  const { lightAmps, logSaturation, thermalVolts, leakSiemens, seriesOhms } = curve;
  const saturation = Math.exp(logSaturation);
  return [
    `B${name} 0 ${name} I=${lightAmps + saturation}-exp(V(${name})/${thermalVolts}+(${logSaturation}))-(${leakSiemens})*V(${name})`,
    `R${name} ${name} ${at} ${Math.max(1e-9, seriesOhms + ohms)}`,
  ];
}

function simulated(lines: readonly string[], node: string): number {
  const folder = mkdtempSync(join(tmpdir(), 'panel-'));
  try {
    const file = join(folder, 'panel.cir');
    const text = [
      '* panel',
      ...lines,
      '.options reltol=1e-11 abstol=1e-13 vntol=1e-12',
      '.control',
      'set numdgt=15',
      'op',
      `print v(${node})`,
      'quit 0',
      '.endc',
      '.end',
    ];
    writeFileSync(file, `${text.join('\n')}\n`);
    const output = execFileSync('ngspice', ['-b', file], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
    return Number(/^v\(\w+\) = (\S+)$/m.exec(output)?.[1]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe('beside a circuit simulator', () => {
  const file = new URL('../reference/panel-curves-ngspice.json', import.meta.url);
  const cases = [points, seriesPoints].flatMap((of, i) =>
    [0.5, 2, 3, 3.2, 5, 50].map((ohms) => ({
      name: `panel ${i + 1} on ${ohms} ohm`,
      load: ohms,
      strings: [string(0.05, curveOf(of))],
    })),
  );
  const unequal = [1.2, 2.4, 20].map((ohms) => ({
    name: `two unequal strings on ${ohms} ohm`,
    load: ohms,
    strings: [string(0.05, curveOf(points)), string(0.3, inLight(curveOf(seriesPoints), 0.4))],
  }));
  const all = [...cases, ...unequal];
  const live = simulatorVersion();
  if (process.env.RECORD_SIMULATOR !== undefined && live !== undefined) {
    const volts = all.map(({ name, load, strings }) => [
      name,
      simulated(
        [
          ...strings.flatMap((one, i) => panelLines(one.panels[0] as PanelCurve, `p${i}`, 'out', one.ohms)),
          `RL out 0 ${load}`,
        ],
        'out',
      ),
    ]);
    writeFileSync(file, `${JSON.stringify({ simulator: live, volts: Object.fromEntries(volts) }, undefined, 2)}\n`);
  }
  const recorded: { readonly volts: Readonly<Record<string, number>> } = JSON.parse(readFileSync(file, 'utf8'));

  test.each(all)('$name', ({ name, load, strings }) => {
    const volts = recorded.volts[name] ?? Number.NaN;
    // At the simulator's voltage the strings give what the load takes.
    expect(givenAt(strings, volts).amps).toBeCloseTo(volts / load, 6);
  });
});
