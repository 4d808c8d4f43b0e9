/** Which node a network joins with which: trees and meshes, numbered from 0. */
import type { Chance } from './random.ts';

type Pairs = [number, number][];

function ladder(nodes: number): Pairs {
  return Array.from({ length: nodes - 1 }, (_, i) => [i, i + 1]);
}

function branching(nodes: number, chance: Chance): Pairs {
  return Array.from({ length: nodes - 1 }, (_, i) => [chance.whole(0, i), i + 1]);
}

/** A bar with runs of a few pieces each. */
function star(nodes: number, chance: Chance): Pairs {
  const pairs: Pairs = [];
  for (let next = 1; next < nodes; ) {
    let from = 0;
    for (let piece = chance.whole(1, 4); piece > 0 && next < nodes; piece--) {
      pairs.push([from, next]);
      from = next++;
    }
  }
  return pairs;
}

function grid(nodes: number): Pairs {
  const width = Math.max(2, Math.floor(Math.sqrt(nodes)));
  const pairs: Pairs = [];
  for (let i = 1; i < nodes; i++) {
    if (i % width !== 0) pairs.push([i - 1, i]);
    if (i >= width) pairs.push([i - width, i]);
  }
  return pairs;
}

/** A ring with spurs. */
function ring(nodes: number, chance: Chance): Pairs {
  const round = Math.max(3, Math.ceil(nodes * 0.7));
  const pairs: Pairs = Array.from({ length: round }, (_, i) => [i, (i + 1) % round]);
  for (let i = round; i < nodes; i++) pairs.push([chance.whole(0, i - 1), i]);
  return pairs;
}

/** A tree with half as many chords as it has nodes. */
function web(nodes: number, chance: Chance): Pairs {
  const pairs = branching(nodes, chance);
  for (let i = 0; i < nodes / 2; i++) {
    const a = chance.whole(0, nodes - 1);
    pairs.push([a, (a + chance.whole(1, nodes - 1)) % nodes]);
  }
  return pairs;
}

export interface Shape {
  readonly name: string;
  readonly meshed: boolean;
  /** Whether current returns through wires of the same shape rather than through a chassis without resistance. */
  readonly wiredReturn: boolean;
  readonly pairs: (nodes: number, chance: Chance) => Pairs;
}

export const shapes: readonly Shape[] = [
  { name: 'ladder', meshed: false, wiredReturn: false, pairs: ladder },
  { name: 'tree', meshed: false, wiredReturn: false, pairs: branching },
  { name: 'star', meshed: false, wiredReturn: false, pairs: star },
  { name: 'tree with return wires', meshed: false, wiredReturn: true, pairs: branching },
  { name: 'grid', meshed: true, wiredReturn: false, pairs: grid },
  { name: 'ring with spurs', meshed: true, wiredReturn: false, pairs: ring },
  { name: 'web', meshed: true, wiredReturn: false, pairs: web },
  { name: 'web with return wires', meshed: true, wiredReturn: true, pairs: web },
];
