/** Maps of sections read as one: joined for who goes through all, and not for who asks for a thing or two. */
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { hover } from '../../server/editor/hover.ts';
import { JoinedMap } from '../../server/sections/joined-map.ts';
import { sourceOf, vansOf, vanUri } from '../bench/vans.ts';

/** Hundreds of numbers in two pieces, the later ones first, and how often they were joined. */
function joined() {
  const pieces = [new Map([['c', 3]]), new Map(Array.from({ length: 500 }, (_, n) => [`n${n}`, n] as const))];
  const counts = { joins: 0 };
  const map = new JoinedMap<string, number>(pieces, () => {
    counts.joins += 1;
    return new Map(pieces.toReversed().flatMap((piece) => [...piece]));
  });
  return { map, counts };
}

describe('a joined map', () => {
  it('answers a few questions without being joined', () => {
    const { map, counts } = joined();
    expect([map.get('c'), map.get('n0'), map.get('n499'), map.get('x')]).toEqual([3, 0, 499, undefined]);
    expect([map.has('n7'), map.has('y')]).toEqual([true, false]);
    expect(counts.joins).toBe(0);
  });

  it('is joined once for many questions, and answers as before', () => {
    const { map, counts } = joined();
    for (let n = 0; n < 500; n += 1) expect(map.get(`n${n}`)).toBe(n);
    expect([map.get('c'), map.get('x')]).toEqual([3, undefined]);
    expect(counts.joins).toBe(1);
  });

  it('is gone through in the order in which it is joined', () => {
    const { map, counts } = joined();
    expect([...map].at(-1)).toEqual(['c', 3]);
    expect([...map.keys()].at(0)).toBe('n0');
    expect([...map.values()].at(-1)).toBe(3);
    expect([...map.entries()]).toHaveLength(map.size);
    const seen: unknown[] = [];
    map.forEach((value, key, whole) => {
      seen.push([key, value, whole === map]);
    });
    expect(seen.at(-1)).toEqual(['c', 3, true]);
    expect(counts.joins).toBe(1);
  });
});

describe('hovers on a spec in sections', () => {
  it('tell the same as on the whole', () => {
    const text = vansOf(900);
    const parted = analyse(vanUri, sourceOf(text), new AnalysisCache({ least: 0, small: 0, most: 1 }));
    const whole = analyse(
      vanUri,
      sourceOf(text),
      new AnalysisCache({ least: Number.POSITIVE_INFINITY, small: 0, most: 0 }),
    );
    const places = [...text.matchAll(/^\w+ (?=[A-Z])/gm)].map(({ index, 0: { length } }) => index + length);
    expect(places.length).toBeGreaterThan(200);
    for (const at of places)
      expect(hover(parted, at, { markdown: true })).toEqual(hover(whole, at, { markdown: true }));
  });
});
