/** A source or converter the wrong way round is told itself, and nothing of what hangs on it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const told = (text: string) => analyseText(text).findings.map(({ slug, subject }) => `${slug} ${subject}`);
const message = (text: string) => analyseText(text).findings[0]?.message ?? '';

const bank = (
  converter: string,
  input: readonly [string, string],
  output: readonly [string, string],
) => `system "Bus" 24 V
battery B1 and B2 agm, 12 V, 100 Ah, internal 6 mΩ
fuse F1 15 A, cartridge, 125 V, breaks 10 kA
converter CV ${converter}
busbar NEG 100 A
load LAMPS 24 W
load FAN 12 W
run W0 25 mm² black, 0.3 m, B1:+ to B2:-
run W1 6 mm² red, 0.2 m, B2:+ to F1:in
run W2 6 mm² red, 0.5 m, F1:out to CV:${input[0]}
run W3 6 mm² black, 0.5 m, CV:${input[1]} to NEG
run W4 25 mm² black, 0.5 m, B1:- to NEG
run W5 6 mm², 0.5 m, CV:${output[0]} to LAMPS:+
run W6 6 mm², 0.5 m, LAMPS:- to CV:${output[1]}
run W7 6 mm², 0.5 m, CV:${output[0]} to FAN:+
run W8 6 mm², 0.5 m, FAN:- to CV:${output[1]}
case evening all loads on
`;
const apart = '12 V, 20 A, efficiency 90 %';
const common = `${apart}, common negative`;
const [inRight, outRight] = [['in+', 'in-'] as const, ['out+', 'out-'] as const];
const [inWrong, outWrong] = [['in-', 'in+'] as const, ['out-', 'out+'] as const];

describe('a converter behind batteries in series', () => {
  it('is right as it should be', () => {
    for (const converter of [apart, common]) expect(told(bank(converter, inRight, outRight))).toEqual([]);
  });

  it('is told where its input is the wrong way round, also where its own negative shorts the bank then', () => {
    for (const converter of [apart, common]) {
      expect(told(bank(converter, inWrong, outRight))).toEqual(['polarity-reversed CV']);
      expect(message(bank(converter, inWrong, outRight))).toMatch(/^CV:in\+ is on B2’s negative side \(B1:-\)/u);
    }
  });

  it('is told where its output is, and not each of its loads', () => {
    const text = bank(apart, inRight, outWrong);
    expect(told(text)).toEqual(['polarity-reversed CV']);
    expect(message(text)).toBe(
      'CV:out+ is on LAMPS’s negative side (LAMPS:-) and CV:out- on its positive (LAMPS:+): swap them. Until then case evening has no answer, so nothing is checked there.',
    );
  });

  it('is not told where one load alone is', () => {
    const text = bank(apart, inRight, outRight)
      .replace('CV:out+ to FAN:+', 'CV:out+ to FAN:-')
      .replace('FAN:- to CV:out-', 'FAN:+ to CV:out-');
    expect(told(text)).toEqual(['polarity-reversed FAN']);
  });
});

describe('a second battery the wrong way round', () => {
  const two = (plus: string, minus: string) => `system "Sun" 12 V
battery B1 agm, 12 V, 100 Ah, internal 6 mΩ
panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A, voc drift -0.3 %/°C
isolator Q2 2 poles, 25 A dc, 60 V, category DC-PV2
controller U1 mppt, pv 75 V 15 A, output 15 A, common negative
battery B2 agm, 12 V, 100 Ah, internal 6 mΩ
fuse F1 and F2 60 A, cartridge, 125 V, breaks 10 kA
fuse F3 20 A, bolt-in, 58 V, breaks 8 kA
busbar POS and NEG 150 A
load LAMPS 24 W
fuse F4 5 A, cartridge, 125 V, breaks 10 kA
run W1 25 mm² red, 0.3 m, B1:+ to F1:in
run W2 25 mm² red, 0.3 m, F1:out to POS
run W3 25 mm² black, 0.5 m, B1:- to NEG
run W4 25 mm² red, 0.3 m, B2:${plus} to F2:in
run W5 25 mm² red, 0.3 m, F2:out to POS
run W6 25 mm² black, 0.5 m, B2:${minus} to NEG
run W7 6 mm² red, 2 m, P1:+ to Q2:1
run W8 6 mm² black, 2 m, P1:- to Q2:3
run W9 6 mm² red, 1 m, Q2:2 to U1:pv+
run W10 6 mm² black, 1 m, Q2:4 to U1:pv-
run W11 6 mm² red, 1 m, U1:bat+ to F3:out
run W12 6 mm² red, 0.2 m, F3:in to POS
run W13 6 mm² black, 1 m, U1:bat- to NEG
run W14 2.5 mm² red, 0.2 m, POS to F4:in
run W15 2.5 mm² red, 1 m, F4:out to LAMPS:+
run W16 2.5 mm² black, 1 m, LAMPS:- to NEG
case night charge 60 %, LAMPS on
`;

  it('is told alone, with the controller beside it right by the first', () => {
    expect(told(two('+', '-'))).toEqual([]);
    expect(told(two('-', '+'))).toEqual(['polarity-reversed B2']);
    expect(message(two('-', '+'))).toContain('Until then case night has no answer');
  });
});

describe('a breaker with two poles beside panels', () => {
  it('is there to open them, and is not told that it never blows from them', () => {
    const sun = `system "Sun" 12 V
battery B1 agm, 12 V, 100 Ah, internal 6 mΩ
panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A, voc drift -0.3 %/°C
breaker Q2 2 poles, 10 A, 80 V dc, breaks 3 kA
controller U1 mppt, pv 75 V 15 A, output 15 A, common negative
fuse F3 20 A, bolt-in, 58 V, breaks 8 kA
run W7 6 mm² red, 2 m, P1:+ to Q2:1
run W8 6 mm² black, 2 m, P1:- to Q2:3
run W9 6 mm² red, 1 m, Q2:2 to U1:pv+
run W10 6 mm² black, 1 m, Q2:4 to U1:pv-
run W11 6 mm² red, 1 m, U1:bat+ to F3:out
run W12 6 mm² red, 0.2 m, F3:in to B1:+
run W13 6 mm² black, 1 m, U1:bat- to B1:-
`;
    expect(told(sun).filter((one) => one.startsWith('fuse-never-blows'))).toEqual([]);
    // A fuse in its place is.
    const fused = sun
      .replace('breaker Q2 2 poles, 10 A, 80 V dc, breaks 3 kA', 'fuse F2 10 A, cartridge, 1000 V, breaks 30 kA')
      .replace('Q2:1', 'F2:in')
      .replace('Q2:2', 'F2:out')
      .replace('P1:- to Q2:3', 'P1:- to U1:pv-')
      .replace('run W10 6 mm² black, 1 m, Q2:4 to U1:pv-\n', '');
    expect(told(fused).filter((one) => one.startsWith('fuse-never-blows'))).toEqual(['fuse-never-blows F2']);
  });
});
