/**
 * Currents through ways without resistance: in each cluster of joined nodes they follow from what flows in and out of every
 * node; where the ways form a loop, each is taken to have the same resistance, and that is said.
 */
import type { Link } from './circuit.ts';
import { type Factor, factorise, SymmetricEntries, solveFactored } from './sparse.ts';
import { UnionFind } from './union-find.ts';

/** What the links alone decide, whatever flows. */
interface LinkNetwork {
  /** Nodes of each link, two by two: by them it is known again. */
  readonly ends: Int32Array;
  /** Nodes that links join; and for each end its place among them. */
  readonly nodes: Int32Array;
  readonly rows: Int32Array;
  readonly factor: Factor | undefined;
  /** By link: it is on a loop. */
  readonly assumed: readonly boolean[];
}

export function linkCurrents(
  nodeCount: number,
  links: readonly Link[],
  /** Current that flows into each node from everything that is no link. */
  inflow: Float64Array,
): { amps: Float64Array; assumed: readonly boolean[] } {
  const amps = new Float64Array(links.length);
  if (links.length === 0) return { amps, assumed: [] };
  const { nodes, rows, factor, assumed } = networkOf(nodeCount, links);
  if (factor === undefined) return { amps, assumed };
  const rhs = new Float64Array(nodes.length);
  for (let i = 0; i < nodes.length; i++) rhs[i] = inflow[nodes[i] as number] ?? 0;
  const x = solveFactored(factor, rhs);
  for (let k = 0; k < links.length; k++)
    amps[k] = (x[rows[2 * k] as number] as number) - (x[rows[2 * k + 1] as number] as number);
  return { amps, assumed };
}

/** Link networks of late: the contacts that are closed are mostly the same from case to case and from edit to edit. */
const recent: LinkNetwork[] = [];
const mostRecent = 12;
/** Larger ones are not kept, so that a single huge network does not stay in memory. */
const mostKeptLinks = 20_000;

function networkOf(nodeCount: number, links: readonly Link[]): LinkNetwork {
  const at = recent.findIndex(({ ends }) => isOf(ends, links));
  const found = at < 0 ? undefined : recent.splice(at, 1)[0];
  const network = found ?? linkNetwork(nodeCount, links);
  if (links.length <= mostKeptLinks) {
    recent.unshift(network);
    if (recent.length > mostRecent) recent.pop();
  }
  return network;
}

function isOf(ends: Int32Array, links: readonly Link[]): boolean {
  return ends.length === 2 * links.length && links.every(({ a, b }, k) => ends[2 * k] === a && ends[2 * k + 1] === b);
}

function linkNetwork(nodeCount: number, links: readonly Link[]): LinkNetwork {
  const ends = new Int32Array(2 * links.length);
  links.forEach(({ a, b }, k) => {
    ends[2 * k] = a;
    ends[2 * k + 1] = b;
  });
  const rowOf = new Map<number, number>();
  for (const node of ends) if (!rowOf.has(node)) rowOf.set(node, rowOf.size);
  const rows = ends.map((node) => rowOf.get(node) ?? 0);
  const entries = new SymmetricEntries(rowOf.size, links.length);
  // Each cluster is grounded at one node; its inflows add up to nought, so that carries no current away.
  const clusters = new UnionFind(rowOf.size);
  for (let k = 0; k < rows.length; k += 2) {
    const [i, j] = [rows[k] as number, rows[k + 1] as number];
    if (i === j) continue;
    entries.addDiagonal(i, 1);
    entries.addDiagonal(j, 1);
    entries.addPair(i, j, -1);
    clusters.join(i, j);
  }
  for (let i = 0; i < rowOf.size; i++) if (clusters.find(i) === i) entries.addDiagonal(i, 1);
  return {
    ends,
    nodes: Int32Array.from(rowOf.keys()),
    rows,
    factor: factorise(entries),
    assumed: bridgesOf(nodeCount, links).map((bridge) => !bridge),
  };
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
