/** Which loads on a part of a row of batteries are told of, and which are made good for or too small to matter. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const row = (radio: string, ...more: string[]) =>
  [
    'system "Bus" 24 V',
    'battery B1 and B2 and B3 and B4 agm, 6 V, 100 Ah, internal 5 mΩ',
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 10 A, bolt-in, 58 V, breaks 5 kA',
    'load HEATER 480 W',
    `load RADIO ${radio}`,
    'run W1 16 mm² red, 0.2 m, B4:+ to F1:in',
    'run W2 16 mm² red, 0.3 m, B1:+ to B2:-',
    'run W3 16 mm² red, 0.3 m, B2:+ to B3:-',
    'run W4 16 mm² red, 0.3 m, B3:+ to B4:-',
    'run W5 16 mm² red, 1 m, F1:out to HEATER:+',
    'run W6 16 mm² black, 1 m, HEATER:- to B1:-',
    'run W8 2.5 mm² red, 1 m, F2:out to RADIO:+',
    ...more,
    '',
  ].join('\n');

const lower = ['run W7 2.5 mm² red, 0.2 m, B2:+ to F2:in', 'run W9 2.5 mm² black, 1 m, RADIO:- to B1:-'];
const upper = ['run W7 2.5 mm² red, 0.2 m, B4:+ to F2:in', 'run W9 2.5 mm² black, 1 m, RADIO:- to B2:+'];
const all = ['run W7 2.5 mm² red, 0.2 m, B4:+ to F2:in', 'run W9 2.5 mm² black, 1 m, RADIO:- to B1:-'];

function told(text: string): string[] {
  return analyseText(text)
    .findings.filter(({ slug }) => slug === 'load-on-part-of-bank')
    .map(({ subject, message }) => `${subject}: ${message}`);
}

describe('a load on a part of a row of batteries', () => {
  it('is told at the first of those that feed it, be they the lower or the upper', () => {
    const rest = 'charged too far: feed it by a converter from the whole 24 V.';
    expect(told(row('24 W', ...lower))).toEqual([
      `B1: RADIO takes 2.3 A from B1 and B2 alone of the batteries in series, so that B1 and B2 are never full and B3 and B4 are ${rest}`,
    ]);
    expect(told(row('24 W', ...upper))).toEqual([
      `B3: RADIO takes 2.3 A from B3 and B4 alone of the batteries in series, so that B3 and B4 are never full and B1 and B2 are ${rest}`,
    ]);
  });

  it('is not told where it hangs on all of them, takes next to nothing, or its part is charged by itself', () => {
    expect(told(row('24 W', ...all))).toEqual([]);
    expect(told(row('1 W', ...lower))).toEqual([]);
    const charged = [
      'charger U1 mains, 12 V, output 10 A',
      'fuse F3 15 A, bolt-in, 58 V, breaks 5 kA',
      'run W10 2.5 mm² red, 1 m, U1:out+ to F3:out',
      'run W11 2.5 mm² red, 0.2 m, F3:in to B2:+',
      'run W12 2.5 mm² black, 1 m, U1:out- to B1:-',
    ];
    expect(told(row('24 W', ...lower, ...charged))).toEqual([]);
  });
});
