/**
 * A circuit taken apart into islands: what no element joins has nothing to do with each other. Each is a circuit of its own
 * with its own numbers, so that it stays the same whatever is changed in the others.
 */
import { type DeadEnds, deadEndsOf } from './dead-ends.ts';
import { known, type Sort, sorts, type Topology } from './topology.ts';
import { UnionFind } from './union-find.ts';

/** An island, and what its nodes, elements and figures are in the whole. */
export interface Island {
  readonly topology: Topology;
  readonly nodes: Int32Array;
  readonly elements: Int32Array;
  readonly figures: Int32Array;
  /** Room for its own figures, for who solves it at once. */
  readonly room: Float64Array;
}

export interface Apart {
  readonly islands: readonly Island[];
  /** What is part of no island. */
  readonly deadEnds: DeadEnds;
}

const found = new WeakMap<Topology, Apart | 'one'>();

/** Undefined for a circuit that is one island. Draws between two islands belong to none: nothing flows in them. */
export function islandsOf(topology: Topology): Apart | undefined {
  let islands = found.get(topology);
  if (islands === undefined) {
    islands = apart(topology) ?? 'one';
    found.set(topology, islands);
  }
  return islands === 'one' ? undefined : islands;
}

/** Draws follow from what joins nodes: by themselves they join none. */
const isDraw = (sort: Sort) => sort === 'currents' || sort === 'powers';

function apart(whole: Topology): Apart | undefined {
  const { nodeCount, ends, references, counts, first } = whole;
  const deadEnds = deadEndsOf(whole);
  const joined = new UnionFind(nodeCount);
  const joining = sorts.filter((sort) => !isDraw(sort));
  for (const sort of joining)
    for (let k = first[sort]; k < first[sort] + counts[sort]; k++)
      if (deadEnds.elements[k] === 0) joined.join(ends[2 * k] as number, ends[2 * k + 1] as number);
  /** Island of each node by its root; a node that has no element is in none. */
  const islandAt = new Int32Array(nodeCount).fill(-1);
  let count = 0;
  for (const sort of joining)
    for (let k = first[sort]; k < first[sort] + counts[sort]; k++) {
      if (deadEnds.elements[k] === 1) continue;
      const root = joined.find(ends[2 * k] as number);
      if (islandAt[root] === -1) islandAt[root] = count++;
    }
  if (count === 1 && deadEnds.nodes.length === 0) return undefined;
  const islandOf = (node: number) => islandAt[joined.find(node)] as number;
  const local = new Int32Array(nodeCount);
  const nodes: number[][] = Array.from({ length: count }, () => []);
  for (let node = 0; node < nodeCount; node++) {
    const own = nodes[islandOf(node)];
    if (own !== undefined) local[node] = own.push(node) - 1;
  }
  const drafts = nodes.map(() => ({ counts: noCounts(), elements: [] as number[], references: [] as number[] }));
  for (const sort of sorts)
    for (let k = first[sort]; k < first[sort] + counts[sort]; k++) {
      const island = islandOf(ends[2 * k] as number);
      const draft = drafts[island];
      if (
        draft === undefined ||
        deadEnds.elements[k] === 1 ||
        (isDraw(sort) && islandOf(ends[2 * k + 1] as number) !== island)
      )
        continue;
      draft.elements.push(k);
      draft.counts[sort] += 1;
    }
  for (const node of references) drafts[islandOf(node)]?.references.push(local[node] as number);
  const islands = nodes.map((own, i): Island => {
    const draft = drafts[i] as (typeof drafts)[number];
    const elements = Int32Array.from(draft.elements);
    const ownEnds = new Int32Array(2 * elements.length);
    for (let e = 0; e < elements.length; e++) {
      const k = elements[e] as number;
      ownEnds[2 * e] = local[ends[2 * k] as number] as number;
      ownEnds[2 * e + 1] = local[ends[2 * k + 1] as number] as number;
    }
    const topology = known(own.length, draft.counts, ownEnds, Int32Array.from(draft.references));
    const figures = placesOf(whole, topology, elements);
    return { topology, nodes: Int32Array.from(own), elements, figures, room: new Float64Array(figures.length) };
  });
  return { islands, deadEnds };
}

function noCounts(): Record<Sort, number> {
  return { resistors: 0, links: 0, emfs: 0, limited: 0, currents: 0, powers: 0, diodes: 0 };
}

/** Where in the figures of the whole each figure of an island stands. */
function placesOf(whole: Topology, own: Topology, elements: Int32Array): Int32Array {
  const places = new Int32Array(own.figures);
  for (const sort of sorts) {
    const count = own.counts[sort];
    const end = sorts[sorts.indexOf(sort) + 1];
    const each = count === 0 ? 0 : ((end === undefined ? own.figures : own.at[end]) - own.at[sort]) / count;
    for (let which = 0; which < each; which++)
      for (let i = 0; i < count; i++) {
        const inWhole = (elements[own.first[sort] + i] as number) - whole.first[sort];
        places[own.at[sort] + which * count + i] = whole.at[sort] + which * whole.counts[sort] + inWhole;
      }
  }
  return places;
}
