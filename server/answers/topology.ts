/**
 * The conductor graph with every contact closed: connected parts (without crossing loads and sources), and for every edge
 * whether it is a bridge and what lies on its two sides. One depth-first search answers all of that in constant time an edge.
 */
import type { Model, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';

export interface Topology {
  readonly index: ReadonlyMap<string, number>;
  readonly terminals: readonly Terminal[];
  /** Connected part of every terminal. */
  readonly part: Int32Array;
  /** Terminals of each connected part in preorder. */
  readonly preorder: Int32Array;
  readonly order: Int32Array;
  /** By edge index: undefined on a loop; else the terminals beyond it are those with preorder in [from, to). */
  readonly beyond: readonly ({ readonly from: number; readonly to: number; readonly child: number } | undefined)[];
  of(terminal: Terminal): number;
}

export function topologyOf(model: Model, network: Network): Topology {
  const terminals = [...model.terminals.values()];
  const index = new Map(terminals.map(({ id }, i) => [id, i]));
  const n = terminals.length;
  const of = (terminal: Terminal) => index.get(terminal.id) ?? 0;
  const at: { to: number; edge: Edge }[][] = Array.from({ length: n }, () => []);
  for (const edge of network.edges) {
    const [a, b] = [of(edge.from), of(edge.to)];
    at[a]?.push({ to: b, edge });
    at[b]?.push({ to: a, edge });
  }
  const part = new Int32Array(n).fill(-1);
  const preorder = new Int32Array(n).fill(-1);
  const order = new Int32Array(n);
  const low = new Int32Array(n);
  const beyond: ({ from: number; to: number; child: number } | undefined)[] = network.edges.map(() => undefined);
  let time = 0;
  let parts = 0;
  for (let start = 0; start < n; start++) {
    if (part[start] !== -1) continue;
    const enter = (node: number) => {
      part[node] = parts;
      preorder[node] = low[node] = time;
      order[time++] = node;
    };
    enter(start);
    const stack = [{ node: start, via: -1, next: 0 }];
    while (stack.length > 0) {
      const frame = stack[stack.length - 1] as { node: number; via: number; next: number };
      const step = at[frame.node]?.[frame.next++];
      if (step === undefined) {
        stack.pop();
        const parent = stack[stack.length - 1];
        if (parent !== undefined) {
          low[parent.node] = Math.min(low[parent.node] ?? 0, low[frame.node] ?? 0);
          if ((low[frame.node] ?? 0) > (preorder[parent.node] ?? 0)) beyond[frame.via] = { from: preorder[frame.node] ?? 0, to: time, child: frame.node };
        }
      } else if (step.edge.index !== frame.via) {
        if (preorder[step.to] === -1) {
          enter(step.to);
          stack.push({ node: step.to, via: step.edge.index, next: 0 });
        } else low[frame.node] = Math.min(low[frame.node] ?? 0, preorder[step.to] ?? 0);
      }
    }
    parts += 1;
  }
  return { index, terminals, part, preorder, order, beyond, of };
}

/** Whether a terminal lies beyond a bridge; undefined when the edge is on a loop or in another connected part. */
export function liesBeyond(topology: Topology, edge: Edge, terminal: Terminal): boolean | undefined {
  const span = topology.beyond[edge.index];
  const node = topology.of(terminal);
  if (span === undefined || topology.part[node] !== topology.part[span.child]) return undefined;
  const at = topology.preorder[node] ?? -1;
  return at >= span.from && at < span.to;
}
