/** Conductors that hang together, in nodes of their own: what a short circuit on them can have to do with. */
import type { Diode, Emf, LimitedSource } from './circuit.ts';
import { type ConductorIslands, conductorIslandsOf } from './conductor-islands.ts';
import type { Flat } from './topology.ts';
import { UnionFind } from './union-find.ts';

/** Two nodes of a group. */
export interface Ends {
  readonly a: number;
  readonly b: number;
}

/** Conductances, one by one: their two nodes, siemens, and what is pushed into the first and out of the second, in ampere. */
export interface Conductances {
  readonly ends: Int32Array;
  readonly siemens: Float64Array;
  readonly amps: Float64Array;
}

/** Conductors that hang together, with the sources at them; in nodes of its own, those that links join being one. */
export class FaultGroup {
  readonly nodeCount: number;
  /** Resistances, and sources that only a resistance limits. */
  readonly fixed: Conductances;
  readonly limited: readonly (LimitedSource & Ends)[];
  readonly diodes: readonly Diode[];
  readonly references: readonly number[];
  private readonly islands: ConductorIslands;
  private readonly merged: Int32Array;
  private readonly offsets: ReadonlyMap<number, number>;

  constructor(
    { topology, figures }: Flat,
    own: readonly number[],
    emfs: readonly Emf[],
    limited: readonly LimitedSource[],
  ) {
    const { ends, first, at, counts } = topology;
    const islands = conductorIslandsOf(topology);
    this.islands = islands;
    const offsets = new Map<number, number>();
    let length = 0;
    let resistors = 0;
    for (const island of own) {
      offsets.set(island, length);
      length += islands.sizes[island] as number;
      resistors += islands.resistors.of(island).length;
    }
    this.offsets = offsets;
    const merged = new UnionFind(length);
    const end = (element: number, which: number) => ends[2 * element + which] as number;
    for (const island of own)
      for (const i of islands.links.of(island)) {
        const link = first.links + i;
        merged.join(this.place(end(link, 0)), this.place(end(link, 1)));
      }
    this.merged = new Int32Array(length);
    let count = 0;
    for (let i = 0; i < length; i++) {
      const root = merged.find(i);
      this.merged[i] = root === i ? count++ : (this.merged[root] as number);
    }
    this.nodeCount = count;
    const all = resistors + emfs.length;
    this.fixed = { ends: new Int32Array(2 * all), siemens: new Float64Array(all), amps: new Float64Array(all) };
    const diodes: Diode[] = [];
    const references: number[] = [];
    let place = 0;
    for (const island of own) {
      for (const i of islands.resistors.of(island)) {
        const resistor = first.resistors + i;
        this.fix(place++, end(resistor, 0), end(resistor, 1), 1 / (figures[at.resistors + i] as number), 0);
      }
      for (const i of islands.diodes.of(island)) {
        const diode = first.diodes + i;
        const [volts, ohms] = [figures[at.diodes + i] as number, figures[at.diodes + counts.diodes + i] as number];
        diodes.push({ a: this.node(end(diode, 0)), b: this.node(end(diode, 1)), volts, ohms });
      }
      for (const i of islands.references.of(island)) references.push(i);
    }
    for (const { plus, minus, volts, ohms } of emfs) this.fix(place++, plus, minus, 1 / ohms, volts / ohms);
    this.diodes = diodes;
    this.limited = limited.map((one) => ({ a: this.node(one.plus), b: this.node(one.minus), ...one }));
    this.references = references.sort((i, j) => i - j).map((i) => this.node(topology.references[i] as number));
  }

  private fix(place: number, a: number, b: number, siemens: number, amps: number): void {
    const { fixed } = this;
    fixed.ends[2 * place] = this.node(a);
    fixed.ends[2 * place + 1] = this.node(b);
    fixed.siemens[place] = siemens;
    fixed.amps[place] = amps;
  }

  /** Of a node of the whole that is in this group. */
  node(whole: number): number {
    return this.merged[this.place(whole)] as number;
  }

  private place(whole: number): number {
    const { islandOf, local } = this.islands;
    return (this.offsets.get(islandOf[whole] as number) ?? 0) + (local[whole] as number);
  }
}
