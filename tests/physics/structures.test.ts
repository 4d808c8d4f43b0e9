/** What the pattern of a matrix decides is worked out once: kept for another matrix of the same pattern, and for no other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveCircuit } from '../../server/physics/solve.ts';
import {
  factorise,
  inOrder,
  refactor,
  SymmetricEntries,
  solveFactored,
  structureOf,
  upperValues,
} from '../../server/physics/sparse.ts';
import { network } from '../bench/networks.ts';

type Pair = readonly [i: number, j: number, value: number];

function entriesOf(size: number, pairs: readonly Pair[]): SymmetricEntries {
  const entries = new SymmetricEntries(size);
  for (let i = 0; i < size; i++) entries.addDiagonal(i, 1);
  for (const [i, j, value] of pairs) {
    entries.addDiagonal(i, value);
    entries.addDiagonal(j, value);
    entries.addPair(i, j, -value);
  }
  return entries;
}

const ring: readonly Pair[] = [
  [0, 1, 1],
  [1, 2, 2],
  [2, 3, 3],
  [3, 4, 4],
  [4, 0, 5],
];

describe('a structure', () => {
  it('is the same for other values of one pattern', () => {
    const first = structureOf(entriesOf(5, ring));
    expect(structureOf(entriesOf(5, ring))).toBe(first);
    expect(
      structureOf(
        entriesOf(
          5,
          ring.map(([i, j, value]) => [i, j, 10 * value]),
        ),
      ),
    ).toBe(first);
  });

  it.each<[string, number, readonly Pair[]]>([
    ['one pair elsewhere', 5, [...ring.slice(0, 4), [4, 1, 5]]],
    ['one pair more', 5, [...ring, [1, 3, 1]]],
    ['one pair less', 5, ring.slice(0, 4)],
    ['one node more', 6, ring],
    ['its pairs in another order, whose values go to other places', 5, [...ring].reverse()],
  ])('is another with %s, and solves', (_, size, pairs) => {
    const first = structureOf(entriesOf(5, ring));
    const entries = entriesOf(size, pairs);
    expect(structureOf(entries)).not.toBe(first);
    // Of [1, 1, …] the solution, since every row adds up to the 1 on its diagonal.
    const factor = factorise(entries);
    if (factor === undefined) throw new Error('not factorised');
    for (const x of solveFactored(factor, new Float64Array(size).fill(1))) expect(x).toBeCloseTo(1, 13);
  });

  it('that was used before gives the factor that a fresh one gives, to the last bit, also written over another', () => {
    const value = fc.integer({ min: 1, max: 1000 });
    const pair = fc.tuple(fc.nat(9), fc.nat(9), value).filter(([i, j]) => i !== j);
    fc.assert(
      fc.property(
        fc.array(pair, { minLength: 1, maxLength: 25 }),
        fc.array(value, { minLength: 25 }),
        (pairs, more) => {
          const other = pairs.map(([i, j], k) => [i, j, more[k % more.length] ?? 1] as const);
          const entries = entriesOf(10, pairs);
          const structure = structureOf(entries);
          const before = factorise(entries, structure);
          const next = entriesOf(10, other);
          const over = refactor(structure, inOrder(structure, next.diagonal), upperValues(structure, next), before);
          const fresh = factorise(entriesOf(10, other), structure.order);
          expect(over).toBe(before);
          expect([...(over?.values ?? [])]).toEqual([...(fresh?.values ?? [])]);
          expect([...(over?.pivots ?? [])]).toEqual([...(fresh?.pivots ?? [])]);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('is let go when there are many others since, or much larger ones', () => {
    const own = structureOf(entriesOf(5, ring));
    for (let size = 6; size < 1100; size++) structureOf(entriesOf(size, ring));
    const again = structureOf(entriesOf(5, ring));
    expect(again).not.toBe(own);
    expect([...again.order]).toEqual([...own.order]);
    // A huge network is not kept at all, and what is kept stays.
    solveCircuit(network('ladder', 260_000));
    expect(structureOf(entriesOf(5, ring))).toBe(again);
  });
});

describe('the order of elimination', () => {
  it('fills nothing in on a tree, and on a mesh a small part of what there could be', () => {
    for (const [shape, most] of [
      ['tree', 1],
      ['ladder', 1],
      // A mesh of n nodes has about 2 n pairs; nested dissection fills some 31/4 n log₂ n (A. George, 1973).
      ['mesh', 20],
    ] as const) {
      const circuit = network(shape, 10_000);
      const entries = entriesOf(
        circuit.nodeCount - 1,
        circuit.resistors.map(({ a, b }) => [a - 1, b - 1, 1] as const),
      );
      expect(structureOf(entries).rows.length, shape).toBeLessThan(most * entries.size);
    }
  });
});
