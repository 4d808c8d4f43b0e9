/** A circuit being put together for one case, with handles to read each element's current from the solution. */
import type { Terminal } from '../model/model.ts';
import type { Circuit, CurrentDraw, Diode, Emf, LimitedSource, Link, PowerDraw, Resistor } from '../physics/circuit.ts';
import type { Solved } from '../physics/solve-island.ts';
import { type Flat, flattened, type Sort } from '../physics/topology.ts';

export interface Element {
  readonly as: 'resistor' | 'link' | 'emf' | 'limited' | 'current' | 'power' | 'diode';
  readonly at: number;
}

export interface Ends {
  readonly plus: Terminal;
  readonly minus: Terminal;
}

export class CircuitDraft {
  private readonly resistors: Resistor[] = [];
  private readonly links: Link[] = [];
  private readonly emfs: Emf[] = [];
  private readonly limited: LimitedSource[] = [];
  private readonly currents: CurrentDraw[] = [];
  private readonly powers: PowerDraw[] = [];
  private readonly diodes: Diode[] = [];

  constructor(
    private readonly nodeCount: number,
    private readonly node: (terminal: Terminal) => number,
  ) {}

  /** A conductor from a to b; without resistance it is a link, whose two ends are one node. */
  conductor(from: Terminal, to: Terminal, ohms: number): Element {
    const [a, b] = [this.node(from), this.node(to)];
    return ohms > 0
      ? { as: 'resistor', at: this.resistors.push({ a, b, ohms }) - 1 }
      : { as: 'link', at: this.links.push({ a, b }) - 1 };
  }

  emf({ plus, minus }: Ends, volts: number, ohms: number): Element {
    return { as: 'emf', at: this.emfs.push({ plus: this.node(plus), minus: this.node(minus), volts, ohms }) - 1 };
  }

  /** Holds `volts` up to `mostAmps`, then that current. */
  regulated({ plus, minus }: Ends, volts: number, ohms: number, mostAmps: number): Element {
    return {
      as: 'limited',
      at: this.limited.push({ plus: this.node(plus), minus: this.node(minus), volts, ohms, mostAmps }) - 1,
    };
  }

  /** Draws `amps` in at plus; a negative current feeds. */
  current({ plus, minus }: Ends, amps: number): Element {
    return { as: 'current', at: this.currents.push({ plus: this.node(plus), minus: this.node(minus), amps }) - 1 };
  }

  power({ plus, minus }: Ends, watts: number): Element {
    return { as: 'power', at: this.powers.push({ plus: this.node(plus), minus: this.node(minus), watts }) - 1 };
  }

  diode(from: Terminal, to: Terminal, volts: number, ohms: number): Element {
    return { as: 'diode', at: this.diodes.push({ a: this.node(from), b: this.node(to), volts, ohms }) - 1 };
  }

  /** `references` are 0 V where their connected part has one; the first listed wins. */
  finish(references: readonly Terminal[]): Circuit {
    const { nodeCount, resistors, links, emfs, limited, currents, powers, diodes } = this;
    return {
      nodeCount,
      resistors,
      links,
      emfs,
      limited,
      currents,
      powers,
      diodes,
      references: references.map(this.node),
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
  readonly flat: Flat;

  constructor(circuit: Circuit) {
    this.flat = flattened(circuit);
  }

  setOhms({ at }: Element, ohms: number): void {
    this.set('resistors', at, ohms);
  }

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

/** Whether a current rests on equal sharing over a loop without resistance. */
export function isAssumed({ linkAssumed }: Solved, { as, at }: Element): boolean {
  return as === 'link' && (linkAssumed[at] ?? false);
}
