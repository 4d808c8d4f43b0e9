/** Cases worked out, against figures reckoned by hand. Class 5 copper at 20 °C (IEC 60228): 1.5 mm² 13.3, 2.5 mm² 7.98, 10 mm² 1.91 Ω/km. */
import { describe, expect, it } from 'vitest';
import { answersOf } from './spec.ts';

/** Battery of 12 V and 10 mΩ, a load, 3 m of 2.5 mm² out and back: 2 × 3 × 7.98 = 47.88 mΩ. */
const lamp = (load: string, ...more: string[]) =>
  `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 20 A
load LAMP ${load}
run W1 2.5 mm² red, 1 m, B1:+ to F1:in
run W2 2.5 mm² red, 2 m, F1:out to LAMP:+
run W3 2.5 mm² black, 3 m, LAMP:- to B1:-
${more.join('\n')}
`;

describe('loads', () => {
  it('in ampere draw constant current', () => {
    // 5 A: 12 − 5 × (0.010 + 0.04788) = 11.7106 V; drop 5 × 0.04788 = 0.2394 V, 1.995 % of 12 V.
    const day = answersOf(lamp('5 A', 'case day LAMP on, conductors at 20 °C')).in('day');
    const { volts, amps, watts, dropVolts, dropPercent } = day.part('LAMP');
    expect(volts).toBeCloseTo(11.7106, 10);
    expect(amps).toBeCloseTo(5, 10);
    expect(watts).toBeCloseTo(58.553, 10);
    expect(dropVolts).toBeCloseTo(0.2394, 10);
    expect(dropPercent).toBeCloseTo(1.995, 10);
  });

  it('in watt draw constant power', () => {
    // 48 W behind 57.88 mΩ: V = 6 + √(36 − 48 × 0.05788) = 6 + √33.22176 = 11.7638320… V.
    const day = answersOf(lamp('48 W', 'case day LAMP on, conductors at 20 °C')).in('day');
    expect(day.part('LAMP').volts).toBeCloseTo(6 + Math.sqrt(33.22176), 9);
    expect(day.part('LAMP').watts).toBeCloseTo(48, 9);
  });

  it('in ohm are resistances', () => {
    // 12 / (2.4 + 0.05788) = 4.8822562 A.
    const day = answersOf(lamp('2.4 Ω', 'case day LAMP on, conductors at 20 °C')).in('day');
    expect(day.part('LAMP').amps).toBeCloseTo(12 / 2.45788, 10);
  });

  it('are off unless the case says otherwise', () => {
    const made = answersOf(
      lamp('5 A', 'case day', 'case one LAMP on', 'case every all loads on', 'case but all loads on, LAMP off'),
    );
    const amps = ['day', 'one', 'every', 'but'].map((name) => made.in(name).part('LAMP').amps);
    expect(amps).toEqual([0, expect.closeTo(5, 9), expect.closeTo(5, 9), 0]);
  });
});

describe('conductors', () => {
  it('are as warm as their current makes them', () => {
    // 2.5 mm², 70 °C, clipped: Iz = 27 A (4D1A). θ = 30 + 40 (5/27)² = 31.371742 °C.
    // R = 47.88 mΩ × (1 + 0.00393 × 11.371742) = 50.0197971… mΩ; drop 5 A × that = 0.25009…
    const day = answersOf(lamp('5 A', 'case day LAMP on')).in('day');
    const theta = 30 + 40 * (5 / 27) ** 2;
    expect(theta).toBeCloseTo(31.371742, 6);
    expect(day.core('W2').celsius).toBeCloseTo(theta, 8);
    expect(day.core('W2').capacityAmps).toBeCloseTo(27, 10);
    expect(day.part('LAMP').dropVolts).toBeCloseTo(0.25009899, 7);
    // Loss in W2: 25 × 2 m × 7.98 mΩ/m × 1.04469…
    expect(day.core('W2').watts).toBeCloseTo(25 * 0.01596 * (1 + 0.00393 * (theta - 20)), 9);
  });

  it('lie in the ambient that the case says', () => {
    // At 50 °C: Iz = 27 √((70 − 50)/40) = 19.0919 A; θ = 50 + 20 (5/19.0919)² = 51.371742 °C.
    const day = answersOf(lamp('5 A', 'case day LAMP on, ambient 50 °C')).in('day');
    expect(day.core('W2').capacityAmps).toBeCloseTo(27 * Math.SQRT1_2, 9);
    expect(day.core('W2').celsius).toBeCloseTo(51.371742, 6);
  });

  it('never get warmer than their insulation', () => {
    const hot = answersOf(lamp('60 A', 'case day LAMP on')).in('day');
    expect(hot.core('W2').celsius).toBe(70);
  });

  it('without capacity are at their limit', () => {
    const hot = answersOf(
      lamp('5 A', 'place OVEN 70 °C', 'case day LAMP on').replace('2 m, F1', '2 m, along OVEN, F1'),
    ).in('day');
    expect(hot.core('W2').capacityAmps).toBe(0);
    expect(hot.core('W2').celsius).toBe(70);
  });
});

describe('batteries', () => {
  it('have the electromotive force the case says, else by its charge, else their voltage', () => {
    const made = answersOf(
      lamp(
        '5 A',
        'case said B1 at 12.5 V',
        'case half charge 50 %',
        'case own B1 charge 100 %, charge 50 %',
        'case plain',
        'case both B1 at 12.5 V, charge 0 %',
      ),
    );
    // Lead-acid: 12.2 V at half charge, 12.6 V full; nothing flows, so the terminals show it.
    const volts = ['said', 'half', 'own', 'plain', 'both'].map((name) => made.in(name).at('B1:+'));
    expect(volts).toEqual([12.5, 12.2, 12.6, 12, 12.5].map((v) => expect.closeTo(v, 9)));
  });

  it('have a default resistance, never 0', () => {
    // 80 Ah lead-acid, 12 V: 5 mΩ × 100/80 = 6.25 mΩ. With 5 A: 12 − 0.03125 V.
    const without = lamp('5 A', 'case day LAMP on').replace(', internal 10 mΩ', '');
    expect(answersOf(without).in('day').at('B1:+')).toBeCloseTo(11.96875, 9);
    const nought = lamp('5 A', 'case day LAMP on').replace('internal 10 mΩ', 'internal 0 mΩ');
    expect(answersOf(nought).in('day').at('B1:+')).toBeCloseTo(11.96875, 9);
  });

  it('in parallel share by their resistances', () => {
    // B1 12.6 V over 10 + 2 × 1.91 = 13.82 mΩ, B2 12.4 V over 23.82 mΩ, 20 A together:
    // V = (12.6/13.82 + 12.4/23.82 − 0.020)/(1/13.82 + 1/23.82) = 12.351651 V; 17.970 A and 2.030 A.
    const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
battery B2 lead-acid, 12 V, 80 Ah, internal 20 mΩ
busbar POS and NEG 100 A
load PUMP 20 A
run W1 10 mm² red, 1 m, B1:+ to POS
run W2 10 mm² red, 1 m, B2:+ to POS
run W3 10 mm² black, 1 m, B1:- to NEG
run W4 10 mm² black, 1 m, B2:- to NEG
run W5 10 mm² red, 1 m, POS to PUMP:+
run W6 10 mm² black, 1 m, NEG to PUMP:-
case day PUMP on, B1 at 12.6 V, B2 at 12.4 V, conductors at 20 °C
`).in('day');
    const volts = (12.6 / 13.82 + 12.4 / 23.82 - 0.02) / (1 / 13.82 + 1 / 23.82);
    expect(volts).toBeCloseTo(12.351651, 6);
    expect(made.at('POS') - made.at('NEG')).toBeCloseTo(volts, 9);
    expect(made.part('B1').amps).toBeCloseTo((12.6 - volts) / 0.01382, 6);
    expect(made.part('B2').amps).toBeCloseTo(2.0297, 3);
    // Positive from `from` to `to`: W3 is written from the battery, against its current.
    expect(made.core('W1').amps).toBeCloseTo(17.9703, 3);
    expect(made.core('W3').amps).toBeCloseTo(-17.9703, 3);
  });

  it('that are said to be off give nothing', () => {
    const day = answersOf(lamp('5 A', 'case day LAMP on, B1 off')).in('day');
    expect(day.part('LAMP').amps).toBe(0);
    expect(day.at('B1:+')).toBe(0);
  });
});

describe('a load beyond what the wiring can feed', () => {
  // 10 m of 1.5 mm² out and back: 266 mΩ, with the battery 276 mΩ. Greatest power 12²/(4 × 0.276) = 130.43 W.
  const far = (watts: number) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
load KETTLE ${watts} W
load RADIO 5 W
run W1 1.5 mm² red, 10 m, B1:+ to KETTLE:+
run W2 1.5 mm² black, 10 m, KETTLE:- to B1:-
run W3 1.5 mm² red, 1 m, B1:+ to RADIO:+
run W4 1.5 mm² black, 1 m, RADIO:- to B1:-
case boil KETTLE on, conductors at 20 °C
case listen RADIO on
`;

  it('is fed up to there', () => {
    // 120 W: V = 6 + √(36 − 120 × 0.276) = 6 + √2.88 = 7.697056 V.
    expect(answersOf(far(120)).in('boil').part('KETTLE').volts).toBeCloseTo(7.697056, 6);
  });

  it('says so beyond, with what could be fed, gives no figures, and leaves the other cases', () => {
    const made = answersOf(far(150));
    const boil = made.in('boil');
    expect(boil.converged).toBe(false);
    expect(boil.trouble).toMatch(/^KETTLE cannot be fed: of 150 W its sources and wiring bring about 130 W at most/);
    expect([boil.volts.size, boil.cores.length, boil.parts.size, boil.contacts.length]).toEqual([0, 0, 0, 0]);
    expect(made.in('listen').part('RADIO').watts).toBeCloseTo(5, 9);
    // Its design current is at 0.875 × 12 = 10.5 V all the same: 150/10.5 A.
    expect(made.core('W1').designAmps).toBeCloseTo(150 / 10.5, 9);
  });

  it('tells a load with plus and minus swapped from one that is too large', () => {
    const swapped = far(20)
      .replace('B1:+ to KETTLE:+', 'B1:+ to KETTLE:-')
      .replace('KETTLE:- to B1:-', 'KETTLE:+ to B1:-');
    expect(answersOf(swapped).in('boil').trouble).toMatch(/plus and a minus are swapped/);
  });
});

describe('zero ohms', () => {
  const poles = (contacts: string, link: string) => `battery B1 lead-acid, 12 V, 80 Ah
isolator Q1 2 poles, 32 A dc${contacts}
load LAMP 5 A
${link}
run W1 2.5 mm² red, 1 m, B1:+ to Q1:1
run W2 2.5 mm² red, 1 m, Q1:2 to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to B1:-
case day LAMP on
`;

  it('in a loop are shared as if each way had the same resistance, and that is said', () => {
    const day = answersOf(poles('', 'link Q1 1-3, 2-4')).in('day');
    expect([day.pole('Q1', 1).amps, day.pole('Q1', 2).amps]).toEqual([expect.closeTo(2.5, 9), expect.closeTo(2.5, 9)]);
    expect([day.pole('Q1', 1).assumed, day.pole('Q1', 2).assumed]).toEqual([true, true]);
    // The part as a whole carries both.
    expect(day.part('Q1').amps).toBeCloseTo(5, 9);
  });

  it('are not assumed where the contacts say their resistance', () => {
    const day = answersOf(poles(', contacts 1 mΩ', 'link Q1 1-3, 2-4')).in('day');
    expect([day.pole('Q1', 1).amps, day.pole('Q1', 1).assumed]).toEqual([expect.closeTo(2.5, 9), false]);
    // Two of 1 mΩ in parallel lose 5 A × 0.5 mΩ.
    expect(day.at('Q1:1') - day.at('Q1:2')).toBeCloseTo(0.0025, 9);
  });

  it('without a loop are exact', () => {
    const day = answersOf(poles('', '')).in('day');
    expect([day.pole('Q1', 1).amps, day.pole('Q1', 1).assumed, day.pole('Q1', 2).amps]).toEqual([
      expect.closeTo(5, 9),
      false,
      0,
    ]);
  });

  it('in two alike runs of no length are shared and marked on the cores', () => {
    const day = answersOf(
      `battery B1 lead-acid, 12 V, 80 Ah
busbar POS 50 A
splice J1
load LAMP 6 A
run W1 2.5 mm² red, 1 m, B1:+ to POS
run W2 ? mm², 1 m
    red  POS to J1
    blue POS to J1
    grey POS to J1
run W3 2.5 mm² red, 1 m, J1 to LAMP:+
run W4 2.5 mm² black, 1 m, LAMP:- to B1:-
case day LAMP on
`.replace('run W2 ? mm²', 'run W2 3 x 2.5 mm²'),
    ).in('day');
    // Three cores of one cable share alike because they are alike, not by assumption.
    expect(['red', 'blue', 'grey'].map((label) => day.core('W2', label).amps)).toEqual(
      [2, 2, 2].map((a) => expect.closeTo(a, 9)),
    );
    expect(day.core('W2', 'red').assumed).toBe(false);
  });
});

describe('reference and sign', () => {
  it('is the negative of the battery first by name in the connected part', () => {
    const made = answersOf(`battery B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
load LAMP 10 A
run W1 10 mm² red, 1 m, B1:+ to LAMP:+
run W2 10 mm² black, 1 m, LAMP:- to B1:-
run W3 10 mm² red, 1 m, B2:+ to LAMP:+
run W4 10 mm² black, 1 m, LAMP:- to B2:-
case day LAMP on, conductors at 20 °C
`).in('day');
    // Each gives 5 A over its 1.91 mΩ: LAMP:- stands 9.55 mV above both, and so does nothing between them.
    expect(made.at('B1:-')).toBe(0);
    expect(made.at('LAMP:-')).toBeCloseTo(0.00955, 9);
    expect(made.at('B2:-')).toBeCloseTo(0, 9);
  });

  it('without a battery is the first source', () => {
    const day = answersOf(`alternator A1 14 V, 50 A, fixed
load LAMP 5 A
run W1 2.5 mm² red, 1 m, A1:+ to LAMP:+
run W2 2.5 mm² black, 1 m, LAMP:- to A1:-
case day LAMP and A1 on, conductors at 20 °C
`).in('day');
    expect(day.at('A1:-')).toBe(0);
    // Regulated at 14 V behind 1 mΩ: 13.995 V at 5 A; LAMP:- 39.9 mV above the alternator's negative.
    expect(day.at('A1:+')).toBeCloseTo(13.995, 9);
    expect(day.at('LAMP:-')).toBeCloseTo(0.0399, 9);
  });
});

describe('the vehicle body as return', () => {
  const body = (ohms: string) => `battery B1 lead-acid, 12 V, 80 Ah
chassis G1${ohms}
chassis G2
load LAMP 10 A
run W1 2.5 mm² red, 2 m, B1:+ to LAMP:+
run W2 10 mm² black, 0.5 m, B1:- to G1
run W3 2.5 mm² black, 0.5 m, LAMP:- to G2
case day LAMP on, conductors at 20 °C
`;

  it('joins all bonding points by 0 Ω', () => {
    // Drop 10 A × (2 × 7.98 + 0.5 × 7.98 + 0.5 × 1.91) mΩ = 0.20905 V.
    const day = answersOf(body('')).in('day');
    expect(day.part('LAMP').dropVolts).toBeCloseTo(0.20905, 9);
    expect(day.at('G1')).toBeCloseTo(day.at('G2'), 12);
  });

  it('or as stated', () => {
    const day = answersOf(body(' body 2 mΩ')).in('day');
    expect(day.at('G2') - day.at('G1')).toBeCloseTo(0.02, 9);
    expect(day.part('LAMP').dropVolts).toBeCloseTo(0.22905, 9);
  });
});

describe('switches, relays, selectors', () => {
  const relay = (more: string, ...cases: string[]) => `battery B1 lead-acid, 12 V, 80 Ah
relay K1 coil 12 V 150 mA, contact 30 A${more}
switch S1 1 pole, 5 A dc
load LAMP 5 A
load PILOT 1 A
run W1 2.5 mm² red, 1 m, B1:+ to K1:30
run W2 2.5 mm² red, 1 m, K1:87 to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to B1:-
run W4 1 mm² red, 1 m, B1:+ to S1:1
run W5 1 mm² red, 1 m, S1:2 to K1:86
run W6 1 mm² black, 1 m, K1:85 to B1:-
run W7 1 mm² red, 1 m, K1:87a to PILOT:+
run W8 1 mm² black, 1 m, PILOT:- to B1:-
${cases.join('\n')}
`;

  it('a relay follows its coil, and a switch is closed unless the case says off', () => {
    const made = answersOf(
      relay('', 'case day all loads on', 'case night all loads on, S1 off', 'case forced all loads on, S1 off, K1 on'),
    );
    expect(made.in('day').part('LAMP').amps).toBeCloseTo(5, 9);
    expect(made.in('day').part('PILOT').amps).toBe(0);
    expect(made.in('day').part('K1').energised).toBe(true);
    // The coil is 12 V/150 mA = 80 Ω.
    expect(made.in('day').core('W5').amps).toBeCloseTo(made.in('day').at('K1:86') / 80, 3);
    expect(made.in('night').part('LAMP').amps).toBe(0);
    expect(made.in('night').part('PILOT').amps).toBeCloseTo(1, 9);
    expect(made.in('forced').part('LAMP').amps).toBeCloseTo(5, 9);
  });

  it('a low-voltage cut-off opens below its voltage', () => {
    const made = answersOf(
      relay(', opens below 11.2 V', 'case full LAMP on, B1 at 12.6 V', 'case empty LAMP on, B1 at 11.0 V'),
    );
    expect(made.in('full').part('LAMP').amps).toBeCloseTo(5, 9);
    expect(made.in('empty').part('LAMP').amps).toBe(0);
  });

  it('a cut-off that its own load pulls down rests open, where it closes again only above what is left', () => {
    const weak = (more: string) =>
      answersOf(relay(more, 'case low LAMP on, B1 at 11.4 V').replace('80 Ah', '80 Ah, internal 100 mΩ')).in('low');
    // 5 A pull 11.4 V down to 10.9 V; without a load it is 11.4 V again, which is above 11.2 V but below 12.6 V.
    const rests = weak(', opens below 11.2 V, closes above 12.6 V');
    expect([rests.converged, rests.part('LAMP').amps, rests.part('K1').energised]).toEqual([true, 0, false]);
    expect(weak(', opens below 11.2 V').trouble).toMatch(/^K1 never comes to rest/);
    expect(weak(', opens below 10.5 V, closes above 12.6 V').part('LAMP').amps).toBeCloseTo(5, 9);
  });

  it('a relay that opens its own coil has no answer, and that is said', () => {
    const buzzer = `battery B1 lead-acid, 12 V, 80 Ah
relay K1 coil 12 V 150 mA, contact 30 A
run W1 1 mm² red, 1 m, B1:+ to K1:30
run W2 1 mm² red, 1 m, K1:87a to K1:86
run W3 1 mm² black, 1 m, K1:85 to B1:-
case day sun 0 %
`;
    const { converged, trouble } = answersOf(buzzer).in('day');
    expect([converged, trouble]).toEqual([false, 'K1 never comes to rest: its contact takes away what its coil needs']);
  });

  it.each([
    ['', [12, 12.4]],
    [', positions off 1 2 both', [12, 12.4]],
    [', positions 1 2', [12]],
    [', positions off 2', [12.4]],
  ] as const)('a selector “%s” joins what it can', (positions, joined) => {
    const day = answersOf(`battery B1 and B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
selector S9 100 A${positions}
load LAMP 10 A
run W1 10 mm² red, 1 m, B1:+ to S9:1
run W2 10 mm² red, 1 m, B2:+ to S9:2
run W3 10 mm² red, 1 m, S9:common to LAMP:+
run W4 10 mm² black, 1 m, LAMP:- to B1:-
run W5 10 mm² black, 1 m, LAMP:- to B2:-
case day LAMP on, B1 at 12 V, B2 at 12.4 V
case none LAMP on, S9 off
`);
    const flowing = [day.in('day').pole('S9', 1), day.in('day').pole('S9', 2)].map(({ amps }) => Math.abs(amps) > 1e-6);
    expect(flowing).toEqual([joined.includes(12 as never), joined.includes(12.4 as never)]);
    expect(day.in('none').part('LAMP').amps).toBe(0);
  });

  it.each([
    ['S9 at 1', [12]],
    ['S9 at 2', [12.4]],
    ['S9 at both', [12, 12.4]],
    ['S9 at off', []],
    ['S9 on, S9 at 2', [12.4]],
  ] as const)('“%s” turns a selector in that case alone', (said, joined) => {
    const { in: of } = answersOf(`battery B1 and B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
selector S9 100 A
load LAMP 10 A
run W1 10 mm² red, 1 m, B1:+ to S9:1
run W2 10 mm² red, 1 m, B2:+ to S9:2
run W3 10 mm² red, 1 m, S9:common to LAMP:+
run W4 10 mm² black, 1 m, LAMP:- to B1:-
run W5 10 mm² black, 1 m, LAMP:- to B2:-
case day LAMP on, B1 at 12 V, B2 at 12.4 V, ${said}
case usual LAMP on, B1 at 12 V, B2 at 12.4 V
`);
    const flowing = (name: string) =>
      [of(name).pole('S9', 1), of(name).pole('S9', 2)].map(({ amps }) => Math.abs(amps) > 1e-6);
    expect(flowing('day')).toEqual([joined.includes(12 as never), joined.includes(12.4 as never)]);
    expect(flowing('usual')).toEqual([true, true]);
    // One alone carries all of it: 10 A through two metres of lead and the battery, as if it were wired so.
    if (joined.length === 1) expect(Math.abs(of('day').pole('S9', joined[0] === 12 ? 1 : 2).amps)).toBeCloseTo(10, 6);
  });

  it('a fuse that is said to be off is taken out', () => {
    expect(answersOf(lamp('5 A', 'case day LAMP on, F1 off')).in('day').part('LAMP').amps).toBe(0);
  });

  it('a diode lets current through one way and loses its voltage', () => {
    const day = answersOf(`battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
diode D1 and D2 30 A, loses 0.6 V
load LAMP and LAMP2 5 A
run W1 2.5 mm² red, 1 m, B1:+ to D1:in
run W2 2.5 mm² red, 1 m, D1:out to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to B1:-
run W4 2.5 mm² red, 1 m, B1:+ to D2:out
run W5 2.5 mm² red, 1 m, D2:in to LAMP2:+
run W6 2.5 mm² black, 1 m, LAMP2:- to B1:-
case day all loads on, conductors at 20 °C
`).in('day');
    // 0.6 V and 1 mΩ × 5 A.
    expect(day.at('D1:in') - day.at('D1:out')).toBeCloseTo(0.605, 9);
    expect(day.part('LAMP2').amps).toBe(0);
  });
});

describe('answers', () => {
  it('keep Kirchhoff’s law to a milliardth', () => {
    const made = answersOf(lamp('48 W', 'case day LAMP on'));
    for (const { residual } of made.answers.cases) expect(residual).toBeLessThan(1e-9);
  });
});
