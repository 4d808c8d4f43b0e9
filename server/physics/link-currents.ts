/**
 * Currents through ways without resistance: in each cluster of joined nodes they follow from what flows in and out of every
 * node; where the ways form a loop, each is taken to have the same resistance, and that is said.
 */
import { type Factor, factorise, SymmetricEntries, solveInOrder } from './sparse.ts';
import { UnionFind } from './union-find.ts';

/** Ways without resistance, of which each has two nodes, one after the other. What they alone decide is worked out once. */
export class LinkNetwork {
  /** By link: it is on a loop. */
  readonly assumed: readonly boolean[];
  /** Nodes that links join; and for each end its place among them, in the order of elimination. */
  private readonly nodes: Int32Array;
  private readonly rows: Int32Array;
  private readonly factor: Factor | undefined;
  private readonly volts: Float64Array;

  constructor(nodeCount: number, ends: Int32Array) {
    const rowOf = new Map<number, number>();
    for (const node of ends) if (!rowOf.has(node)) rowOf.set(node, rowOf.size);
    const rows = ends.map((node) => rowOf.get(node) ?? 0);
    const entries = new SymmetricEntries(rowOf.size, ends.length / 2);
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
    this.factor = factorise(entries);
    const nodes = Int32Array.from(rowOf.keys());
    const { order, place } = this.factor?.structure ?? { order: nodes.map((_, i) => i), place: nodes.map((_, i) => i) };
    this.nodes = nodes.map((_, i) => nodes[order[i] as number] as number);
    this.rows = rows.map((row) => place[row] as number);
    this.volts = new Float64Array(nodes.length);
    this.assumed = bridgesOf(nodeCount, ends).map((bridge) => !bridge);
  }

  /** From what flows into each node from everything that is no link; one after the other from a place of `amps` on. */
  currents(inflow: Float64Array, amps: Float64Array, from = 0): void {
    const { nodes, rows, factor, volts, assumed } = this;
    if (factor === undefined) return;
    for (let i = 0; i < nodes.length; i++) volts[i] = inflow[nodes[i] as number] ?? 0;
    solveInOrder(factor, volts);
    for (let k = 0; k < assumed.length; k++)
      amps[from + k] = (volts[rows[2 * k] as number] as number) - (volts[rows[2 * k + 1] as number] as number);
  }
}

/** Which links are bridges: without them their cluster falls apart (Tarjan, iterative). */
function bridgesOf(nodeCount: number, ends: Int32Array): boolean[] {
  const at: { to: number; link: number }[][] = [];
  const edgesAt = (node: number) => {
    at[node] ??= [];
    return at[node];
  };
  const bridge: boolean[] = [];
  for (let link = 0; 2 * link < ends.length; link++) {
    const [a, b] = [ends[2 * link] as number, ends[2 * link + 1] as number];
    edgesAt(a).push({ to: b, link });
    edgesAt(b).push({ to: a, link });
    bridge.push(false);
  }
  const found = new Int32Array(nodeCount).fill(-1);
  const low = new Int32Array(nodeCount);
  let time = 0;
  for (const start of ends) {
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
