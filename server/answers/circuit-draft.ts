/** A circuit being put together for one case, with handles to read each element's current from the solution. */
import type { Terminal } from '../model/model.ts';
import type {
  Circuit,
  CurrentDraw,
  Diode,
  Emf,
  LimitedSource,
  Link,
  PowerDraw,
  Resistor,
  Solution,
} from '../physics/circuit.ts';

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

/** Current of an element: of a conductor from → to, of a source out of its plus, of a draw into its plus. */
export function ampsOf(solution: Solution, { as, at }: Element): number {
  switch (as) {
    case 'resistor':
      return solution.resistorAmps[at] ?? 0;
    case 'link':
      return solution.linkAmps[at] ?? 0;
    case 'emf':
      return solution.emfAmps[at] ?? 0;
    case 'limited':
      return solution.limitedAmps[at] ?? 0;
    case 'current':
      return solution.currentAmps[at] ?? 0;
    case 'power':
      return solution.powerAmps[at] ?? 0;
    case 'diode':
      return solution.diodeAmps[at] ?? 0;
  }
}

/** Whether a current rests on equal sharing over a loop without resistance. */
export function isAssumed(solution: Solution, { as, at }: Element): boolean {
  return as === 'link' && (solution.linkAssumed[at] ?? false);
}
