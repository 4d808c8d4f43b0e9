/** Controllers, chargers, alternators, converters and inverters in cases, and the four cases of a spec that states none. */
import { describe, expect, it } from 'vitest';
import { ampsAt, inLight, panelCurve } from '../../server/physics/panel-curve.ts';
import { answersOf } from './spec.ts';

const solar = (output: string, ...cases: string[]) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 50 V 20 A, output ${output}, common negative
splice PP and PN
run W1 4 mm² red, 2 m, P1:+ to PP
run W2 4 mm² black, 2 m, P1:- to PN
run W3 4 mm² red, 2 m, P2:+ to PP
run W4 4 mm² black, 2 m, P2:- to PN
run W5 4 mm² red, 3 m, PP to U1:pv+
run W6 4 mm² black, 3 m, PN to U1:pv-
run W7 6 mm² red, 1 m, U1:bat+ to B1:+
run W8 6 mm² black, 1 m, U1:bat- to B1:-
${cases.join('\n')}
`;

/** Panels whose cells stay at 25 °C, where their data sheet holds: its air is that, and the sun does not warm them. */
const mild = (text: string) => text.replaceAll('imp 5.5 A', 'imp 5.5 A, noct 20 °C');

describe('a controller that follows the greatest power', () => {
  it('gives its battery 0.95 of what its panels give, which is their most', () => {
    const day = answersOf(mild(solar('20 A', 'case day sun 100 %, ambient 25 °C, B1 at 12.5 V'))).in('day');
    const { volts = 0, amps = 0, watts = 0, input } = day.part('U1');
    expect(watts).toBeCloseTo(0.95 * (input?.watts ?? 0), 9);
    expect(watts).toBeCloseTo(volts * amps, 12);
    // 99 W each at 18 V and 5.5 A, less what the cables take: 2 × 5.5² × 2 × 2 m and 11² × 2 × 3 m of 4 mm².
    const panelWatts = (day.part('P1').watts ?? 0) + (day.part('P2').watts ?? 0);
    expect(panelWatts).toBeCloseTo(198, 1);
    const lost = ['W1', 'W2', 'W3', 'W4', 'W5', 'W6'].reduce((sum, run) => sum + day.core(run).watts, 0);
    expect((input?.watts ?? 0) + lost).toBeCloseTo(panelWatts, 9);
    expect(day.at('U1:pv+') - day.at('U1:pv-')).toBeCloseTo(input?.volts ?? 0, 12);
    expect(day.part('B1').amps).toBeCloseTo(-amps, 9);
    expect(day.residual).toBeLessThan(1e-9);
  });

  it('in half the sun gives about half', () => {
    const made = answersOf(
      mild(solar('20 A', 'case day sun 100 %, ambient 25 °C', 'case haze sun 50 %, ambient 25 °C')),
    );
    const [day, haze] = ['day', 'haze'].map((name) => made.in(name).part('U1').watts ?? 0);
    expect((haze ?? 0) / (day ?? 1)).toBeGreaterThan(0.47);
    expect((haze ?? 0) / (day ?? 1)).toBeLessThan(0.5);
  });

  it('gives less the hotter its panels are: 0.4 % of 25 °C’s a kelvin where they do not say', () => {
    // NOCT 45 °C: 31.25 K above the air in full sun.
    const warm = (celsius: number) =>
      answersOf(
        solar('20 A', `case day sun 100 %, ambient ${celsius} °C`).replaceAll('imp 5.5 A', 'imp 5.5 A, noct 45 °C'),
      )
        .in('day')
        .part('P1').watts ?? 0;
    expect(warm(25)).toBeCloseTo(99 * (1 - 0.004 * 31.25), 1);
    expect(warm(35)).toBeCloseTo(99 * (1 - 0.004 * 41.25), 1);
    expect(warm(-10)).toBeGreaterThan(warm(0));
  });

  it('gives no more than its output rating, and lets its panels rise towards their open voltage', () => {
    const text = mild(solar('10 A', 'case day sun 100 %, ambient 25 °C, B1 at 12.5 V'));
    const day = answersOf(text).in('day');
    expect(day.part('U1').amps).toBeCloseTo(10, 9);
    expect(day.part('U1').limited).toBe(true);
    expect(day.part('U1').watts).toBeCloseTo(0.95 * (day.part('U1').input?.watts ?? 0), 9);
    expect(day.part('P1').volts).toBeGreaterThan(19);
    expect(day.part('P1').volts).toBeLessThan(22);
    // Its panels stand on their curve.
    const curve = panelCurve({ voc: 22, isc: 6, vmp: 18, imp: 5.5 });
    expect(curve === undefined ? 0 : ampsAt(curve, day.part('P1').volts ?? 0)).toBeCloseTo(day.part('P1').amps ?? 0, 9);
  });

  it('takes no more than its panel side’s current or power', () => {
    const text = (pv: string) => mild(solar('30 A', 'case day sun 100 %, ambient 25 °C')).replace('pv 50 V 20 A', pv);
    expect(answersOf(text('pv 50 V 8 A')).in('day').part('U1').input?.amps).toBeCloseTo(8, 9);
    expect(answersOf(text('pv 50 V 20 A 120 W')).in('day').part('U1').input?.watts).toBeCloseTo(120, 9);
  });

  it('gives a full battery what its charging voltage lets in, and a fuller one nothing', () => {
    const text = (volts: number) =>
      solar('20 A, charge voltage 14.2 V', `case day sun 100 %, B1 at ${volts} V, conductors at 20 °C`);
    const full = answersOf(text(14.05)).in('day');
    // Behind 1 + 10 + 2 × 3.30 mΩ: 0.15 V let 8.52 A in.
    expect(full.part('U1').amps).toBeCloseTo(0.15 / (0.011 + 2 * 0.0033), 1);
    expect(full.part('U1').limited).toBeUndefined();
    expect(full.part('U1').watts).toBeCloseTo(0.95 * (full.part('U1').input?.watts ?? 0), 9);
    const fuller = answersOf(text(14.3)).in('day');
    expect(fuller.part('U1').amps).toBeCloseTo(0, 9);
    // Its panels stand open.
    expect(fuller.part('P1').amps).toBeCloseTo(0, 9);
    expect(fuller.part('P1').volts).toBeGreaterThan(19);
    const asked = solar('20 A', 'case day sun 100 %, B1 at 14.3 V').replace('80 Ah', '80 Ah, charge voltage 14.8 V');
    expect(answersOf(asked).in('day').part('U1').amps).toBeGreaterThan(5);
  });

  it('gives nothing without sun, when it or its panels are off, or without a battery', () => {
    const made = answersOf(
      solar(
        '20 A',
        'case night charge 50 %',
        'case stopped sun 100 %, U1 off',
        'case alone sun 100 %, B1 off',
        'case dark sun 100 %, all sources off',
        'case one sun 100 %, P2 off, B1 at 12.5 V',
        'case both sun 100 %, B1 at 12.5 V',
      ),
    );
    const amps = ['night', 'stopped', 'alone', 'dark'].map((name) => made.in(name).part('U1').amps);
    expect(amps).toEqual([0, 0, 0, 0]);
    const [one, both] = ['one', 'both'].map((name) => made.in(name).part('U1').amps ?? 0);
    expect((one ?? 0) / (both ?? 1)).toBeCloseTo(0.5, 1);
  });

  it('steps down only: panels below the battery’s voltage give it nothing', () => {
    const text = solar('20 A', 'case day sun 100 %, B1 at 26 V').replace('lead-acid, 12 V', 'lead-acid, 24 V');
    expect(answersOf(text).in('day').part('U1').amps).toBe(0);
  });

  it('never charges less in more sun, nor more in more heat', () => {
    let before = -1;
    for (let sun = 5; sun <= 100; sun += 5) {
      const amps =
        answersOf(solar('12 A', `case day sun ${sun} %, ambient 20 °C`))
          .in('day')
          .part('U1').amps ?? 0;
      expect(amps).toBeGreaterThanOrEqual(before - 1e-9);
      before = amps;
    }
    before = Number.POSITIVE_INFINITY;
    for (let celsius = -20; celsius <= 60; celsius += 10) {
      const watts =
        answersOf(solar('20 A', `case day sun 80 %, ambient ${celsius} °C`))
          .in('day')
          .part('P1').watts ?? 0;
      expect(watts).toBeLessThan(before);
      before = watts;
    }
  });

  it('of unequal panels in parallel takes what their curves give together', () => {
    const text = mild(solar('20 A', 'case day sun 100 %, ambient 25 °C')).replace(
      'panel P1 and P2',
      'panel P2 40 W, voc 21 V, isc 2.6 A, vmp 17 V, imp 2.3 A, noct 20 °C\npanel P1',
    );
    const day = answersOf(text).in('day');
    const watts = (day.part('P1').watts ?? 0) + (day.part('P2').watts ?? 0);
    expect(watts).toBeLessThan(18 * 5.5 + 17 * 2.3);
    expect(watts).toBeGreaterThan(0.97 * (18 * 5.5 + 17 * 2.3));
    for (const [name, points] of [
      ['P1', { voc: 22, isc: 6, vmp: 18, imp: 5.5 }],
      ['P2', { voc: 21, isc: 2.6, vmp: 17, imp: 2.3 }],
    ] as const) {
      const curve = panelCurve(points);
      expect(curve === undefined ? 0 : ampsAt(curve, day.part(name).volts ?? 0)).toBeCloseTo(
        day.part(name).amps ?? 0,
        8,
      );
    }
  });

  it('passes its battery’s voltage on to its load output', () => {
    const text = `${solar('20 A', 'case night LAMP on, conductors at 20 °C').replace('output 20 A', 'output 20 A, load output 10 A')}load LAMP 5 A
run W9 2.5 mm² red, 1 m, U1:load+ to LAMP:+
run W10 2.5 mm² black, 1 m, LAMP:- to U1:load-
`;
    const made = answersOf(text);
    const night = made.in('night');
    expect(night.part('LAMP').amps).toBeCloseTo(5, 9);
    // It comes from the battery through W7: the drop counts from there, 5 A × 2 × (3.30 + 7.98) mΩ = 0.1128 V.
    expect(night.core('W7').amps).toBeCloseTo(-5, 9);
    expect(night.part('LAMP').dropVolts).toBeCloseTo(0.1128, 9);
    expect(made.load('LAMP').source?.name).toBe('B1');
    expect(made.load('LAMP').cores.map(({ run }) => run.name)).toEqual(['W7', 'W9', 'W10', 'W8']);
    // The output limits itself to 10 A.
    expect(made.core('W9').protection.amps).toBe(10);
    expect(made.core('W9').protection.limitedSources.map(({ part }) => part.name)).toEqual(['U1']);
  });
});

describe('a controller that ties its panels to the battery', () => {
  const tied = (...cases: string[]) => mild(solar('20 A', ...cases).replace('mppt', 'pwm'));

  it('gives the current that they have at its voltage', () => {
    const day = answersOf(tied('case day sun 100 %, ambient 25 °C, B1 at 12.5 V')).in('day');
    const { volts = 0, amps = 0, input } = day.part('U1');
    expect(input?.amps).toBeCloseTo(amps, 9);
    expect(input?.volts).toBeCloseTo(volts, 9);
    const curve = panelCurve({ voc: 22, isc: 6, vmp: 18, imp: 5.5 });
    const panel = day.part('P1');
    expect(curve === undefined ? 0 : ampsAt(curve, panel.volts ?? 0)).toBeCloseTo(panel.amps ?? 0, 9);
    expect(amps).toBeCloseTo(2 * (panel.amps ?? 0), 9);
    // Below its greatest power a panel gives nearly its short-circuit current: 12 A, not 15 A.
    expect(amps).toBeGreaterThan(11.5);
    expect(amps).toBeLessThan(12);
  });

  it('gives a full battery less, and no more than its rating', () => {
    const made = answersOf(
      tied('case full sun 100 %, B1 at 14.35 V', 'case over sun 100 %, B1 at 15 V').replace(
        'output 20 A',
        'output 9 A',
      ),
    );
    expect(made.in('full').part('U1').amps).toBeLessThan(4);
    expect(made.in('full').part('U1').amps).toBeGreaterThan(0);
    expect(made.in('over').part('U1').amps).toBeCloseTo(0, 9);
    const most = answersOf(tied('case day sun 100 %, B1 at 12 V').replace('output 20 A', 'output 9 A')).in('day');
    expect(most.part('U1').amps).toBeCloseTo(9, 9);
  });
});

describe('panels in series', () => {
  it('are found by the wiring: their powers add up, their current is one', () => {
    const day = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A, noct 20 °C
controller U1 mppt, pv 50 V 20 A, output 20 A
run W1 4 mm² red, 2 m, P1:+ to U1:pv+
run W2 4 mm² black, 2 m, P1:- to P2:+
run W3 4 mm² black, 2 m, P2:- to U1:pv-
run W4 6 mm² red, 1 m, U1:bat+ to B1:+
run W5 6 mm² black, 1 m, U1:bat- to B1:-
case day sun 100 %, ambient 25 °C
`).in('day');
    // 198 W at 36 V and 5.5 A; 0.95 of that at some 12.1 V.
    expect(day.part('U1').amps).toBeCloseTo((0.95 * 198) / 12.1, 0);
    const [out, back] = ['W1', 'W3'].map((run) => Math.abs(day.core(run).amps));
    expect(out).toBeCloseTo(5.5, 1);
    expect(back).toBeCloseTo(out ?? 0, 9);
    expect(day.at('U1:pv+') - day.at('U1:pv-')).toBeCloseTo(36, 0);
    expect((day.part('P1').watts ?? 0) + (day.part('P2').watts ?? 0)).toBeCloseTo(198, 2);
  });
});

describe('panels without a controller', () => {
  it('give the battery what they have at its voltage', () => {
    const day = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 10 W, voc 22 V, isc 0.6 A, vmp 18 V, imp 0.55 A, noct 20 °C
run W1 1.5 mm² red, 2 m, P1:+ to B1:+
run W2 1.5 mm² black, 2 m, P1:- to B1:-
case day sun 50 %, ambient 25 °C
`).in('day');
    const full = panelCurve({ voc: 22, isc: 0.6, vmp: 18, imp: 0.55 });
    const { volts = 0, amps = 0 } = day.part('P1');
    expect(full === undefined ? 0 : ampsAt(inLight(full, 0.5), volts)).toBeCloseTo(amps, 9);
    expect(day.part('B1').amps).toBeCloseTo(-amps, 9);
    expect(amps).toBeGreaterThan(0.28);
    expect(amps).toBeLessThan(0.3);
  });
});

/** A starter battery with its alternator, and a charger from it to a house battery. */
const driving = (...cases: string[]) => `alternator A1 14.4 V, 60 A, fixed
battery B2 lead-acid, 12 V, 80 Ah, internal 20 mΩ
charger U2 12 V, 20 A, efficiency 80 %
battery B1 lead-acid, 12 V, 100 Ah, internal 10 mΩ
run W1 10 mm² red, 1 m, A1:+ to B2:+
run W2 10 mm² black, 1 m, A1:- to B2:-
run W3 10 mm² red, 1 m, B2:+ to U2:in+
run W4 10 mm² black, 1 m, B2:- to U2:in-
run W5 10 mm² red, 1 m, U2:out+ to B1:+
run W6 10 mm² black, 1 m, U2:out- to B1:-
${cases.join('\n')}
`;

describe('chargers and alternators', () => {
  it('are off unless the case says they are on', () => {
    const made = answersOf(driving('case parked charge 50 %'));
    expect([made.in('parked').part('A1').amps, made.in('parked').part('U2').amps]).toEqual([0, 0]);
  });

  it('a charger gives its greatest current and takes its power over its efficiency', () => {
    const day = answersOf(driving('case day U2 on, conductors at 20 °C')).in('day');
    // Out: 20 A at 12 + 20 × (0.010 + 2 × 0.00191) = 12.2764 V = 245.528 W; in: 306.91 W.
    expect(day.part('U2').amps).toBeCloseTo(20, 9);
    expect(day.part('U2').volts).toBeCloseTo(12.2764, 9);
    expect(day.part('U2').input?.watts).toBeCloseTo(306.91, 6);
    // From B2 behind 20 + 3.82 mΩ: V = 6 + √(36 − 306.91 × 0.02382).
    expect(day.part('U2').input?.volts).toBeCloseTo(6 + Math.sqrt(36 - 306.91 * 0.02382), 6);
    expect(day.part('B1').amps).toBeCloseTo(-20, 9);
  });

  it('a charger whose input nothing feeds gives nothing', () => {
    const day = answersOf(driving('case day U2 on, B2 off')).in('day');
    expect(day.part('U2').amps).toBe(0);
  });

  it('an alternator holds its voltage up to its rating', () => {
    // Behind 1 mΩ into 12 V behind 20 + 3.82 mΩ: (14.4 − 12)/0.02482 = 96.7 A would flow; 60 A do.
    const made = answersOf(driving('case day A1 on', 'case full A1 on, B2 at 14 V, conductors at 20 °C'));
    expect(made.in('day').part('A1').amps).toBeCloseTo(60, 9);
    // Into 14 V: 0.4/0.02482 = 16.116 A.
    expect(made.in('full').part('A1').amps).toBeCloseTo(0.4 / 0.02482, 9);
  });

  it('an alternator with nothing to feed gives nothing and holds its voltage', () => {
    const day = answersOf(`alternator A1 14 V, 50 A, fixed
load LAMP 5 A
run W1 2.5 mm² red, 1 m, A1:+ to LAMP:+
run W2 2.5 mm² black, 1 m, LAMP:- to A1:-
case day A1 on
`).in('day');
    expect([day.converged, day.part('LAMP').volts, day.part('A1').amps]).toEqual([
      true,
      expect.closeTo(14, 9),
      expect.closeTo(0, 9),
    ]);
  });

  it('of two inputs the one that is fed carries it all, and each is reckoned in full for its cables', () => {
    const made = answersOf(`battery B1 lead-acid, 12 V, 100 Ah
battery B2 and B3 lead-acid, 12 V, 80 Ah
charger U2 12 V, 20 A, efficiency 80 %, inputs 2
run W1 10 mm² red, 1 m, B2:+ to U2:in1+
run W2 10 mm² black, 1 m, B2:- to U2:in1-
run W3 10 mm² red, 1 m, B3:+ to U2:in2+
run W4 10 mm² black, 1 m, B3:- to U2:in2-
run W5 10 mm² red, 1 m, U2:out+ to B1:+
run W6 10 mm² black, 1 m, U2:out- to B1:-
case first U2 on
case second U2 on, B2 off
`);
    expect([made.in('first').core('W1').amps > 20, made.in('first').core('W3').amps]).toEqual([true, 0]);
    expect([made.in('second').core('W1').amps, made.in('second').core('W3').amps > 20]).toEqual([0, true]);
    expect(made.core('W3').designAmps).toBeGreaterThan(20);
  });

  it('an inverter that also charges does so with all sources on, and draws when it is said to be on', () => {
    const made = answersOf(`battery B1 lead-acid, 12 V, 200 Ah
inverter INV 500 W, efficiency 90 %, charges 40 A
run W1 25 mm² red, 1 m, B1:+ to INV:+
run W2 25 mm² black, 1 m, B1:- to INV:-
case shore all sources on
case away INV on
`);
    expect(made.in('shore').part('B1').amps).toBeCloseTo(-40, 9);
    expect(made.in('shore').part('INV').amps).toBeCloseTo(-40, 9);
    expect(made.in('away').part('INV').watts).toBeCloseTo(500 / 0.9, 9);
  });
});

describe('a converter', () => {
  const usb = (...cases: string[]) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
switch S1 1 pole, 5 A dc
converter U3 5 V, 6 A, efficiency 80 %
load PHONE 10 W
load TABLET 20 W
run W1 2.5 mm² red, 1 m, B1:+ to S1:1
run W2 2.5 mm² red, 1 m, S1:2 to U3:in+
run W3 2.5 mm² black, 1 m, U3:in- to B1:-
run W4 2.5 mm² red, 1 m, U3:out+ to PHONE:+
run W5 2.5 mm² black, 1 m, PHONE:- to U3:out-
run W6 2.5 mm² red, 1 m, U3:out+ to TABLET:+
run W7 2.5 mm² black, 1 m, TABLET:- to U3:out-
${cases.join('\n')}
`;

  it('begins a supply of its own voltage, in whose percent the drop is', () => {
    // 5 V behind 1 mΩ, cables 15.96 mΩ: V = (5 + √(25 − 40 × 0.01696))/2 = 4.965847 V, I = 2.013755 A;
    // drop 0.032140 V = 0.64279 % of 5 V. Output 4.997986 V × I = 10.06472 W; input that over 0.8 = 12.5809 W.
    const made = answersOf(usb('case day PHONE on, conductors at 20 °C'));
    const day = made.in('day');
    expect(day.part('PHONE').volts).toBeCloseTo(4.965847, 6);
    expect(day.part('PHONE').dropPercent).toBeCloseTo(0.64279, 5);
    expect(day.part('U3').watts).toBeCloseTo(10.06472, 5);
    expect(day.part('U3').input?.watts).toBeCloseTo(12.5809, 4);
    expect(made.load('PHONE').source?.name).toBe('U3');
    expect(made.load('PHONE').supplyVolts).toBe(5);
    // And its own input hangs on the battery, in percent of 12 V.
    expect(made.load('U3').source?.name).toBe('B1');
    expect(made.load('U3').supplyVolts).toBe(12);
  });

  it('limits its current', () => {
    // 30 W at 5 V would be 6 A and a little more: what it can give is less than what is asked.
    const day = answersOf(usb('case day all loads on')).in('day');
    expect(day.converged).toBe(false);
    expect(day.trouble).toMatch(/^what is on, most of it TABLET, cannot be fed: of 30 W/);
  });

  it('gives nothing when its input is parted, nor when it is off', () => {
    const made = answersOf(usb('case parted PHONE on, S1 off', 'case stopped PHONE on, U3 off'));
    expect([made.in('parted').part('PHONE').amps, made.in('stopped').part('PHONE').amps]).toEqual([0, 0]);
  });

  it('takes its design current at its lowest input voltage', () => {
    // At 0.875 × 5 = 4.375 V the phone takes 2.285714 A from 5 V − 2.285714 mV: 11.42335 W, in 14.27918 W, at 10.5 V 1.35992 A.
    const out = 10 / 4.375;
    const watts = (out * (5 - out * 0.001)) / 0.8;
    const plain = answersOf(usb('case day PHONE on'));
    expect(plain.core('W4').designAmps).toBeCloseTo(out, 9);
    expect(plain.core('W1').designAmps).toBeCloseTo(watts / 10.5, 9);
    expect(watts / 10.5).toBeCloseTo(1.35992, 5);
    const stated = answersOf(usb('case day PHONE on').replace('efficiency 80 %', 'efficiency 80 %, lowest 11 V'));
    expect(stated.core('W1').designAmps).toBeCloseTo(watts / 11, 9);
  });
});

describe('a spec without cases', () => {
  const text = `${driving()}panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 50 V 20 A, output 20 A
load LAMP 5 A
run W7 4 mm² red, 2 m, P1:+ to U1:pv+
run W8 4 mm² black, 2 m, P1:- to U1:pv-
run W9 10 mm² red, 1 m, U1:bat+ to B1:+
run W10 10 mm² black, 1 m, U1:bat- to B1:-
run W11 2.5 mm² red, 1 m, B1:+ to LAMP:+
run W12 2.5 mm² black, 1 m, B1:- to LAMP:-
`;

  it('is worked out for four', () => {
    const made = answersOf(text);
    expect(made.answers.cases.map(({ name }) => name)).toEqual(['loads-only', 'sun-only', 'sun-and-loads', 'charging']);
    const amps = (name: string) => ['LAMP', 'U1', 'U2', 'A1'].map((part) => made.in(name).part(part).amps);
    const lamp = expect.closeTo(5, 9);
    // 99 W at 25 °C; 0.84 of that with its cells at 65 °C in the 30 °C there are when nothing is said; 0.95 of that.
    const sun = expect.closeTo((0.95 * 99 * 0.84) / 12.1, 0);
    expect(amps('loads-only')).toEqual([lamp, 0, 0, 0]);
    expect(amps('sun-only')).toEqual([0, sun, 0, 0]);
    expect(amps('sun-and-loads')).toEqual([lamp, sun, 0, 0]);
    // Each source that can charge at its greatest output, loads off.
    expect(amps('charging')).toEqual([0, sun, expect.closeTo(20, 9), expect.closeTo(60, 9)]);
  });

  it('reckons an alternator there at its rating whatever the battery stands at', () => {
    const full = answersOf(text.replace('B2 lead-acid, 12 V', 'B2 lead-acid, 14 V'));
    expect(full.in('charging').part('A1').amps).toBeCloseTo(60, 9);
    expect(full.core('W1').designAmps).toBeCloseTo(60, 9);
    expect(full.core('W1').designFrom).toBe('charging');
  });
});
