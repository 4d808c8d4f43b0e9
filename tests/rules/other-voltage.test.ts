/** What is made for another voltage is told with that cause and its mend, and not with cables, fuses and batteries that follow. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const found = (text: string) => analyseText(text).findings;
const told = (text: string) => found(text).map(({ slug, subject }) => `${slug} ${subject}`);
const said = (text: string) => found(text).map(({ message }) => message);

/** One thing on a bank of 12 or 24 V. */
const on = (
  volts: number,
  part: string,
  cable = '6 mm² red, 105 °C, 1 m',
  ...more: readonly string[]
) => `system "Van" ${volts} V
battery B1 agm, ${volts} V, 100 Ah, internal 10 mΩ, sealed
fuse F1 60 A, bolt-in, 58 V, breaks 5 kA
run W1 16 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W2 16 mm² red, 105 °C, 0.2 m, F1:out to F2:in
fuse F2 25 A, bolt-in, 58 V, breaks 5 kA
run W3 ${cable}, F2:out to X:+
run W4 ${cable.replace('red', 'black')}, X:- to B1:-
${[part, ...more].join('\n')}
`;

describe('what is made for 24 V on a bank of 12 V', () => {
  it.each([
    'load X 60 W, lowest 22 V',
    'load X 3 A, lowest 22 V',
    'load X 4 Ω, lowest 21 V',
    'socket X 25 A, plugged in 60 W, lowest 20 V',
  ])('is told as that: %s', (part) => {
    const text = on(12, part);
    expect(told(text)).toEqual(['load-below-lowest-voltage X']);
    expect(said(text)[0]).toMatch(
      /^X works from \d+ V on, but B1 gives 11\.\d+ V in case loads-only: it is made for a higher voltage\. Feed it by a converter that gives that, or fit one for 12 V\.$/u,
    );
  });

  it('is told so of an inverter', () => {
    const text = on(12, 'inverter X 150 W, lowest 21 V, insulated case');
    expect(told(text)).toEqual(['inverter-input-drop X']);
    expect(said(text)[0]).toContain(
      'it is made for a higher voltage. Fit one for 12 V, or feed it from a bank of its own voltage.',
    );
  });

  it('is not told with the cables in which it loses more than it would at its own voltage', () => {
    const thin = '2.5 mm² red, 105 °C, 7 m';
    const load = 'load X 60 W, lowest 22 V';
    expect(told(on(12, 'load X 60 W, lowest 10 V', thin))).toEqual(['drop-over-limit W3']);
    expect(told(on(12, load, thin))).toEqual(['load-below-lowest-voltage X']);
    const accepted = 'allow load-below-lowest-voltage on X "it works at 10 V as well"';
    expect(told(on(12, load, thin, accepted))).toEqual(['drop-over-limit W3']);
  });
});

describe('what is made for 12 V on a bank of 24 V', () => {
  it('is told as that where it says what it bears', () => {
    const text = on(24, 'load X 60 W, lowest 10.5 V, highest 15 V');
    expect(told(text)).toEqual(['load-above-highest-voltage X']);
    expect(said(text)[0]).toContain(
      'it is made for a lower voltage, so feed it by a converter that gives that, or fit one for 24 V.',
    );
  });

  it('is asked for what it bears where it only says that it works at half', () => {
    for (const part of ['load X 60 W, lowest 10.5 V', 'inverter X 150 W, lowest 10.5 V, insulated case']) {
      const [only, ...others] = found(on(24, part));
      expect(others).toEqual([]);
      expect(only?.severity).toBe('advice');
      expect(only?.message).toContain('say the most it bears, such as highest 30 V');
    }
    expect(told(on(24, 'load X 60 W, lowest 10.5 V, highest 32 V'))).toEqual([]);
    expect(told(on(24, 'load X 60 W, lowest 21 V'))).toEqual([]);
    expect(told(on(12, 'load X 60 W, lowest 5 V'))).toEqual([]);
  });

  it('bears a little less than a charged battery has: then one that bears more is asked for', () => {
    const text = on(12, 'load X 60 W, highest 12.6 V', undefined, 'case noon X on, B1 at 14.4 V');
    expect(said(text)[0]).toContain(
      'feed it by a converter that gives what it is made for, or fit one that bears more.',
    );
  });
});

describe('a single panel above its controller', () => {
  const sun = (panels: string, more = '') => `system "Van" 12 V, coldest -10 °C
battery B1 agm, 12 V, 100 Ah, internal 10 mΩ, sealed, charge 30 A
fuse F1 30 A, bolt-in, 58 V, breaks 5 kA
panel ${panels} 100 W, voc 45 V, isc 3 A, vmp 37 V, imp 2.7 A, voc drift -0.30 %/°C
isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2
controller U1 mppt, pv 48 V 15 A, output 15 A, common negative
run W1 4 mm² red, 105 °C, 1 m, P1:+ to Q1:1
run W2 4 mm² black, 105 °C, 1 m, ${more === '' ? 'P1' : 'P2'}:- to Q1:3
run W3 4 mm² red, 105 °C, 1 m, Q1:2 to U1:pv+
run W4 4 mm² black, 105 °C, 1 m, Q1:4 to U1:pv-
run W5 6 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W6 6 mm² red, 105 °C, 0.4 m, F1:out to U1:bat+
run W7 6 mm² black, 105 °C, 0.4 m, U1:bat- to B1:-
${more}
`;

  it('is to be another panel, and not fewer of it', () => {
    const [one] = said(sun('P1'));
    expect(one).toContain(
      'take a panel of lower open-circuit voltage, or take a controller for a higher panel voltage',
    );
    const [two] = said(sun('P1 and P2', 'run W8 4 mm² red, 105 °C, 1 m, P1:- to P2:+'));
    expect(two).toContain('put fewer panels in series, or take a controller');
  });
});

describe('poles that swap plus and minus', () => {
  const crossed = (first: string, second: string, ...more: readonly string[]) => `system "Van" 24 V
battery B1 and B2 agm, 12 V, 100 Ah, internal 10 mΩ, sealed
battery B3 and B4 agm, 12 V, 100 Ah, internal 10 mΩ, sealed
fuse F1 and F2 60 A, bolt-in, 58 V, breaks 5 kA
isolator Q1 2 poles, 100 A dc, 60 V
busbar POS 150 A
busbar NEG 150 A
load X 60 W
fuse F3 10 A, bolt-in, 58 V, breaks 5 kA
run W1 16 mm² red, 105 °C, 0.2 m, B2:+ to F1:in
run W2 16 mm² red, 105 °C, 0.4 m, F1:out to POS
run W3 16 mm² black, 105 °C, 0.4 m, B1:- to NEG
run W4 16 mm² red, 105 °C, 0.2 m, B1:+ to B2:-
run W5 16 mm² red, 105 °C, 0.2 m, B3:+ to B4:-
run W6 16 mm² red, 105 °C, 0.2 m, B4:+ to F2:in
run W7 16 mm² red, 105 °C, 0.4 m, F2:out to Q1:1
run W8 16 mm² black, 105 °C, 0.4 m, B3:- to Q1:3
run W9 16 mm² red, 105 °C, 0.4 m, Q1:${first} to POS
run W10 16 mm² black, 105 °C, 0.4 m, Q1:${second} to NEG
run W11 4 mm² red, 105 °C, 0.2 m, POS to F3:in
run W12 4 mm² red, 105 °C, 1 m, F3:out to X:+
run W13 4 mm² black, 105 °C, 1 m, X:- to NEG
${more.join('\n')}
`;

  it('are told alone, whatever voltages and currents seem to come of it', () => {
    expect(told(crossed('2', '4'))).toEqual([]);
    expect(told(crossed('4', '2'))).toEqual(['poles-crossed Q1']);
  });

  it('are told alone where two voltages seem to be joined', () => {
    const alternator = [
      'alternator ALT 28 V, 30 A',
      'run W14 16 mm² red, 105 °C, 0.4 m, ALT:+ to POS',
      'run W15 16 mm² black, 105 °C, 0.4 m, ALT:- to NEG',
    ];
    expect(told(crossed('4', '2', ...alternator))).toEqual(['poles-crossed Q1']);
    const accepted = 'allow poles-crossed on Q1 "as it was found"';
    expect(told(crossed('4', '2', ...alternator, accepted)).length).toBeGreaterThan(1);
  });
});
