import { describe, expect, it } from 'vitest';
import { distance, nearWords } from '../../grammar/near.ts';

describe('edit distance', () => {
  it.each([
    ['fuse', 'fuse', 0],
    ['fuse', 'fues', 1],
    ['fuse', 'fus', 1],
    ['fuse', 'fuses', 1],
    ['fuse', 'fuze', 1],
    ['', 'abc', 3],
    ['isolator', 'insulator', 2],
  ])('%s to %s', (a, b, edits) => {
    expect(distance(a, b)).toBe(edits);
    expect(distance(b, a)).toBe(edits);
  });
});

describe('near words', () => {
  const kinds = ['fuse', 'fusebox', 'isolator', 'inverter', 'load', 'panel', 'place', 'splice'];

  it.each([
    ['fues', ['fuse']],
    ['Fuse', ['fuse']],
    ['FUSE-BOX', ['fusebox']],
    ['isolater', ['isolator']],
    ['isol', ['isolator']],
    ['plaec', ['place']],
    ['xyzzy', []],
    ['load', []],
    ['', []],
  ])('to %s', (word, near) => {
    expect(nearWords(word, kinds)).toEqual(near);
  });

  it('come nearest first, and no more than asked for', () => {
    expect(nearWords('fusebx', kinds, 1)).toEqual(['fusebox']);
    expect(nearWords('Q11', ['Q1', 'Q12', 'Q111', 'Z11'], 2)).toHaveLength(2);
  });

  it('count a name that differs by case or hyphen alone as the nearest', () => {
    expect(nearWords('roofbox', ['ROOF-BOX', 'ROOF-BOXES'])[0]).toBe('ROOF-BOX');
  });
});
