/**
 * Prospective short-circuit currents. The network without a fault is factorised once; what flows when two nodes are joined
 * follows by superposition (Thévenin): I = (Va − Vb) / (Zaa + Zbb − 2 Zab), Z being the inverse of its conductances. The
 * diagonal of Z comes with the factor, a column of it is solved only for each return and each source.
 *
 * Sources that limit their current, and diodes, are put into the state that the fault itself leaves them in; faults that leave
 * them in the same states share one factor.
 */
import type { Circuit } from './circuit.ts';
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
}

interface PortColumn {
  readonly z: Float64Array;
  readonly open: number;
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
  private readonly ports = new Map<string, PortColumn>();

  constructor(circuit: Circuit, { limited, conducting }: States) {
    const n = circuit.nodeCount;
    this.merged = new UnionFind(n);
    this.galvanic = new UnionFind(n);
    for (const { a, b } of circuit.links) {
      this.merged.join(a, b);
      this.galvanic.join(a, b);
    }
    for (const { a, b } of circuit.resistors) this.galvanic.join(a, b);
    for (const { plus, minus } of [...circuit.emfs, ...circuit.limited]) this.galvanic.join(plus, minus);
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
    const entries = new SymmetricEntries(size);
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

  fault(a: number, b: number): Fault {
    const none: Fault = { a, b, amps: 0, openVolts: 0, ohms: Number.POSITIVE_INFINITY };
    const [i, j] = [this.at(a), this.at(b)];
    if (this.factor === undefined || this.galvanic.find(a) !== this.galvanic.find(b)) return none;
    if (this.merged.find(a) === this.merged.find(b)) return { ...none, ohms: 0 };
    const across = i >= 0 && j >= 0 ? (this.column(j)[i] ?? 0) : 0;
    const ohms = (i < 0 ? 0 : (this.diagonal[i] ?? 0)) + (j < 0 ? 0 : (this.diagonal[j] ?? 0)) - 2 * across;
    if (!(ohms > 0)) return none;
    const openVolts = this.volts(i) - this.volts(j);
    return { a, b, amps: openVolts / ohms, openVolts, ohms };
  }

  /** Voltage from p to q while the fault lasts. */
  across(p: number, q: number, { a, b, amps }: Fault): number {
    const key = `${p} ${q}`;
    let port = this.ports.get(key);
    if (port === undefined) {
      const [i, j] = [this.at(p), this.at(q)];
      port = { z: this.solve(i, j), open: this.volts(i) - this.volts(j) };
      this.ports.set(key, port);
    }
    const [i, j] = [this.at(a), this.at(b)];
    return port.open - amps * ((i < 0 ? 0 : (port.z[i] ?? 0)) - (j < 0 ? 0 : (port.z[j] ?? 0)));
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

/** All faults of one circuit. Its loads (currents, powers) are left out: a short circuit takes the voltage away from them. */
export class FaultNetwork {
  private readonly states = new Map<string, StateNetwork>();

  constructor(private readonly circuit: Circuit) {}

  /** What flows from a to b when they are joined without resistance, in ampere. */
  at(a: number, b: number): Fault {
    return this.settled(a, b).fault;
  }

  /** Current of a resistance of the circuit while a and b are joined, positive from its a to its b. */
  through({ a: p, b: q, ohms }: Watched, a: number, b: number): number {
    const { fault, network } = this.settled(a, b);
    return network.across(p, q, fault) / ohms;
  }

  private settled(a: number, b: number): { fault: Fault; network: StateNetwork } {
    let states: States = {
      limited: this.circuit.limited.map(() => 'limits'),
      conducting: this.circuit.diodes.map(() => true),
    };
    const seen = new Set<string>();
    for (let round = 0; ; round++) {
      const network = this.networkOf(states);
      const fault = network.fault(a, b);
      seen.add(keyOf(states));
      const together = this.next(states, network, fault, false);
      if (together === undefined || round >= mostTogether + mostSingly) return { fault, network };
      const singly = round >= mostTogether || seen.has(keyOf(together));
      states = (singly ? this.next(states, network, fault, true) : together) ?? states;
    }
  }

  private networkOf(states: States): StateNetwork {
    const key = keyOf(states);
    let network = this.states.get(key);
    if (network === undefined) {
      network = new StateNetwork(this.circuit, states);
      this.states.set(key, network);
    }
    return network;
  }

  /** States that the fault calls for; undefined when they are those it was reckoned with. */
  private next(states: States, network: StateNetwork, fault: Fault, singly: boolean): States | undefined {
    let changed = false;
    const choose = <T>(now: T, next: T): T => {
      if (now === next || (singly && changed)) return now;
      changed = true;
      return next;
    };
    const limited = this.circuit.limited.map(({ plus, minus, volts, ohms, mostAmps }, i) => {
      const now = states.limited[i] ?? 'limits';
      const amps = (volts - network.across(plus, minus, fault)) / ohms;
      const slack = 1e-6 * mostAmps + 1e-9;
      if (now === 'holds') return choose(now, amps > mostAmps + slack ? 'limits' : amps < -slack ? 'off' : now);
      if (now === 'limits') return choose(now, amps >= mostAmps - slack ? now : amps > 0 ? 'holds' : 'off');
      return choose(now, amps > slack ? 'holds' : now);
    });
    const conducting = this.circuit.diodes.map(({ a, b, volts, ohms }, i) => {
      const now = states.conducting[i] ?? true;
      const amps = (network.across(a, b, fault) - volts) / ohms;
      return choose(now, now ? amps >= -1e-6 : amps > 1e-6);
    });
    return changed ? { limited, conducting } : undefined;
  }
}

function keyOf({ limited, conducting }: States): string {
  return `${limited.join()}|${conducting.join()}`;
}

/** Prospective current of every pair of nodes, in ampere, in their order. */
export function prospectiveAmps(
  circuit: Circuit,
  pairs: readonly { readonly a: number; readonly b: number }[],
): Float64Array {
  const network = new FaultNetwork(circuit);
  return Float64Array.from(pairs, ({ a, b }) => network.at(a, b).amps);
}
