/** What the solver stands on: disjoint sets, the sparse factorisation, minimum cuts; each against a plain way. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CutEdge, CutGraph, type CutSource } from '../../server/physics/minimum-cut.ts';
import { factorise, minimumDegreeOrder, SymmetricEntries, solveFactored } from '../../server/physics/sparse.ts';
import { UnionFind } from '../../server/physics/union-find.ts';
import { gauss, labels } from './circuits.ts';

describe('disjoint sets', () => {
  it('are the connected parts, whatever the order of joining, named by their lowest number', () => {
    const pair = fc.tuple(fc.integer({ min: 0, max: 19 }), fc.integer({ min: 0, max: 19 }));
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 25 }), (pairs) => {
        const sets = new UnionFind(20);
        for (const [a, b] of pairs) sets.join(a, b);
        const expected = labels(20, pairs);
        expect(expected.map((_, i) => sets.find(i))).toEqual(expected);
        const reversed = new UnionFind(20);
        for (const [a, b] of [...pairs].reverse()) reversed.join(b, a);
        expect(expected.map((_, i) => reversed.find(i))).toEqual(expected);
      }),
      { numRuns: 400 },
    );
  });

  it('start apart and take a chain of a hundred thousand', () => {
    const sets = new UnionFind(100_000);
    expect(sets.find(99_999)).toBe(99_999);
    for (let i = 99_998; i >= 0; i--) sets.join(i, i + 1);
    expect(sets.find(99_999)).toBe(0);
  });
});

/** Conductances between nodes and to ground: what makes a symmetric, positive definite matrix. */
const siemens = fc.integer({ min: -3, max: 3 }).map((decade) => 10 ** decade);
const matrices = fc.integer({ min: 1, max: 14 }).chain((size) =>
  fc.record({
    size: fc.constant(size),
    pairs: fc.array(
      fc.record({ i: fc.integer({ min: 0, max: size - 1 }), j: fc.integer({ min: 0, max: size - 1 }), value: siemens }),
      { maxLength: 30 },
    ),
    ground: fc.array(siemens, { minLength: size, maxLength: size }),
    rhs: fc.array(fc.integer({ min: -100, max: 100 }), { minLength: size, maxLength: size }),
    order: fc.shuffledSubarray(
      Array.from({ length: size }, (_, i) => i),
      { minLength: size, maxLength: size },
    ),
  }),
);

describe('the sparse LDLᵀ factorisation', () => {
  it('solves as dense elimination does, in its own order and in any other', () => {
    fc.assert(
      fc.property(matrices, ({ size, pairs, ground, rhs, order }) => {
        const entries = new SymmetricEntries(size);
        const dense = Array.from({ length: size }, () => new Array<number>(size).fill(0));
        const add = (i: number, j: number, value: number) => {
          const row = dense[i] ?? [];
          row[j] = (row[j] ?? 0) + value;
        };
        ground.forEach((value, i) => {
          entries.addDiagonal(i, value);
          add(i, i, value);
        });
        for (const { i, j, value } of pairs) {
          if (i === j) continue;
          entries.addDiagonal(i, value);
          entries.addDiagonal(j, value);
          entries.addPair(i, j, -value);
          add(i, i, value);
          add(j, j, value);
          add(i, j, -value);
          add(j, i, -value);
        }
        const expected = gauss(dense, rhs) ?? [];
        const scale = Math.max(1e-12, ...expected.map(Math.abs));
        for (const chosen of [undefined, Int32Array.from(order)]) {
          const factor = factorise(entries, chosen);
          expect(factor).toBeDefined();
          if (factor === undefined) return;
          const right = Float64Array.from(rhs);
          solveFactored(factor, right).forEach((x, i) => {
            expect(Math.abs(x - (expected[i] ?? 0))).toBeLessThan(1e-7 * scale);
          });
          // The right-hand side stays as it was, and pivots are positive.
          expect([...right]).toEqual(rhs);
          expect(Math.min(...factor.pivots)).toBeGreaterThan(0);
        }
        expect([...minimumDegreeOrder(entries)].sort((a, b) => a - b)).toEqual(rhs.map((_, i) => i));
      }),
      { numRuns: 500 },
    );
  });

  it('adds up what is given twice', () => {
    const entries = new SymmetricEntries(2);
    entries.addDiagonal(0, 1);
    entries.addDiagonal(0, 1);
    entries.addDiagonal(1, 3);
    entries.addPair(0, 1, -0.5);
    entries.addPair(1, 0, -0.5);
    // [[2, −1], [−1, 3]] x = [1, 2] → x = [1, 1].
    const factor = factorise(entries);
    expect(factor).toBeDefined();
    if (factor !== undefined)
      for (const x of solveFactored(factor, Float64Array.of(1, 2))) expect(x).toBeCloseTo(1, 14);
  });

  it('refuses a mesh that floats, whatever rounding leaves of its last pivot', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1, max: 10, noNaN: true }), { minLength: 3, maxLength: 8 }), (siemens) => {
        // A ring, and so no pivot is nought by itself.
        const size = siemens.length;
        const entries = new SymmetricEntries(size);
        siemens.forEach((value, i) => {
          const next = (i + 1) % size;
          entries.addDiagonal(i, value);
          entries.addDiagonal(next, value);
          entries.addPair(i, next, -value);
        });
        expect(factorise(entries)).toBeUndefined();
      }),
      { numRuns: 300 },
    );
  });

  it('refuses what nothing ties to ground, what is negative, and what is not a number', () => {
    const floating = new SymmetricEntries(2);
    floating.addDiagonal(0, 0.1 + 0.2);
    floating.addDiagonal(1, 0.1 + 0.2);
    floating.addPair(0, 1, -(0.1 + 0.2));
    expect(factorise(floating)).toBeUndefined();
    for (const value of [0, -1, Number.NaN]) {
      const entries = new SymmetricEntries(1);
      entries.addDiagonal(0, value);
      expect(factorise(entries)).toBeUndefined();
    }
  });

  it('fills in nothing on a tree: as many entries as it has branches', () => {
    const size = 400;
    const entries = new SymmetricEntries(size);
    for (let i = 0; i < size; i++) entries.addDiagonal(i, 10);
    // A hub with long arms, numbered so that the natural order would fill in.
    for (let i = 1; i < size; i++) entries.addPair(i, i % 7 === 0 ? 0 : i - 1, -1);
    expect(factorise(entries)?.structure.rows.length).toBe(size - 1);
    const natural = factorise(
      entries,
      Int32Array.from({ length: size }, (_, i) => i),
    );
    expect(natural?.structure.rows.length).toBeGreaterThan(size);
  });

  it('of nothing solves nothing', () => {
    const factor = factorise(new SymmetricEntries(0));
    expect(factor).toBeDefined();
    if (factor !== undefined) expect(solveFactored(factor, new Float64Array(0)).length).toBe(0);
  });
});

const nodes = 6;
const place = fc.integer({ min: 0, max: nodes - 1 });
const rating = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 0, max: 60 }) },
  fc.constant(Number.POSITIVE_INFINITY),
);
const graphs = fc.record({
  edges: fc.array(fc.record({ a: place, b: place, amps: rating, oneWay: fc.boolean() }), { maxLength: 9 }),
  sources: fc.array(fc.record({ node: place, amps: rating }), { minLength: 1, maxLength: 3 }),
  targets: fc.uniqueArray(place, { minLength: 1, maxLength: 2 }),
});

/** Smallest sum over every way of putting nodes on the sources' side: 2^nodes of them. */
function bruteForce(edges: readonly CutEdge[], sources: readonly CutSource[], targets: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let side = 0; side < 2 ** nodes; side++) {
    const fed = (node: number) => (side & (1 << node)) !== 0;
    if (targets.some(fed)) continue;
    let sum = 0;
    for (const { a, b, amps, oneWay } of edges) if ((fed(a) && !fed(b)) || (!oneWay && fed(b) && !fed(a))) sum += amps;
    for (const { node, amps } of sources) if (!fed(node)) sum += amps;
    least = Math.min(least, sum);
  }
  return least;
}

describe('the minimum cut', () => {
  it('is the smallest of all cuts, and its members add up to it and part the two', () => {
    fc.assert(
      fc.property(graphs, ({ edges, sources, targets }) => {
        const expected = bruteForce(edges, sources, targets);
        const cut = new CutGraph(nodes, edges, sources).cut(targets);
        expect(cut.amps).toBe(expected);
        if (expected === Number.POSITIVE_INFINITY) {
          expect([...cut.edges, ...cut.sources]).toEqual([]);
          return;
        }
        const sum =
          cut.edges.reduce((total, i) => total + (edges[i]?.amps ?? 0), 0) +
          cut.sources.reduce((total, i) => total + (sources[i]?.amps ?? 0), 0);
        expect(sum).toBe(expected);
        const without = bruteForce(
          edges.map((one, i) => (cut.edges.includes(i) ? { ...one, amps: 0 } : one)),
          sources.map((one, i) => (cut.sources.includes(i) ? { ...one, amps: 0 } : one)),
          targets,
        );
        expect(without).toBe(0);
      }),
      { numRuns: 1000 },
    );
  });

  it('asked again, of some sources and other targets, answers as a graph made so', () => {
    fc.assert(
      fc.property(graphs, fc.nat(nodes - 1), ({ edges, sources, targets }, other) => {
        const graph = new CutGraph(nodes, edges, sources);
        const whole = graph.cut(targets);
        expect(graph.cut(targets, (i) => i === 0).amps).toBe(bruteForce(edges, sources.slice(0, 1), targets));
        expect(graph.cut([other]).amps).toBe(bruteForce(edges, sources, [other]));
        expect(graph.cut(targets)).toEqual(whole);
      }),
      { numRuns: 500 },
    );
  });

  it('of fuses in series is the smallest, in parallel their sum', () => {
    const battery = [{ node: 0, amps: Number.POSITIVE_INFINITY }];
    const series = new CutGraph(
      3,
      [
        { a: 0, b: 1, amps: 30 },
        { a: 1, b: 2, amps: 10 },
      ],
      battery,
    ).cut([2]);
    expect(series).toEqual({ amps: 10, edges: [1], sources: [] });
    const parallel = new CutGraph(
      2,
      [
        { a: 0, b: 1, amps: 30 },
        { a: 1, b: 0, amps: 10 },
      ],
      battery,
    ).cut([1]);
    expect(parallel).toEqual({ amps: 40, edges: [0, 1], sources: [] });
    expect(new CutGraph(2, [], [{ node: 0, amps: 30 }]).cut([1])).toEqual({ amps: 0, edges: [], sources: [] });
  });
});
