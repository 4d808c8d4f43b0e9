/** A circuit being put together for one case, with handles to read each element's current from the solution. */
import type { Terminal } from '../model/model.ts';
import type { Circuit, Emf } from '../physics/circuit.ts';
import type { Solved } from '../physics/solve-island.ts';
import { type Flat, known, type Sort, sorts } from '../physics/topology.ts';

export interface Element {
  readonly as: 'resistor' | 'link' | 'emf' | 'limited' | 'current' | 'power' | 'diode';
  readonly at: number;
}

export interface Ends {
  readonly plus: Terminal;
  readonly minus: Terminal;
}

/** Of one sort the ends of the elements, two by two, and their figures, those of each together. */
interface Drafted {
  readonly ends: number[];
  readonly figures: number[];
}

/** Room for the numbers of a circuit until it is known whether it has been there before. */
const rows = { ends: new Int32Array(1024), references: new Int32Array(64) };

export class CircuitDraft {
  private readonly drafted: Readonly<Record<Sort, Drafted>> = {
    resistors: { ends: [], figures: [] },
    links: { ends: [], figures: [] },
    emfs: { ends: [], figures: [] },
    limited: { ends: [], figures: [] },
    currents: { ends: [], figures: [] },
    powers: { ends: [], figures: [] },
    diodes: { ends: [], figures: [] },
  };

  constructor(
    private readonly nodeCount: number,
    private readonly node: (terminal: Terminal) => number,
  ) {}

  /** A conductor from a to b; without resistance it is a link, whose two ends are one node. */
  conductor(from: Terminal, to: Terminal, ohms: number): Element {
    const at = this.conductorBetween(this.node(from), this.node(to), ohms);
    return at >= 0 ? { as: 'resistor', at } : { as: 'link', at: -1 - at };
  }

  /** The same by nodes: its place among the resistors, or for a link -1 less its place among the links. */
  conductorBetween(a: number, b: number, ohms: number): number {
    if (!(ohms > 0)) {
      const { ends } = this.drafted.links;
      ends.push(a, b);
      return -ends.length / 2;
    }
    const { ends, figures } = this.drafted.resistors;
    ends.push(a, b);
    figures.push(ohms);
    return figures.length - 1;
  }

  emf({ plus, minus }: Ends, volts: number, ohms: number): Element {
    const { ends, figures } = this.drafted.emfs;
    ends.push(this.node(plus), this.node(minus));
    figures.push(volts, ohms);
    return { as: 'emf', at: ends.length / 2 - 1 };
  }

  /** Holds `volts` up to `mostAmps`, then that current. */
  regulated({ plus, minus }: Ends, volts: number, ohms: number, mostAmps: number): Element {
    const { ends, figures } = this.drafted.limited;
    ends.push(this.node(plus), this.node(minus));
    figures.push(volts, ohms, mostAmps);
    return { as: 'limited', at: ends.length / 2 - 1 };
  }

  /** Draws `amps` in at plus; a negative current feeds. */
  current({ plus, minus }: Ends, amps: number): Element {
    const { ends, figures } = this.drafted.currents;
    ends.push(this.node(plus), this.node(minus));
    figures.push(amps);
    return { as: 'current', at: figures.length - 1 };
  }

  power({ plus, minus }: Ends, watts: number): Element {
    const { ends, figures } = this.drafted.powers;
    ends.push(this.node(plus), this.node(minus));
    figures.push(watts);
    return { as: 'power', at: figures.length - 1 };
  }

  diode(from: Terminal, to: Terminal, volts: number, ohms: number): Element {
    const { ends, figures } = this.drafted.diodes;
    ends.push(this.node(from), this.node(to));
    figures.push(volts, ohms);
    return { as: 'diode', at: ends.length / 2 - 1 };
  }

  /** `references` are 0 V where their connected part has one; the first listed wins. */
  flat(references: readonly Terminal[]): Flat {
    const { drafted, nodeCount } = this;
    const counts = {
      resistors: drafted.resistors.ends.length / 2,
      links: drafted.links.ends.length / 2,
      emfs: drafted.emfs.ends.length / 2,
      limited: drafted.limited.ends.length / 2,
      currents: drafted.currents.ends.length / 2,
      powers: drafted.powers.ends.length / 2,
      diodes: drafted.diodes.ends.length / 2,
    };
    let at = 0;
    for (const sort of sorts) at += drafted[sort].ends.length;
    if (rows.ends.length < at) rows.ends = new Int32Array(2 * at);
    if (rows.references.length < references.length) rows.references = new Int32Array(2 * references.length);
    at = 0;
    for (const sort of sorts) {
      const own = drafted[sort].ends;
      for (let i = 0; i < own.length; i++) rows.ends[at++] = own[i] as number;
    }
    for (let i = 0; i < references.length; i++) rows.references[i] = this.node(references[i] as Terminal);
    const topology = known(nodeCount, counts, rows.ends, rows.references, references.length);
    const figures = new Float64Array(topology.figures);
    for (const sort of sorts) {
      const own = drafted[sort].figures;
      const [from, count] = [topology.at[sort], counts[sort]];
      const each = count === 0 ? 0 : own.length / count;
      for (let i = 0; i < count; i++)
        for (let which = 0; which < each; which++) figures[from + which * count + i] = own[i * each + which] as number;
    }
    return { topology, figures };
  }

  /** Its sources alone. */
  sources(): Pick<Circuit, 'emfs' | 'limited'> {
    const { emfs, limited } = this.drafted;
    const each = <T>({ ends, figures }: Drafted, make: (port: Emf, at: number) => T): T[] => {
      const count = ends.length / 2;
      return Array.from({ length: count }, (_, i) => {
        const at = (i * figures.length) / count;
        const [plus, minus] = [ends[2 * i] as number, ends[2 * i + 1] as number];
        return make({ plus, minus, volts: figures[at] as number, ohms: figures[at + 1] as number }, at);
      });
    };
    return {
      emfs: each(emfs, (port) => port),
      limited: each(limited, (port, at) => ({ ...port, mostAmps: limited.figures[at + 2] as number })),
    };
  }
}

const sortOf: Readonly<Record<Element['as'], Sort>> = {
  resistor: 'resistors',
  link: 'links',
  emf: 'emfs',
  limited: 'limited',
  current: 'currents',
  power: 'powers',
  diode: 'diodes',
};

/** A circuit that was drawn, with the figures of its elements to be changed and their currents to be read. */
export class DrawnCircuit {
  constructor(readonly flat: Flat) {}

  setEmf({ at }: Element, volts: number, ohms?: number): void {
    this.set('emfs', at, volts);
    if (ohms !== undefined) this.set('emfs', at + this.flat.topology.counts.emfs, ohms);
  }

  setMostAmps({ at }: Element, amps: number): void {
    this.set('limited', at + 2 * this.flat.topology.counts.limited, amps);
  }

  setAmps({ at }: Element, amps: number): void {
    this.set('currents', at, amps);
  }

  setWatts({ at }: Element, watts: number): void {
    this.set('powers', at, watts);
  }

  private set(sort: Sort, place: number, figure: number): void {
    const { topology, figures } = this.flat;
    figures[topology.at[sort] + place] = figure;
  }

  /** Current of an element: of a conductor from → to, of a source out of its plus, of a draw into its plus. */
  ampsOf({ amps }: Solved, { as, at }: Element): number {
    return amps[this.flat.topology.first[sortOf[as]] + at] ?? 0;
  }
}
