/** What hover adds on direction and time: told where there is something to tell, with the figures of the answers. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { placeOf, read } from './hovering.ts';

const text = `system "Shed" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 10 mΩ
charger U1 12 V, 18 A, from mains
fuse F1 30 A, blade, 32 V, breaks 3 kA
fuse F2 10 A, blade, 32 V, breaks 3 kA
fuse F3 5 A, blade, 32 V, breaks 3 kA
load PUMP 4 A, surge 20 A for 0.3 s
load WINCH 25 A, for 30 s, 2 min/day
load LAMP 12 W, surge 24 W
run W1 6 mm² red, 1 m, U1:out+ to F1:out
run W2 6 mm² red, 0.1 m, F1:in to B1:+
run W3 6 mm² black, 1 m, U1:out- to B1:-
run W4 6 mm² red, 0.1 m, B1:+ to F2:in
run W5 2.5 mm² red, 1 m, F2:out to PUMP:+
run W6 2.5 mm² black, 1 m, PUMP:- to B1:-
run W7 1.5 mm² red, 1 m, F1:out to WINCH:+
run W8 6 mm² black, 1 m, WINCH:- to B1:-
run W9 6 mm² red, 0.1 m, B1:+ to F3:in
run W10 2 x 1.5 mm², 1 m
    red    F3:out to LAMP:+
    black  LAMP:- to B1:-
case shore all sources on
case busy all loads on
`;
const analysis = analyseText(text);
const told = (name: string) => read(analysis, placeOf(text, name))?.value ?? '';
const lines = (name: string) =>
  told(name)
    .split('\n')
    .filter((line) => /driven both ways|Carries|Over time/u.test(line));

describe('hover of a run', () => {
  it('tells both directions where there are two', () => {
    expect(lines('W1')).toEqual([
      '- Can be driven both ways: from U1:out+ by U1 (lasting 18 A), from F1:out by B1 (lasting 0 A).'.replace(
        '18.0',
        '18',
      ),
    ]);
  });

  it('says nothing of a feed and its return', () => {
    expect(lines('W3')).toEqual([]);
    expect(lines('W9').filter((line) => line.includes('both ways'))).toEqual([]);
  });

  it('tells what flows for a time, for all cores at once, and how it warms', () => {
    const core = [...analysis.answers.cores.keys()].find(({ run }) => run.name === 'W7');
    const warm = core === undefined ? Number.NaN : analysis.answers.directions.heatingAmps(core);
    expect(warm).toBeGreaterThan(10);
    expect(lines('W7')).toEqual([
      // τ ln(1/(1 − 20²/25²)), τ = 226² ln(304.5/264.5) · 1.5²/20² = 40.5 s.
      '- Carries 25 A for 30 s while WINCH runs, 0.1 % of the day; it bears that for 41 s.',
      `- Over time that warms it like ${warm.toFixed(1)} A without end.`,
    ]);
    expect(lines('W10')).toEqual(['- Carries 2.29 A when LAMP starts; for how long is not said.']);
  });
});

describe('hover of a device', () => {
  it('tells how long it holds what is above its rating, and nothing of what is below', () => {
    expect(lines('F2')).toEqual([
      '- Carries 20 A for 0.3 s when PUMP starts; at that it opens after 0.15 s to 5 s by ISO 8820-3 types C and F (not checked against the printed standard).',
    ]);
    expect(lines('F1')).toEqual([]);
    expect(lines('F3')).toEqual([]);
  });
});
