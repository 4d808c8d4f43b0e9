/**
 * Prospective short-circuit currents. The network without a fault is factorised once; what flows when two nodes are joined
 * follows by superposition (Thévenin): I = (Va − Vb) / (Zaa + Zbb − 2 Zab), Z being the inverse of its conductances.
 *
 * Sources that limit their current, and diodes, are put into the state that the fault itself leaves them in; faults that leave
 * them in the same states share one factor. What no conductor or source joins has nothing to do with each other.
 */
import type { Circuit, Diode, Emf, LimitedSource } from './circuit.ts';
import { ConductorIslands } from './conductor-islands.ts';
import { type Half, HalfSolver } from './half-solve.ts';
import { factorise, inOrder, SymmetricEntries } from './sparse.ts';
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

/** Loads (currents, powers) have no part in it: a short circuit takes the voltage away from them. */
export type FaultSources = Pick<Circuit, 'emfs' | 'limited'>;

/** One letter a source that limits its current, then one a diode. */
type States = string;
const [holds, limits, off] = ['h', 'l', 'o'] as const;
const [conducts, blocks] = ['c', 'b'] as const;

/** Two nodes of a group. */
interface Ends {
  readonly a: number;
  readonly b: number;
}

interface Conductance extends Ends {
  readonly siemens: number;
  /** Pushed into a and out of b. */
  readonly amps: number;
}

/** Conductors that hang together, with the sources at them; in nodes of its own, those that links join being one. */
class Group {
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
        const { a, b, ohms } = circuit.resistors[i] as Watched;
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

/** Between two nodes: what the voltage is without a fault, and what 1 A between them does. */
interface Port {
  readonly openVolts: number;
  readonly half: Half;
}

/** A group in one state of its sources and diodes, factorised. */
class StateNetwork {
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
    private readonly group: Group,
    states: States,
  ) {
    const { nodeCount: n, fixed, limited, diodes, references } = group;
    const isConducting = (diode: number) => states[limited.length + diode] === conducts;
    this.galvanic = new UnionFind(n);
    for (const { a, b } of fixed) this.galvanic.join(a, b);
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
    const entries = new SymmetricEntries(size, fixed.length + limited.length + diodes.length);
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
    for (const { a, b, siemens, amps } of fixed) conduct(a, b, siemens, amps);
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
  look(a: number, b: number): Omit<Fault, 'a' | 'b'> {
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

/** All faults of a group. */
class GroupFaults {
  private readonly networks = new Map<States, StateNetwork>();
  private readonly start: States;
  private a = -1;
  private b = -1;
  private last: StateNetwork | undefined;

  constructor(private readonly group: Group) {
    this.start = limits.repeat(group.limited.length) + conducts.repeat(group.diodes.length);
  }

  /** Of a node of the whole that is in the group. */
  node(whole: number): number {
    return this.group.node(whole);
  }

  /** The network with its sources and diodes as a fault leaves them, looking at it. */
  settled(a: number, b: number): StateNetwork {
    // One fault is asked for several times over: how much it is, and what of it flows through each device.
    if (this.last === undefined || this.a !== a || this.b !== b) this.last = this.settle(a, b);
    this.a = a;
    this.b = b;
    return this.last;
  }

  private settle(a: number, b: number): StateNetwork {
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

  private networkOf(states: States): StateNetwork {
    let network = this.networks.get(states);
    if (network === undefined) {
      network = new StateNetwork(this.group, states);
      this.networks.set(states, network);
    }
    return network;
  }

  /** States that the fault calls for, or with `singly` the first of them that it changes. */
  private next(states: States, network: StateNetwork, singly: boolean): States {
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

  constructor(
    private readonly sources: FaultSources,
    private readonly conductors: ConductorIslands,
  ) {
    for (const { plus, minus } of [...sources.emfs, ...sources.limited]) {
      const [one, other] = [this.groupOf(plus), this.groupOf(minus)];
      if (one !== other) this.joined.set(Math.max(one, other), Math.min(one, other));
    }
  }

  static of(circuit: Circuit): FaultNetwork {
    return new FaultNetwork(circuit, new ConductorIslands(circuit));
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
    let island = this.conductors.islandOf[node] as number;
    for (let lower = this.joined.get(island); lower !== undefined; lower = this.joined.get(island)) island = lower;
    return island;
  }

  private faultsOf(root: number): GroupFaults {
    let known = this.groups.get(root);
    if (known === undefined) {
      const islands = new Set([root]);
      const isHere = ({ plus }: Emf) => this.groupOf(plus) === root;
      const [emfs, limited] = [this.sources.emfs.filter(isHere), this.sources.limited.filter(isHere)];
      for (const { plus, minus } of [...emfs, ...limited])
        for (const end of [plus, minus]) islands.add(this.conductors.islandOf[end] as number);
      known = new GroupFaults(new Group(this.conductors, [...islands], emfs, limited));
      this.groups.set(root, known);
    }
    return known;
  }
}

/** What a limited source does at a voltage across it. */
function limitedState({ volts, ohms, mostAmps }: LimitedSource, now: string, across: number): string {
  const amps = (volts - across) / ohms;
  const slack = 1e-6 * mostAmps + 1e-9;
  if (now === holds) return amps > mostAmps + slack ? limits : amps < -slack ? off : now;
  if (now === limits) return amps >= mostAmps - slack ? now : amps > 0 ? holds : off;
  return amps > slack ? holds : now;
}

function diodeState({ volts, ohms }: Diode, now: string, across: number): string {
  const amps = (across - volts) / ohms;
  return (now === conducts ? amps >= -1e-6 : amps > 1e-6) ? conducts : blocks;
}

/** Prospective current of every pair of nodes, in ampere, in their order. */
export function prospectiveAmps(
  circuit: Circuit,
  pairs: readonly { readonly a: number; readonly b: number }[],
): Float64Array {
  const network = FaultNetwork.of(circuit);
  return Float64Array.from(pairs, ({ a, b }) => network.at(a, b).amps);
}
