import { describe, expect, it } from 'vitest';
import { analyseText } from '../../analysed.ts';
import { offering, titles } from './offering.ts';

const kind = 'quickfix';
const hut = (lines: string) => `system "Hut" 12 V

battery B1  agm, 12 V, 60 Ah
fuse F1     5 A, blade, 32 V, breaks 2 kA
load LAMP   9 W
${lines}
run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2  1.5 mm² red, 2 m, F1:out to LAMP:+
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
`;
const takes = (lines: string) => titles(offering(hut(lines), kind)).filter((one) => one.startsWith('Take'));

describe('a part that nothing names', () => {
  it('is taken out, and what stood around it stays tidy', () => {
    const found = offering(
      hut('load LONG-|NAME  9 W\n').replaceAll(/^(battery B1|fuse F1|load LAMP) +/gmu, (head) => head.padEnd(16)),
      kind,
    );
    expect(titles(found)[0]).toBe('Take LONG-NAME out: nothing is joined to it or names it');
    expect(found.chosen('Take')).toBe(hut(''));
    expect(analyseText(found.chosen('Take')).findings).toEqual([]);
  });

  it('also one that is a node', () => {
    expect(takes('busbar |POS  50 A\n')).toEqual(['Take POS out: nothing is joined to it or names it']);
  });

  it('stays where something is noted beside it, names it, or stands in its statement', () => {
    expect(takes('load |FAN  9 W  # from the old hut\n')).toEqual([]);
    expect(takes('# from the old hut\nload |FAN  9 W\n')).toEqual([]);
    expect(takes('load |FAN  9 W\ncase night  FAN on\n')).toEqual([]);
    expect(takes('load |FAN and BELL  9 W\n')).toEqual([]);
    expect(takes('load |FAN  9 W\nrun W4  1.5 mm² red, 2 m, F1:out to FAN:+\n')).toEqual([]);
  });
});
