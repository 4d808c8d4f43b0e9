import { describe, expect, it } from 'vitest';
import { cardOf } from '../../../server/reports/cards/card-of.ts';
import { analyseText } from '../../analysed.ts';

/** Terminals by wall and place: `top 0:1 1:3, bottom 0:2 1:4`. */
function face(text: string) {
  const analysis = analyseText(`system "Bench" 12 V\n${text}\n`);
  const [part] = analysis.model.parts.values();
  if (part === undefined) throw new Error('no part');
  const { spots, notes, faceStated } = cardOf(analysis, part);
  const sides = ['top', 'bottom', 'left', 'right'] as const;
  const where = sides.flatMap((side) => {
    const row = spots.filter((spot) => spot.side === side).map(({ terminal, place }) => `${place}:${terminal}`);
    return row.length === 0 ? [] : [`${side} ${row.join(' ')}`];
  });
  return { where: where.join(', '), notes, faceStated };
}

describe('where terminals stand', () => {
  it.each([
    ['as the face says, in its order', 'face 1 3 5 over 2 4 6', 'top 0:1 1:3 2:5, bottom 0:2 1:4 2:6'],
    ['staggered', 'face 1 4 5 over 2 3 6', 'top 0:1 1:4 2:5, bottom 0:2 1:3 2:6'],
    ['pairs across the other way round', 'face 2 4 6 over 1 3 5', 'top 0:2 1:4 2:6, bottom 0:1 1:3 2:5'],
    ['pairs side by side', 'face 1 2 3 over 4 5 6', 'top 0:1 1:2 2:3, bottom 0:4 1:5 2:6'],
    ['a shorter row between those of the longer', 'face 1 3 5 6 over 2 4', 'top 0:1 1:3 2:5 3:6, bottom 1:2 2:4'],
    ['half a step apart', 'face 1 3 5 over 2 4', 'top 0:1 1:3 2:5, bottom 0.5:2 1.5:4'],
  ])('%s', (_what, clause, where) => {
    const read = face(`isolator Q1 3 poles, 25 A dc, ${clause}`);
    expect(read.where).toBe(where);
    expect(read.faceStated).toBe(true);
  });

  it('says what a face leaves out, names twice or names in vain, and draws no guess', () => {
    const read = face('isolator Q1 3 poles, 25 A dc, face 1 3 over 2 9 3');
    expect(read.where).toBe('top 0:1 1:3, bottom 0.5:2');
    expect(read.notes).toEqual([
      'Its face does not say where 4, 5 and 6 stand, so they are not drawn: add them to the face.',
      'Its face names 9, which it does not have.',
      'Its face names 3 twice; the first place is drawn.',
    ]);
  });

  it.each([
    ['an isolator', 'isolator Q1 2 poles, 25 A dc', 'top 0:1 1:3, bottom 0:2 1:4', true],
    ['with other pairs', 'switch S1 2 poles, 5 A dc, pairs 1-3 2-4', 'top 0:1 1:2, bottom 0:3 1:4', true],
    ['a breaker', 'breaker CB1 20 A, 2 poles', 'top 0:1 1:3, bottom 0:2 1:4', true],
    ['a selector', 'selector S9 100 A', 'top 0:1 2:2, bottom 1:common', false],
    ['a relay', 'relay K1 coil 12 V, contact 30 A', 'top 0:86 1.5:30, bottom 0:85 1.5:87a 3:87', false],
    ['a board', 'fusebox FB 3 ways, negative bar', 'top 0:in, bottom 0:neg, left 0:1 1:2, right 0:3', false],
    ['a controller', 'controller U1 mppt, pv 75 V, output 9 A', 'bottom 0:pv+ 1:pv- 2:bat+ 3:bat-', false],
  ])(
    'pairs of %s stand across where no face is said, and the card says that it is no picture',
    (_what, text, where, canSay) => {
      const read = face(text);
      expect(read.where).toBe(where);
      expect(read.faceStated).toBe(false);
      expect(read.notes).toEqual([
        expect.stringMatching(canSay ? /go by the marks on the part\. Say its face/ : /go by the marks on the part\.$/),
      ]);
    },
  );

  it('says nothing of it where two terminals are told apart by their marks alone', () => {
    const read = face('breaker CB1 20 A');
    expect(read).toEqual({ where: 'top 0:in, bottom 0:out', notes: [], faceStated: false });
  });
});
