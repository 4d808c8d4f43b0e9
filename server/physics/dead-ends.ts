/**
 * Dead ends of a circuit: conductors and links behind which nothing feeds or draws. They carry nothing and lie at the voltage of
 * what they hang on, whatever their resistance, so that a cable to what is switched off has no part in an answer.
 */
import type { Topology } from './topology.ts';
import { UnionFind } from './union-find.ts';

export interface DeadEnds {
  /** By element: it leads nowhere. */
  readonly elements: Uint8Array;
  /** Nodes at the far ends, and beside each the node that it hangs on; one that others hang on comes first. */
  readonly nodes: Int32Array;
  readonly hangOn: Int32Array;
}

export function deadEndsOf({ nodeCount, elements, ends, references, counts, first }: Topology): DeadEnds {
  const isDraw = (k: number) => k >= first.currents && k < first.diodes;
  const joined = new UnionFind(nodeCount);
  for (let k = 0; k < elements; k++) if (!isDraw(k)) joined.join(ends[2 * k] as number, ends[2 * k + 1] as number);
  // How many elements meet at each node, and the sum of their numbers without carry: of the last one left, its number.
  const degree = new Int32Array(nodeCount);
  const numbers = new Int32Array(nodeCount);
  const meets = (node: number, k: number) => {
    degree[node] = (degree[node] as number) + 1;
    numbers[node] = (numbers[node] as number) ^ k;
  };
  for (let k = 0; k < elements; k++) {
    const a = ends[2 * k] as number;
    const b = ends[2 * k + 1] as number;
    // Nothing flows in a draw between what nothing joins.
    if (isDraw(k) && joined.find(a) !== joined.find(b)) continue;
    meets(a, k);
    meets(b, k);
  }
  // What is 0 V stays, whatever is taken off it.
  for (const node of references) degree[node] = (degree[node] as number) + 2;
  // Where nothing is said to be 0 V, the node that is taken for it may be any.
  const isReferred = new Uint8Array(nodeCount);
  for (const node of references) isReferred[joined.find(node)] = 1;
  const leadNowhere = new Uint8Array(elements);
  const nodes: number[] = [];
  const hangOn: number[] = [];
  const leaves: number[] = [];
  for (let node = 0; node < nodeCount; node++) if (degree[node] === 1) leaves.push(node);
  for (let node = leaves.pop(); node !== undefined; node = leaves.pop()) {
    const k = numbers[node] as number;
    // Resistors come first, then links; two leaves may be the ends of one.
    if (degree[node] !== 1 || k >= first.links + counts.links || isReferred[joined.find(node)] === 0) continue;
    const other = (ends[2 * k] as number) ^ (ends[2 * k + 1] as number) ^ node;
    leadNowhere[k] = 1;
    nodes.push(node);
    hangOn.push(other);
    degree[node] = 0;
    degree[other] = (degree[other] as number) - 1;
    numbers[other] = (numbers[other] as number) ^ k;
    if (degree[other] === 1) leaves.push(other);
  }
  return { elements: leadNowhere, nodes: Int32Array.from(nodes.reverse()), hangOn: Int32Array.from(hangOn.reverse()) };
}
