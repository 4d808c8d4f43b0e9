/** Shortest ways from a terminal over the network, by whatever a step costs (Dijkstra with a binary heap). */
import type { Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import type { Wiring } from './wiring.ts';

export interface Paths {
  /** Cost of the cheapest way to a terminal; undefined when there is none. */
  cost(terminal: Terminal): number | undefined;
  /** Edges of that way, from the start on; ways inside parts are left out. */
  edges(terminal: Terminal): readonly Edge[];
  /** The same step by step, ways inside parts included. */
  steps(terminal: Terminal): readonly PathStep[];
  /** Every terminal that was reached. */
  readonly reached: readonly Terminal[];
}

export interface PathStep {
  readonly from: Terminal;
  readonly to: Terminal;
  /** Undefined for a way inside a part. */
  readonly edge: Edge | undefined;
}

/** To go over conductors and contacts alone. */
export const noInner: Wiring['innerAt'] = () => [];

/**
 * `costOf` gives undefined for an edge that may not be passed from that end. Of equal costs the way with fewer steps counts.
 * Where `until` tells a terminal that is all that is asked for, nothing beyond it is looked at.
 */
export function pathsFrom(
  start: Terminal,
  network: Network,
  innerAt: Wiring['innerAt'],
  costOf: (edge: Edge, from: Terminal) => number | undefined,
  until: (terminal: Terminal) => boolean = () => false,
): Paths {
  /** By the places of terminals among all. */
  const best = new Map<number, Reached>();
  const done: Reached[] = [];
  const heap = new Heap();
  const offer = (at: Reached) => {
    const known = best.get(at.terminal.index);
    if (known !== undefined && !comesBefore(at, known)) return;
    best.set(at.terminal.index, at);
    heap.push(at);
  };
  offer({ terminal: start, cost: 0, steps: 0, via: undefined, back: undefined });
  for (let here = heap.pop(); here !== undefined; here = heap.pop()) {
    if (best.get(here.terminal.index) !== here) continue;
    done.push(here);
    const { terminal, cost, steps } = here;
    if (until(terminal)) break;
    const go = (to: Terminal, via: Edge | undefined, more: number) =>
      offer({ terminal: to, cost: cost + more, steps: steps + 1, via, back: here });
    for (const edge of network.at.get(terminal.id) ?? []) {
      const more = costOf(edge, terminal);
      if (more !== undefined) go(edge.from === terminal ? edge.to : edge.from, edge, more);
    }
    for (const { to } of innerAt(terminal)) go(to, undefined, 0);
  }
  return {
    cost: ({ index }) => best.get(index)?.cost,
    edges({ index }) {
      const edges: Edge[] = [];
      for (let at = best.get(index); at !== undefined; at = at.back) if (at.via !== undefined) edges.push(at.via);
      return edges.reverse();
    },
    steps({ index }) {
      const steps: PathStep[] = [];
      for (let at = best.get(index); at?.back !== undefined; at = at.back)
        steps.push({ from: at.back.terminal, to: at.terminal, edge: at.via });
      return steps.reverse();
    },
    reached: done.map(({ terminal }) => terminal),
  };
}

interface Reached {
  readonly terminal: Terminal;
  readonly cost: number;
  readonly steps: number;
  readonly via: Edge | undefined;
  readonly back: Reached | undefined;
}

function comesBefore(a: Reached, b: Reached): boolean {
  return a.cost < b.cost || (a.cost === b.cost && a.steps < b.steps);
}

class Heap {
  private readonly items: Reached[] = [];

  push(item: Reached): void {
    const { items } = this;
    let at = items.push(item) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const above = items[up] as Reached;
      if (!comesBefore(item, above)) break;
      items[at] = above;
      at = up;
    }
    items[at] = item;
  }

  pop(): Reached | undefined {
    const { items } = this;
    const first = items[0];
    const last = items.pop();
    if (first === undefined || last === undefined || items.length === 0) return first;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      const right = items[down + 1];
      if (right !== undefined && comesBefore(right, items[down] as Reached)) down += 1;
      if (!comesBefore(items[down] as Reached, last)) break;
      items[at] = items[down] as Reached;
      at = down;
    }
    items[at] = last;
    return first;
  }
}
