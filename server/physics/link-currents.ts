/**
 * Currents through ways without resistance: in each cluster of joined nodes they follow from what flows in and out of every
 * node; where the ways form a loop, each is taken to have the same resistance, and that is said.
 */
import type { Link } from './circuit.ts';
import { factorise, SymmetricEntries, solveFactored } from './sparse.ts';
import { UnionFind } from './union-find.ts';

export function linkCurrents(
  nodeCount: number,
  links: readonly Link[],
  /** Current that flows into each node from everything that is no link. */
  inflow: Float64Array,
): { amps: Float64Array; assumed: boolean[] } {
  const amps = new Float64Array(links.length);
  const assumed = bridgesOf(nodeCount, links).map((bridge) => !bridge);
  if (links.length === 0) return { amps, assumed };
  const index = new Map<number, number>();
  for (const { a, b } of links) for (const node of [a, b]) if (!index.has(node)) index.set(node, index.size);
  const entries = new SymmetricEntries(index.size);
  const rhs = new Float64Array(index.size);
  for (const { a, b } of links) {
    if (a === b) continue;
    const [i, j] = [index.get(a) ?? 0, index.get(b) ?? 0];
    entries.addDiagonal(i, 1);
    entries.addDiagonal(j, 1);
    entries.addPair(i, j, -1);
  }
  for (const [node, i] of index) rhs[i] = inflow[node] ?? 0;
  // Each cluster is grounded at one node; its inflows add up to nought, so that carries no current away.
  const clusters = new UnionFind(index.size);
  for (const { a, b } of links) clusters.join(index.get(a) ?? 0, index.get(b) ?? 0);
  for (let i = 0; i < index.size; i++) if (clusters.find(i) === i) entries.addDiagonal(i, 1);
  const factor = factorise(entries);
  if (factor === undefined) return { amps, assumed };
  const x = solveFactored(factor, rhs);
  links.forEach(({ a, b }, k) => {
    if (a !== b) amps[k] = (x[index.get(a) ?? 0] ?? 0) - (x[index.get(b) ?? 0] ?? 0);
  });
  return { amps, assumed };
}

/** Which links are bridges: without them their cluster falls apart (Tarjan, iterative). */
function bridgesOf(nodeCount: number, links: readonly Link[]): boolean[] {
  const at: { to: number; link: number }[][] = [];
  const edgesAt = (node: number) => {
    at[node] ??= [];
    return at[node];
  };
  links.forEach(({ a, b }, link) => {
    edgesAt(a).push({ to: b, link });
    edgesAt(b).push({ to: a, link });
  });
  const bridge = links.map(() => false);
  const found = new Int32Array(nodeCount).fill(-1);
  const low = new Int32Array(nodeCount);
  let time = 0;
  for (const { a: start } of links) {
    if (found[start] !== -1) continue;
    const stack = [{ node: start, via: -1, next: 0 }];
    found[start] = low[start] = time++;
    while (stack.length > 0) {
      const frame = stack[stack.length - 1] as { node: number; via: number; next: number };
      const edge = edgesAt(frame.node)[frame.next++];
      if (edge === undefined) {
        stack.pop();
        const parent = stack[stack.length - 1];
        if (parent !== undefined) {
          low[parent.node] = Math.min(low[parent.node] ?? 0, low[frame.node] ?? 0);
          if ((low[frame.node] ?? 0) > (found[parent.node] ?? 0)) bridge[frame.via] = true;
        }
      } else if (edge.link !== frame.via) {
        if (found[edge.to] === -1) {
          found[edge.to] = low[edge.to] = time++;
          stack.push({ node: edge.to, via: edge.link, next: 0 });
        } else low[frame.node] = Math.min(low[frame.node] ?? 0, found[edge.to] ?? 0);
      }
    }
  }
  return bridge;
}
