/** Cores on the wrong pole: the first of several in line alone, and never what joins batteries in series. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const found = (text: string) => {
  const { answers, findings } = analyseText(text);
  return {
    astray: answers.miswirings.astray.map(({ core, end }) => `${core.run.name} on ${end.id}`),
    told: findings.map(({ slug }) => slug),
  };
};

describe('a core on the wrong pole', () => {
  it('is the one at the battery, and not those in line behind it', () => {
    const yard = (pole: string) => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 10 mΩ
fuse F1 5 A, blade, 32 V, breaks 2 kA
busbar POS 50 A
busbar NEG 50 A
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:${pole} to F1:in
run W2 1.5 mm² red, 0.3 m, F1:out to POS
run W3 1.5 mm² red, 1 m, POS to LAMP:+
run W4 1.5 mm² black, 1 m, LAMP:- to NEG
run W5 1.5 mm² black, 0.2 m, NEG to B1:-
`;
    expect(found(yard('-'))).toEqual({ astray: ['W1 on B1:-'], told: ['polarity-reversed'] });
    expect(found(yard('+'))).toEqual({ astray: [], told: [] });
  });

  it('is none that leads through a switch to a battery in series, nor where something is tapped between the two', () => {
    const bank = `system "Yard" 24 V
battery B1 and B2 lead-acid, 12 V, 100 Ah, internal 10 mΩ
isolator Q1 1 pole, 50 A dc, 48 V
fuse F1 and F2 5 A, bolt-in, 58 V, breaks 5 kA
load LAMP 24 W
load BELL 6 W, highest 16 V
splice MID
run W1 16 mm² black, 0.1 m, B1:+ to Q1:1
run W2 16 mm² black, 0.1 m, Q1:2 to MID
run W3 16 mm² black, 0.1 m, MID to B2:-
run W4 1.5 mm² red, 0.1 m, B2:+ to F1:in
run W5 1.5 mm² red, 1 m, F1:out to LAMP:+
run W6 1.5 mm² black, 1 m, LAMP:- to B1:-
run W7 1.5 mm² red, 0.1 m, B2:+ to F2:in
run W8 1.5 mm² red, 1 m, F2:out to BELL:+
`;
    for (const tap of ['', 'run W9 1.5 mm² black, 1 m, BELL:- to MID\n']) {
      expect(found(bank + tap).astray).toEqual([]);
      expect(found(bank + tap).told).not.toContain('polarity-reversed');
    }
  });
});
