/**
 * Conductors by what they join. Sources come into it later, each joining two islands or standing in one, so that the same
 * conductors serve any number of them without being taken apart anew.
 */
import type { Sort, Topology } from './topology.ts';
import { UnionFind } from './union-find.ts';

/** Places in a list of elements, by island. */
class ByIsland {
  private readonly start: Int32Array;
  private readonly all: Int32Array;

  constructor(count: number, length: number, islandOf: (index: number) => number) {
    this.start = new Int32Array(count + 1);
    this.all = new Int32Array(length);
    for (let i = 0; i < length; i++) this.start[islandOf(i) + 1] = (this.start[islandOf(i) + 1] as number) + 1;
    for (let i = 0; i < count; i++) this.start[i + 1] = (this.start[i + 1] as number) + (this.start[i] as number);
    const next = this.start.slice(0, count);
    for (let i = 0; i < length; i++) {
      const island = islandOf(i);
      this.all[next[island] as number] = i;
      next[island] = (next[island] as number) + 1;
    }
  }

  of(island: number): Int32Array {
    return this.all.subarray(this.start[island] as number, this.start[island + 1] as number);
  }
}

const known = new WeakMap<Topology, ConductorIslands>();

/** Of the resistances, links and diodes of a circuit. */
export function conductorIslandsOf(topology: Topology): ConductorIslands {
  let islands = known.get(topology);
  if (islands === undefined) {
    islands = new ConductorIslands(topology);
    known.set(topology, islands);
  }
  return islands;
}

export class ConductorIslands {
  readonly count: number;
  /** Of a node: its island, and its number there. */
  readonly islandOf: Int32Array;
  readonly local: Int32Array;
  /** Nodes by island. */
  readonly sizes: Int32Array;
  /** By their places among those of their sort. */
  readonly resistors: ByIsland;
  readonly links: ByIsland;
  readonly diodes: ByIsland;
  /** In the order in which they are listed. */
  readonly references: ByIsland;

  constructor({ nodeCount, ends, first, counts, references }: Topology) {
    const joined = new UnionFind(nodeCount);
    for (const sort of ['resistors', 'links', 'diodes'] as const)
      for (let k = first[sort]; k < first[sort] + counts[sort]; k++)
        joined.join(ends[2 * k] as number, ends[2 * k + 1] as number);
    this.islandOf = new Int32Array(nodeCount);
    this.local = new Int32Array(nodeCount);
    const sizes = new Int32Array(nodeCount);
    let count = 0;
    for (let node = 0; node < nodeCount; node++) {
      // The lowest node of an island is its root, and so comes first.
      const root = joined.find(node);
      const island = root === node ? count++ : (this.islandOf[root] as number);
      this.islandOf[node] = island;
      this.local[node] = sizes[island] as number;
      sizes[island] = (sizes[island] as number) + 1;
    }
    this.count = count;
    this.sizes = sizes.slice(0, count);
    const of = (sort: Sort) =>
      new ByIsland(count, counts[sort], (i) => this.islandOf[ends[2 * (first[sort] + i)] as number] as number);
    this.resistors = of('resistors');
    this.links = of('links');
    this.diodes = of('diodes');
    this.references = new ByIsland(count, references.length, (i) => this.islandOf[references[i] as number] as number);
  }
}
