/** Conductors that hang together, in nodes of their own: what a short circuit on them can have to do with. */
import type { Diode, Emf, LimitedSource, Resistor } from './circuit.ts';
import type { ConductorIslands } from './conductor-islands.ts';
import { UnionFind } from './union-find.ts';

/** Two nodes of a group. */
export interface Ends {
  readonly a: number;
  readonly b: number;
}

interface Conductance extends Ends {
  readonly siemens: number;
  /** Pushed into a and out of b. */
  readonly amps: number;
}

/** Conductors that hang together, with the sources at them; in nodes of its own, those that links join being one. */
export class FaultGroup {
  readonly nodeCount: number;
  /** Resistances, and sources that only a resistance limits. */
  readonly fixed: readonly Conductance[];
  readonly limited: readonly (LimitedSource & Ends)[];
  readonly diodes: readonly Diode[];
  readonly references: readonly number[];
  private readonly merged: Int32Array;
  private readonly offsets: ReadonlyMap<number, number>;

  constructor(
    private readonly conductors: ConductorIslands,
    islands: readonly number[],
    emfs: readonly Emf[],
    limited: readonly LimitedSource[],
  ) {
    const { circuit, sizes } = conductors;
    const offsets = new Map<number, number>();
    let length = 0;
    for (const island of islands) {
      offsets.set(island, length);
      length += sizes[island] as number;
    }
    this.offsets = offsets;
    const merged = new UnionFind(length);
    const link = ({ a, b }: Ends) => merged.join(this.place(a), this.place(b));
    for (const island of islands) for (const i of conductors.links.of(island)) link(circuit.links[i] as Ends);
    this.merged = new Int32Array(length);
    let count = 0;
    for (let i = 0; i < length; i++) {
      const root = merged.find(i);
      this.merged[i] = root === i ? count++ : (this.merged[root] as number);
    }
    this.nodeCount = count;
    const fixed: Conductance[] = [];
    const diodes: Diode[] = [];
    const references: number[] = [];
    for (const island of islands) {
      for (const i of conductors.resistors.of(island)) {
        const { a, b, ohms } = circuit.resistors[i] as Resistor;
        fixed.push({ a: this.node(a), b: this.node(b), siemens: 1 / ohms, amps: 0 });
      }
      for (const i of conductors.diodes.of(island)) {
        const { a, b, volts, ohms } = circuit.diodes[i] as Diode;
        diodes.push({ a: this.node(a), b: this.node(b), volts, ohms });
      }
      for (const i of conductors.references.of(island)) references.push(i);
    }
    for (const { plus, minus, volts, ohms } of emfs)
      fixed.push({ a: this.node(plus), b: this.node(minus), siemens: 1 / ohms, amps: volts / ohms });
    this.fixed = fixed;
    this.diodes = diodes;
    this.limited = limited.map((one) => ({ a: this.node(one.plus), b: this.node(one.minus), ...one }));
    this.references = references.sort((i, j) => i - j).map((i) => this.node(circuit.references[i] as number));
  }

  /** Of a node of the whole that is in this group. */
  node(whole: number): number {
    return this.merged[this.place(whole)] as number;
  }

  private place(whole: number): number {
    const { islandOf, local } = this.conductors;
    return (this.offsets.get(islandOf[whole] as number) ?? 0) + (local[whole] as number);
  }
}
