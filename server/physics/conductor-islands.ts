/**
 * Conductors by what they join. Sources come into it later, each joining two islands or standing in one, so that the same
 * conductors serve any number of them without being taken apart anew.
 */
import type { Circuit } from './circuit.ts';
import { UnionFind } from './union-find.ts';

/** What a circuit is without its sources and loads. */
export type ConductorCircuit = Pick<Circuit, 'nodeCount' | 'resistors' | 'links' | 'diodes' | 'references'>;

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

export class ConductorIslands {
  readonly count: number;
  /** Of a node: its island, and its number there. */
  readonly islandOf: Int32Array;
  readonly local: Int32Array;
  /** Nodes by island. */
  readonly sizes: Int32Array;
  readonly resistors: ByIsland;
  readonly links: ByIsland;
  readonly diodes: ByIsland;
  /** In the order in which they are listed. */
  readonly references: ByIsland;

  constructor(readonly circuit: ConductorCircuit) {
    const { nodeCount, resistors, links, diodes, references } = circuit;
    const joined = new UnionFind(nodeCount);
    for (const { a, b } of resistors) joined.join(a, b);
    for (const { a, b } of links) joined.join(a, b);
    for (const { a, b } of diodes) joined.join(a, b);
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
    const pairs = (all: readonly { readonly a: number }[]) =>
      new ByIsland(count, all.length, (i) => this.islandOf[(all[i] as { readonly a: number }).a] as number);
    this.resistors = pairs(resistors);
    this.links = pairs(links);
    this.diodes = pairs(diodes);
    this.references = new ByIsland(count, references.length, (i) => this.islandOf[references[i] as number] as number);
  }
}
