/**
 * Prospective short-circuit currents. The network without a fault is factorised once; what flows when two nodes are joined
 * follows by superposition (Thévenin): I = (Va − Vb) / (Zaa + Zbb − 2 Zab), Z being the inverse of its conductances.
 *
 * Sources that limit their current, and diodes, are put into the state that the fault itself leaves them in; faults that leave
 * them in the same states share one factor. What no conductor or source joins has nothing to do with each other.
 */
import type { Circuit, Diode, Emf } from './circuit.ts';
import { type ConductorIslands, conductorIslandsOf } from './conductor-islands.ts';
import { FaultGroup } from './fault-group.ts';
import {
  conducts,
  diodeState,
  type FaultFlow,
  FaultStates,
  limitedState,
  limits,
  type States,
} from './fault-states.ts';
import { type Flat, flattened } from './topology.ts';

/** States tried for one fault while all that must change do so at once, and then one by one. */
const mostTogether = 12;
const mostSingly = 40;

/** The fault that joins two nodes; its current counts from a to b. */
export interface Fault extends FaultFlow {
  readonly a: number;
  readonly b: number;
}

/** A resistance of the circuit whose current in a fault is asked for. */
export interface Watched {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
}

/** Loads (currents, powers) have no part in it: a short circuit takes the voltage away from them. */
export type FaultSources = Pick<Circuit, 'emfs' | 'limited'>;

/** All faults of a group. */
class GroupFaults {
  private readonly networks = new Map<States, FaultStates>();
  private readonly start: States;
  private a = -1;
  private b = -1;
  private last: FaultStates | undefined;

  constructor(private readonly group: FaultGroup) {
    this.start = limits.repeat(group.limited.length) + conducts.repeat(group.diodes.length);
  }

  /** Of a node of the whole that is in the group. */
  node(whole: number): number {
    return this.group.node(whole);
  }

  /** The network with its sources and diodes as a fault leaves them, looking at it. */
  settled(a: number, b: number): FaultStates {
    // One fault is asked for several times over: how much it is, and what of it flows through each device.
    if (this.last === undefined || this.a !== a || this.b !== b) this.last = this.settle(a, b);
    this.a = a;
    this.b = b;
    return this.last;
  }

  private settle(a: number, b: number): FaultStates {
    let states = this.start;
    let seen: States[] | undefined;
    for (let round = 0; ; round++) {
      const network = this.networkOf(states);
      network.look(a, b);
      const together = this.next(states, network, false);
      if (together === states || round >= mostTogether + mostSingly) return network;
      seen ??= [];
      seen.push(states);
      const singly = round >= mostTogether || seen.includes(together);
      states = singly ? this.next(states, network, true) : together;
    }
  }

  private networkOf(states: States): FaultStates {
    let network = this.networks.get(states);
    if (network === undefined) {
      network = new FaultStates(this.group, states);
      this.networks.set(states, network);
    }
    return network;
  }

  /** States that the fault calls for, or with `singly` the first of them that it changes. */
  private next(states: States, network: FaultStates, singly: boolean): States {
    const { limited, diodes } = this.group;
    let next = states;
    for (let k = 0; k < states.length && !(singly && next !== states); k++) {
      const now = states[k] as string;
      const source = limited[k];
      const called =
        source === undefined
          ? diodeState(diodes[k - limited.length] as Diode, now, network.acrossOwn(k))
          : limitedState(source, now, network.acrossOwn(k));
      if (called !== now) next = next.slice(0, k) + called + next.slice(k + 1);
    }
    return next;
  }
}

/** All faults of conductors with sources at them. */
export class FaultNetwork {
  /** Islands that sources join, by the lowest of them. */
  private readonly joined = new Map<number, number>();
  private readonly groups = new Map<number, GroupFaults>();
  private readonly islands: ConductorIslands;

  /** Of `conductors` its sources and loads do not count. */
  constructor(
    private readonly sources: FaultSources,
    private readonly conductors: Flat,
  ) {
    this.islands = conductorIslandsOf(conductors.topology);
    for (const { plus, minus } of [...sources.emfs, ...sources.limited]) {
      const one = this.groupOf(plus);
      const other = this.groupOf(minus);
      if (one !== other) this.joined.set(Math.max(one, other), Math.min(one, other));
    }
  }

  static of(circuit: Circuit): FaultNetwork {
    return new FaultNetwork(circuit, flattened(circuit));
  }

  /** What flows from a to b when they are joined without resistance, in ampere. */
  at(a: number, b: number): Fault {
    const root = this.groupOf(a);
    if (root !== this.groupOf(b)) return { a, b, amps: 0, openVolts: 0, ohms: Number.POSITIVE_INFINITY };
    const faults = this.faultsOf(root);
    const { amps, openVolts, ohms } = faults
      .settled(faults.node(a), faults.node(b))
      .look(faults.node(a), faults.node(b));
    return { a, b, amps, openVolts, ohms };
  }

  /** Current of a resistance of the circuit while a and b are joined, positive from its a to its b; 0 where it has nothing to do with them. */
  through({ a: p, b: q, ohms }: Watched, a: number, b: number): number {
    const root = this.groupOf(a);
    if (root !== this.groupOf(p)) return 0;
    const faults = this.faultsOf(root);
    // A fault to what is apart changes nothing.
    const network = faults.settled(faults.node(a), faults.node(root === this.groupOf(b) ? b : a));
    return network.across(faults.node(p), faults.node(q)) / ohms;
  }

  /** The lowest island of those that sources join to that of a node. */
  private groupOf(node: number): number {
    let island = this.islands.islandOf[node] as number;
    for (let lower = this.joined.get(island); lower !== undefined; lower = this.joined.get(island)) island = lower;
    return island;
  }

  private faultsOf(root: number): GroupFaults {
    let known = this.groups.get(root);
    if (known === undefined) {
      const islands = new Set([root]);
      const isHere = ({ plus }: Emf) => this.groupOf(plus) === root;
      const emfs = this.sources.emfs.filter(isHere);
      const limited = this.sources.limited.filter(isHere);
      for (const { plus, minus } of [...emfs, ...limited])
        for (const end of [plus, minus]) islands.add(this.islands.islandOf[end] as number);
      known = new GroupFaults(new FaultGroup(this.conductors, [...islands], emfs, limited));
      this.groups.set(root, known);
    }
    return known;
  }
}

/** Prospective current of every pair of nodes, in ampere, in their order. */
export function prospectiveAmps(
  circuit: Circuit,
  pairs: readonly { readonly a: number; readonly b: number }[],
): Float64Array {
  const network = FaultNetwork.of(circuit);
  return Float64Array.from(pairs, ({ a, b }) => network.at(a, b).amps);
}
