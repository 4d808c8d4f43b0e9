/**
 * Prospective short-circuit currents. The network without a fault is factorised once; what flows when two nodes are joined
 * follows by superposition (Thévenin): I = (Va − Vb) / (Zaa + Zbb − 2 Zab), Z being the inverse of its conductances. The
 * diagonal of Z comes with the factor, a column of it is solved only for each return and each source.
 *
 * Sources that limit their current, and diodes, are put into the state that the fault itself leaves them in; faults that leave
 * them in the same states share one factor.
 */
import type { Circuit, Diode, LimitedSource } from './circuit.ts';
import { inverseDiagonal } from './selected-inverse.ts';
import { type Factor, factorise, SymmetricEntries, solveFactored } from './sparse.ts';
import { UnionFind } from './union-find.ts';

/**
 * Beside a source that gives its greatest current, so that a circuit which only such sources feed has a voltage, in ohm.
 * In a fault it takes some 0.1 mA at most.
 */
const besideOhms = 1e5;
/** States tried for one fault while all that must change do so at once, and then one by one. */
const mostTogether = 12;
const mostSingly = 40;

export interface Fault {
  readonly a: number;
  readonly b: number;
  /** From a to b through the fault; 0 where nothing can drive it. */
  readonly amps: number;
  /** Voltage between a and b before the fault, of the sources as they are in it. */
  readonly openVolts: number;
  /** Thévenin resistance in ohm; Infinity where the two nodes are apart. */
  readonly ohms: number;
}

/** A resistance of the circuit whose current in a fault is asked for. */
export interface Watched {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
}

type LimitedState = 'holds' | 'limits' | 'off';

interface States {
  readonly limited: readonly LimitedState[];
  readonly conducting: readonly boolean[];
  readonly key: string;
}

function statesOf(limited: readonly LimitedState[], conducting: readonly boolean[]): States {
  return { limited, conducting, key: `${limited.join()}|${conducting.join()}` };
}

/** A fault with the rows of its two nodes; -1 is ground. */
interface FaultAt extends Fault {
  readonly i: number;
  readonly j: number;
}

/** Two nodes whose voltage is asked for: what it is without a fault, and the voltages that 1 A between them makes. */
interface Port {
  readonly openVolts: number;
  readonly z: Float64Array;
}

/** A network in one state of its sources and diodes, factorised. */
class StateNetwork {
  private readonly merged: UnionFind;
  private readonly galvanic: UnionFind;
  private readonly index: Int32Array;
  private readonly factor: Factor | undefined;
  private readonly diagonal: Float64Array;
  private readonly open: Float64Array;
  private readonly columns = new Map<number, Float64Array>();
  private readonly ports = new Map<number, Port>();

  constructor(
    private readonly circuit: Circuit,
    { limited, conducting }: States,
  ) {
    const n = circuit.nodeCount;
    this.merged = new UnionFind(n);
    this.galvanic = new UnionFind(n);
    for (const { a, b } of circuit.links) {
      this.merged.join(a, b);
      this.galvanic.join(a, b);
    }
    for (const { a, b } of circuit.resistors) this.galvanic.join(a, b);
    for (const { plus, minus } of circuit.emfs) this.galvanic.join(plus, minus);
    for (const { plus, minus } of circuit.limited) this.galvanic.join(plus, minus);
    circuit.diodes.forEach(({ a, b }, i) => {
      if (conducting[i]) this.galvanic.join(a, b);
    });
    const grounded = new Map<number, number>();
    for (const node of circuit.references) {
      const part = this.galvanic.find(node);
      if (!grounded.has(part)) grounded.set(part, this.merged.find(node));
    }
    this.index = new Int32Array(n).fill(-1);
    let size = 0;
    for (let node = 0; node < n; node++) {
      if (this.merged.find(node) !== node) continue;
      const part = this.galvanic.find(node);
      if (!grounded.has(part)) grounded.set(part, node);
      if (grounded.get(part) !== node) this.index[node] = size++;
    }
    const { resistors, emfs, limited: sources, diodes } = circuit;
    const entries = new SymmetricEntries(size, resistors.length + emfs.length + sources.length + diodes.length);
    const rhs = new Float64Array(size);
    const conduct = (a: number, b: number, siemens: number, ampsIntoA = 0) => {
      const [i, j] = [this.at(a), this.at(b)];
      if (i === j) return;
      if (i >= 0) {
        entries.addDiagonal(i, siemens);
        rhs[i] = (rhs[i] ?? 0) + ampsIntoA;
      }
      if (j >= 0) {
        entries.addDiagonal(j, siemens);
        rhs[j] = (rhs[j] ?? 0) - ampsIntoA;
      }
      if (i >= 0 && j >= 0) entries.addPair(i, j, -siemens);
    };
    for (const { a, b, ohms } of circuit.resistors) conduct(a, b, 1 / ohms);
    for (const { plus, minus, volts, ohms } of circuit.emfs) conduct(plus, minus, 1 / ohms, volts / ohms);
    circuit.limited.forEach(({ plus, minus, volts, ohms, mostAmps }, i) => {
      if (limited[i] === 'holds') conduct(plus, minus, 1 / ohms, volts / ohms);
      else conduct(plus, minus, 1 / besideOhms, limited[i] === 'limits' ? mostAmps : 0);
    });
    circuit.diodes.forEach(({ a, b, volts, ohms }, i) => {
      if (conducting[i]) conduct(a, b, 1 / ohms, volts / ohms);
    });
    this.factor = factorise(entries);
    this.diagonal = this.factor === undefined ? new Float64Array(size) : inverseDiagonal(this.factor);
    this.open = this.factor === undefined ? rhs : solveFactored(this.factor, rhs);
  }

  fault(a: number, b: number): FaultAt {
    const [i, j] = [this.at(a), this.at(b)];
    const none = (ohms: number): FaultAt => ({ a, b, i, j, amps: 0, openVolts: 0, ohms });
    if (this.factor === undefined || this.galvanic.find(a) !== this.galvanic.find(b))
      return none(Number.POSITIVE_INFINITY);
    if (this.merged.find(a) === this.merged.find(b)) return none(0);
    const across = i >= 0 && j >= 0 ? (this.column(j)[i] ?? 0) : 0;
    const ohms = (i < 0 ? 0 : (this.diagonal[i] ?? 0)) + (j < 0 ? 0 : (this.diagonal[j] ?? 0)) - 2 * across;
    if (!(ohms > 0)) return none(Number.POSITIVE_INFINITY);
    const openVolts = this.volts(i) - this.volts(j);
    return { a, b, i, j, amps: openVolts / ohms, openVolts, ohms };
  }

  /** Voltage from p to q while the fault lasts. */
  across(p: number, q: number, { i, j, amps }: FaultAt): number {
    const { openVolts, z } = this.port(p, q);
    return openVolts - amps * ((i < 0 ? 0 : (z[i] ?? 0)) - (j < 0 ? 0 : (z[j] ?? 0)));
  }

  private port(p: number, q: number): Port {
    const key = p * this.circuit.nodeCount + q;
    let port = this.ports.get(key);
    if (port === undefined) {
      const [i, j] = [this.at(p), this.at(q)];
      port = { z: this.solve(i, j), openVolts: this.volts(i) - this.volts(j) };
      this.ports.set(key, port);
    }
    return port;
  }

  private at(node: number): number {
    return this.index[this.merged.find(node)] ?? -1;
  }

  private volts(i: number): number {
    return i < 0 ? 0 : (this.open[i] ?? 0);
  }

  private column(j: number): Float64Array {
    let column = this.columns.get(j);
    if (column === undefined) {
      column = this.solve(j, -1);
      this.columns.set(j, column);
    }
    return column;
  }

  /** Voltages of 1 A into i and out of j; -1 is ground. */
  private solve(i: number, j: number): Float64Array {
    const unit = new Float64Array(this.open.length);
    if (i >= 0) unit[i] = 1;
    if (j >= 0 && j !== i) unit[j] = -1;
    return this.factor === undefined || i === j ? new Float64Array(unit.length) : solveFactored(this.factor, unit);
  }
}

/** A fault, and the network with its sources and diodes as the fault leaves them. */
interface Settled {
  readonly fault: FaultAt;
  readonly network: StateNetwork;
}

/** All faults of one circuit. Its loads (currents, powers) are left out: a short circuit takes the voltage away from them. */
export class FaultNetwork {
  private readonly networks = new Map<string, StateNetwork>();
  private readonly start: States;
  /** What is joined at all, by whatever: a fault does nothing to sources and diodes elsewhere. */
  private readonly joined: UnionFind;
  private last: Settled | undefined;

  constructor(private readonly circuit: Circuit) {
    const { nodeCount, links, resistors, emfs, limited, diodes } = circuit;
    this.start = statesOf(
      limited.map(() => 'limits'),
      diodes.map(() => true),
    );
    this.joined = new UnionFind(nodeCount);
    for (const { a, b } of links) this.joined.join(a, b);
    for (const { a, b } of resistors) this.joined.join(a, b);
    for (const { a, b } of diodes) this.joined.join(a, b);
    for (const { plus, minus } of emfs) this.joined.join(plus, minus);
    for (const { plus, minus } of limited) this.joined.join(plus, minus);
  }

  /** What flows from a to b when they are joined without resistance, in ampere. */
  at(a: number, b: number): Fault {
    return this.settled(a, b).fault;
  }

  /** Current of a resistance of the circuit while a and b are joined, positive from its a to its b; 0 where it has nothing to do with them. */
  through({ a: p, b: q, ohms }: Watched, a: number, b: number): number {
    if (!this.isReached(p, a)) return 0;
    const { fault, network } = this.settled(a, b);
    return network.across(p, q, fault) / ohms;
  }

  /** One fault is asked for several times over: how much it is, and what of it flows through each device. */
  private settled(a: number, b: number): Settled {
    if (this.last?.fault.a !== a || this.last.fault.b !== b) this.last = this.settle(a, b);
    return this.last;
  }

  private settle(a: number, b: number): Settled {
    let states = this.start;
    const seen: string[] = [];
    for (let round = 0; ; round++) {
      const network = this.networkOf(states);
      const fault = network.fault(a, b);
      seen.push(states.key);
      const together = this.next(states, network, fault, false);
      if (together === undefined || round >= mostTogether + mostSingly) return { fault, network };
      const singly = round >= mostTogether || seen.includes(together.key);
      states = (singly ? this.next(states, network, fault, true) : together) ?? states;
    }
  }

  private networkOf(states: States): StateNetwork {
    let network = this.networks.get(states.key);
    if (network === undefined) {
      network = new StateNetwork(this.circuit, states);
      this.networks.set(states.key, network);
    }
    return network;
  }

  private isReached(node: number, faulty: number): boolean {
    return this.joined.find(node) === this.joined.find(faulty);
  }

  /** States that the fault calls for, or with `singly` the first of them that it changes; undefined where it changes none. */
  private next(states: States, network: StateNetwork, fault: FaultAt, singly: boolean): States | undefined {
    const { limited, diodes } = this.circuit;
    let nextLimited: LimitedState[] | undefined;
    let nextConducting: boolean[] | undefined;
    for (let k = 0; k < limited.length && !(singly && nextLimited !== undefined); k++) {
      const source = limited[k] as LimitedSource;
      if (!this.isReached(source.plus, fault.a)) continue;
      const now = states.limited[k] as LimitedState;
      const next = limitedState(source, now, network.across(source.plus, source.minus, fault));
      if (next === now) continue;
      nextLimited ??= states.limited.slice();
      nextLimited[k] = next;
    }
    for (let k = 0; k < diodes.length && !(singly && (nextLimited ?? nextConducting) !== undefined); k++) {
      const { a, b, volts, ohms } = diodes[k] as Diode;
      if (!this.isReached(a, fault.a)) continue;
      const now = states.conducting[k] as boolean;
      const amps = (network.across(a, b, fault) - volts) / ohms;
      if (now === (now ? amps >= -1e-6 : amps > 1e-6)) continue;
      nextConducting ??= states.conducting.slice();
      nextConducting[k] = !now;
    }
    if (nextLimited === undefined && nextConducting === undefined) return undefined;
    return statesOf(nextLimited ?? states.limited, nextConducting ?? states.conducting);
  }
}

/** What a limited source does at a voltage across it. */
function limitedState({ volts, ohms, mostAmps }: LimitedSource, now: LimitedState, across: number): LimitedState {
  const amps = (volts - across) / ohms;
  const slack = 1e-6 * mostAmps + 1e-9;
  if (now === 'holds') return amps > mostAmps + slack ? 'limits' : amps < -slack ? 'off' : now;
  if (now === 'limits') return amps >= mostAmps - slack ? now : amps > 0 ? 'holds' : 'off';
  return amps > slack ? 'holds' : now;
}

/** Prospective current of every pair of nodes, in ampere, in their order. */
export function prospectiveAmps(
  circuit: Circuit,
  pairs: readonly { readonly a: number; readonly b: number }[],
): Float64Array {
  const network = new FaultNetwork(circuit);
  return Float64Array.from(pairs, ({ a, b }) => network.at(a, b).amps);
}
