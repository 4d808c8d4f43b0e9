/** The graph work beneath protection, against plain ways of reckoning the same on random graphs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type GraphLink, separate } from '../../server/answers/separation.ts';
import { ZoneFlows } from '../../server/answers/zone-flows.ts';
import { CutGraph } from '../../server/physics/minimum-cut.ts';
import { answersOf } from './spec.ts';

const nodes = 8;
const node = fc.integer({ min: 0, max: nodes - 1 });
const graph = fc.array(fc.record({ a: node, b: node }), { maxLength: 12 });

/** Connected part of every node without some of the links. */
function partsWithout(links: readonly GraphLink[], left: (index: number) => boolean): number[] {
  const part = Array.from({ length: nodes }, (_, i) => i);
  for (let round = 0; round < nodes; round++)
    links.forEach(({ a, b }, i) => {
      if (left(i)) return;
      const least = Math.min(part[a] ?? 0, part[b] ?? 0);
      part[a] = least;
      part[b] = least;
    });
  return part;
}

describe('separation', () => {
  it('finds connected parts, and what each link parts with those alongside it', () => {
    fc.assert(
      fc.property(graph, (links) => {
        const { part, partCount, preorder, far } = separate(nodes, links);
        const parts = partsWithout(links, () => false);
        for (let i = 0; i < nodes; i++)
          for (let j = 0; j < nodes; j++) expect(part[i] === part[j]).toBe(parts[i] === parts[j]);
        expect(partCount).toBe(new Set(parts).size);
        links.forEach(({ a, b }, link) => {
          const alongside = (i: number) => {
            const other = links[i];
            return (
              other !== undefined &&
              Math.min(other.a, other.b) === Math.min(a, b) &&
              Math.max(other.a, other.b) === Math.max(a, b)
            );
          };
          const cut = partsWithout(links, alongside);
          const span = far[link];
          if (a === b || cut[a] === cut[b]) {
            expect(span).toBeUndefined();
            return;
          }
          const isFar = (i: number) =>
            span !== undefined && (preorder[i] ?? 0) >= span.from && (preorder[i] ?? 0) < span.to;
          // One of its ends is far, and with it all that stays joined to that end.
          const end = isFar(a) ? a : b;
          for (let i = 0; i < nodes; i++) expect(isFar(i)).toBe(cut[i] === cut[end]);
        });
      }),
      { numRuns: 400 },
    );
  });

  it('tells loops that share one node apart', () => {
    // Two triangles, 0-1-2 and 2-3-4, and a link to 5.
    const links = [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
      [3, 4],
      [4, 2],
      [4, 5],
    ].map(([a = 0, b = 0]) => ({ a, b }));
    const { loop, far } = separate(6, links);
    expect(new Set([...loop].slice(0, 3)).size).toBe(1);
    expect(new Set([...loop].slice(3, 6)).size).toBe(1);
    expect(loop[0]).not.toBe(loop[3]);
    expect([loop[6], far[6] !== undefined]).toEqual([-1, true]);
  });

  it('takes links between the same two nodes for a loop when asked to', () => {
    const twice = [
      { a: 0, b: 1 },
      { a: 1, b: 0 },
    ];
    expect(separate(2, twice).far.every((span) => span !== undefined)).toBe(true);
    expect(separate(2, twice, { bundled: false }).far).toEqual([undefined, undefined]);
  });
});

/** Close, or both without end. */
function expectSame(actual: number, expected: number): void {
  if (actual !== expected) expect(actual).toBeCloseTo(expected, 9);
}

const amps = fc.oneof(fc.integer({ min: 0, max: 50 }), fc.constant(Number.POSITIVE_INFINITY));
const edge = fc.record({ a: node, b: node, amps, oneWay: fc.boolean() });
const source = fc.record({ zone: node, amps });

describe('flows between zones', () => {
  it('are the minimum cuts, edge by edge, on any graph', () => {
    fc.assert(
      fc.property(fc.array(edge, { maxLength: 11 }), fc.array(source, { maxLength: 4 }), (edges, sources) => {
        const flows = new ZoneFlows(nodes, edges, sources);
        edges.forEach(({ a, b, amps: most, oneWay }, index) => {
          if (flows.isOnLoop(index)) return;
          const rest = new CutGraph(
            nodes,
            edges.map((one, i) => (i === index ? { ...one, amps: 0 } : one)),
            sources.map(({ zone, amps: own }) => ({ node: zone, amps: own })),
          );
          expectSame(flows.into(index, b), Math.min(most, rest.cut([a]).amps));
          expectSame(flows.into(index, a), oneWay ? 0 : Math.min(most, rest.cut([b]).amps));
        });
      }),
      { numRuns: 600 },
    );
  });

  it('from some zones to others are the minimum cut, on a graph without loops', () => {
    const tree = fc.tuple(
      ...Array.from({ length: nodes - 1 }, (_, i) =>
        fc.record({ to: fc.integer({ min: 0, max: i }), amps, oneWay: fc.boolean(), turned: fc.boolean() }),
      ),
    );
    fc.assert(
      fc.property(
        tree,
        fc.array(source, { maxLength: 3 }),
        fc.uniqueArray(node, { maxLength: 4 }),
        (branches, supplies, demands) => {
          const edges = branches.map(({ to, turned, ...rest }, i) =>
            turned ? { a: i + 1, b: to, ...rest } : { a: to, b: i + 1, ...rest },
          );
          const flows = new ZoneFlows(nodes, edges, []);
          const cut = new CutGraph(
            nodes,
            edges,
            supplies.map(({ zone, amps: own }) => ({ node: zone, amps: own })),
          ).cut(demands);
          const matched = flows.matched(
            supplies,
            demands.map((zone) => ({ zone, amps: Number.POSITIVE_INFINITY })),
          );
          expectSame(matched, cut.amps);
        },
      ),
      { numRuns: 600 },
    );
  });
});

describe('protection', () => {
  const bars = 6;
  const bar = fc.integer({ min: 0, max: bars - 1 });
  const rating = fc.constantFrom(5, 10, 15, 20, 30, 40, 60);
  const link = fc.record({ a: bar, b: bar, fuse: fc.option(rating, { nil: undefined }) });

  it('of every core is the greater of the minimum cuts of its two ends without it, on any wiring', () => {
    fc.assert(
      fc.property(
        fc.array(link, { minLength: 3, maxLength: 9 }),
        fc.array(fc.record({ at: bar, amps: rating, battery: fc.boolean() }), { minLength: 1, maxLength: 3 }),
        (links, sources) => {
          const wires = links.filter(({ a, b }) => a !== b);
          // Nodes: the bars, then for every fused link the two nodes of its fuse; every source limits itself or has a fuse.
          const edges: { a: number; b: number; amps: number }[] = [];
          const cores: { run: string; edge: number }[] = [];
          const lines = Array.from({ length: bars }, (_, i) => `busbar P${i} 100 A`);
          let [count, run] = [bars, 0];
          const core = (a: number, b: number, from: string, to: string) => {
            lines.push(`run W${run} 10 mm² red, 1 m, ${from} to ${to}`);
            cores.push({ run: `W${run++}`, edge: edges.push({ a, b, amps: Number.POSITIVE_INFINITY }) - 1 });
          };
          wires.forEach(({ a, b, fuse }, i) => {
            if (fuse === undefined) {
              core(a, b, `P${a}`, `P${b}`);
              return;
            }
            lines.push(`fuse F${i} ${fuse} A`);
            core(a, count, `P${a}`, `F${i}:in`);
            edges.push({ a: count, b: count + 1, amps: fuse });
            core(count + 1, b, `F${i}:out`, `P${b}`);
            count += 2;
          });
          lines.push('busbar NEG 100 A');
          sources.forEach(({ at, amps: most, battery }, i) => {
            if (battery) {
              lines.push(
                `battery B${i} lead-acid, 12 V, 80 Ah`,
                `fuse FB${i} ${most} A`,
                `run WB${i} 10 mm² red, 1 m, B${i}:+ to FB${i}:in`,
              );
              lines.push(
                `run WC${i} 10 mm² red, 1 m, FB${i}:out to P${at}`,
                `run WD${i} 10 mm² black, 1 m, B${i}:- to NEG`,
              );
            } else {
              lines.push(
                `charger U${i} 12 V, ${most} A, from mains`,
                `run WB${i} 10 mm² red, 1 m, U${i}:out+ to P${at}`,
              );
              lines.push(`run WD${i} 10 mm² black, 1 m, U${i}:out- to NEG`);
            }
          });
          const made = answersOf(`${lines.join('\n')}\n`);
          const feeds = sources.map(({ at, amps: most }) => ({ node: at, amps: most }));
          for (const { run: name, edge: own } of cores) {
            const { a, b } = edges[own] as { a: number; b: number };
            // Cores between the same two nodes are cut together.
            const alongside = (one: { a: number; b: number; amps: number }) =>
              one.amps === Number.POSITIVE_INFINITY && ((one.a === a && one.b === b) || (one.a === b && one.b === a));
            const others = edges.filter((one) => !alongside(one));
            const rest = new CutGraph(count, others, feeds);
            const onLoop = staysJoined(others, a, b);
            const expected = Math.max(rest.cut([a]).amps, rest.cut([b]).amps);
            const { protection } = made.core(name);
            // On a loop without a device either end sees all of it; never less than either.
            if (onLoop) expect(protection.amps).toBeGreaterThanOrEqual(expected - 1e-9);
            else expect(protection.amps).toBeCloseTo(expected, 9);
            const sum =
              protection.devices.reduce((total, device) => total + device.amps, 0) +
              protection.limitedSources.reduce((total, one) => total + one.amps, 0);
            expect(sum).toBeCloseTo(protection.amps, 9);
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  /** Whether two nodes are joined by conductors alone. */
  function staysJoined(edges: readonly { a: number; b: number; amps: number }[], a: number, b: number): boolean {
    const reached = new Set([a]);
    for (const at of reached)
      for (const one of edges) {
        if (Number.isFinite(one.amps)) continue;
        if (one.a === at) reached.add(one.b);
        if (one.b === at) reached.add(one.a);
      }
    return reached.has(b);
  }
});
