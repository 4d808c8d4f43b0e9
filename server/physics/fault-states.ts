/**
 * A group of conductors with its limited sources and diodes in one state, factorised: what a fault between two of its nodes
 * brings, and in which state that would leave them.
 */
import type { Diode, LimitedSource } from './circuit.ts';
import type { Ends, FaultGroup } from './fault-group.ts';
import { type Half, HalfSolver } from './half-solve.ts';
import { factorise, inOrder, SymmetricEntries } from './sparse.ts';
import { UnionFind } from './union-find.ts';

/**
 * Beside a source that gives its greatest current, so that a circuit which only such sources feed has a voltage, in ohm.
 * In a fault it takes some 0.1 mA at most.
 */
const besideOhms = 1e5;
/** One letter a source that limits its current, then one a diode. */
export type States = string;
export const [holds, limits, off] = ['h', 'l', 'o'] as const;
export const [conducts, blocks] = ['c', 'b'] as const;

/** What flows through a fault. */
export interface FaultFlow {
  /** 0 where nothing can drive it. */
  readonly amps: number;
  /** Between its nodes before the fault, of the sources as they are in it. */
  readonly openVolts: number;
  /** Thévenin resistance in ohm; Infinity where the two nodes are apart. */
  readonly ohms: number;
}

/** Between two nodes: what the voltage is without a fault, and what 1 A between them does. */
interface Port {
  readonly openVolts: number;
  readonly half: Half;
}

/** A group in one state of its sources and diodes, factorised. */
export class FaultStates {
  private readonly galvanic: UnionFind;
  /** Place in the order of elimination, by node; -1 for ground. */
  private readonly place: Int32Array;
  private readonly halves: HalfSolver | undefined;
  private readonly open: Float64Array;
  private readonly ports = new Map<number, Port>();
  /** Its sources and diodes, in the order of the states. */
  private readonly own: readonly Port[];
  /** The fault that is looked at, in ampere, volt and ohm. */
  private fault = { a: -1, b: -1, amps: 0, openVolts: 0, ohms: 0 };

  constructor(
    private readonly group: FaultGroup,
    states: States,
  ) {
    const { nodeCount: n, fixed, limited, diodes, references } = group;
    const isConducting = (diode: number) => states[limited.length + diode] === conducts;
    this.galvanic = new UnionFind(n);
    const count = fixed.siemens.length;
    for (let i = 0; i < count; i++) this.galvanic.join(fixed.ends[2 * i] as number, fixed.ends[2 * i + 1] as number);
    for (const { a, b } of limited) this.galvanic.join(a, b);
    for (let i = 0; i < diodes.length; i++)
      if (isConducting(i)) this.galvanic.join((diodes[i] as Diode).a, (diodes[i] as Diode).b);
    const grounded = new Int32Array(n).fill(-1);
    for (const node of references) {
      const part = this.galvanic.find(node);
      if (grounded[part] === -1) grounded[part] = node;
    }
    const row = new Int32Array(n).fill(-1);
    let size = 0;
    for (let node = 0; node < n; node++) {
      const part = this.galvanic.find(node);
      if (grounded[part] === -1) grounded[part] = node;
      if (grounded[part] !== node) row[node] = size++;
    }
    const entries = new SymmetricEntries(size, count + limited.length + diodes.length);
    const rhs = new Float64Array(size);
    const conduct = (a: number, b: number, siemens: number, amps: number) => {
      const i = row[a] as number;
      const j = row[b] as number;
      if (i === j) return;
      if (i >= 0) {
        entries.addDiagonal(i, siemens);
        rhs[i] = (rhs[i] as number) + amps;
      }
      if (j >= 0) {
        entries.addDiagonal(j, siemens);
        rhs[j] = (rhs[j] as number) - amps;
      }
      if (i >= 0 && j >= 0) entries.addPair(i, j, -siemens);
    };
    for (let i = 0; i < count; i++) {
      const [a, b] = [fixed.ends[2 * i] as number, fixed.ends[2 * i + 1] as number];
      conduct(a, b, fixed.siemens[i] as number, fixed.amps[i] as number);
    }
    for (let i = 0; i < limited.length; i++) {
      const { a, b, volts, ohms, mostAmps } = limited[i] as LimitedSource & Ends;
      if (states[i] === holds) conduct(a, b, 1 / ohms, volts / ohms);
      else conduct(a, b, 1 / besideOhms, states[i] === limits ? mostAmps : 0);
    }
    for (let i = 0; i < diodes.length; i++) {
      const { a, b, volts, ohms } = diodes[i] as Diode;
      if (isConducting(i)) conduct(a, b, 1 / ohms, volts / ohms);
    }
    const factor = factorise(entries);
    this.place = row;
    this.open = rhs;
    if (factor !== undefined) {
      const { place } = factor.structure;
      for (let node = 0; node < n; node++)
        if ((row[node] as number) >= 0) row[node] = place[row[node] as number] as number;
      this.halves = new HalfSolver(factor);
      this.open = this.halves.whole(inOrder(factor.structure, rhs));
    }
    this.own = [...limited, ...diodes].map(({ a, b }) => this.portOf(a, b));
  }

  /** Looks at the fault between two nodes. */
  look(a: number, b: number): FaultFlow {
    const { fault, halves } = this;
    if (fault.a === a && fault.b === b) return fault;
    fault.a = a;
    fault.b = b;
    fault.amps = 0;
    fault.openVolts = 0;
    fault.ohms = a === b && halves !== undefined ? 0 : Number.POSITIVE_INFINITY;
    if (a === b || halves === undefined || this.galvanic.find(a) !== this.galvanic.find(b)) return fault;
    halves.load(this.place[a] as number, this.place[b] as number);
    const ohms = halves.squared();
    if (!(ohms > 0)) return fault;
    fault.ohms = ohms;
    fault.openVolts = halves.timesWhole(this.open);
    fault.amps = fault.openVolts / ohms;
    return fault;
  }

  /** Voltage from p to q while the fault lasts that is looked at. */
  across(p: number, q: number): number {
    const key = p * this.group.nodeCount + q;
    let port = this.ports.get(key);
    if (port === undefined) {
      const { a, b } = this.fault;
      port = this.portOf(p, q);
      this.ports.set(key, port);
      this.look(a, b);
    }
    return this.at(port);
  }

  /** The same of a source or diode, by its place in the states. */
  acrossOwn(place: number): number {
    return this.at(this.own[place] as Port);
  }

  private at({ openVolts, half }: Port): number {
    const { amps } = this.fault;
    return amps === 0 || this.halves === undefined ? openVolts : openVolts - amps * this.halves.times(half);
  }

  /** What is looked at is lost by it. */
  private portOf(p: number, q: number): Port {
    this.fault.a = -1;
    if (this.halves === undefined) return { half: nothing, openVolts: 0 };
    this.halves.load(this.place[p] as number, this.place[q] as number);
    return { half: this.halves.held(), openVolts: this.halves.timesWhole(this.open) };
  }
}

const nothing: Half = { places: new Int32Array(0), values: new Float64Array(0) };

/** What a limited source does at a voltage across it. */
export function limitedState({ volts, ohms, mostAmps }: LimitedSource, now: string, across: number): string {
  const amps = (volts - across) / ohms;
  const slack = 1e-6 * mostAmps + 1e-9;
  if (now === holds) return amps > mostAmps + slack ? limits : amps < -slack ? off : now;
  // One that nothing loads stands far above its voltage while it gives its most: what it does is seen when it holds that.
  if (now === limits) return amps >= mostAmps - slack ? now : holds;
  return amps > slack ? holds : now;
}

/** What a diode does at a voltage across it. */
export function diodeState({ volts, ohms }: Diode, now: string, across: number): string {
  const amps = (across - volts) / ohms;
  return (now === conducts ? amps >= -1e-6 : amps > 1e-6) ? conducts : blocks;
}
