/**
 * Prospective short-circuit currents. The network without a fault is factorised once; what flows when two nodes are joined
 * follows by superposition (Thévenin): I = (Va − Vb) / (Zaa + Zbb − 2 Zab), Z being the inverse of its conductances.
 *
 * Sources that limit their current, and diodes, are put into the state that the fault itself leaves them in; faults that leave
 * them in the same states share one factor. What no conductor or source joins has nothing to do with each other.
 */
import type { Circuit, Diode, Emf, LimitedSource } from './circuit.ts';
import { ConductorIslands } from './conductor-islands.ts';
import { type Half, HalfSolver, kept, product, productWith, squared } from './half-solve.ts';
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

type LimitedState = 'holds' | 'limits' | 'off';

interface States {
  readonly limited: readonly LimitedState[];
  readonly conducting: readonly boolean[];
  readonly key: string;
}

function statesOf(limited: readonly LimitedState[], conducting: readonly boolean[]): States {
  return { limited, conducting, key: `${limited.join()}|${conducting.join()}` };
}

/** A port of a group: what lies between two of its nodes. */
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
  /** The half of the last fault. */
  private half: Half | undefined;
  private halfOf = { a: -1, b: -1 };

  constructor(
    private readonly group: Group,
    { limited, conducting }: States,
  ) {
    const { nodeCount: n, fixed, limited: sources, diodes, references } = group;
    this.galvanic = new UnionFind(n);
    for (const { a, b } of fixed) this.galvanic.join(a, b);
    for (const { a, b } of sources) this.galvanic.join(a, b);
    for (let i = 0; i < diodes.length; i++)
      if (conducting[i]) this.galvanic.join((diodes[i] as Diode).a, (diodes[i] as Diode).b);
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
    const entries = new SymmetricEntries(size, fixed.length + sources.length + diodes.length);
    const rhs = new Float64Array(size);
    const conduct = (a: number, b: number, siemens: number, amps: number) => {
      const [i, j] = [row[a] as number, row[b] as number];
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
    for (let i = 0; i < sources.length; i++) {
      const { a, b, volts, ohms, mostAmps } = sources[i] as LimitedSource & Ends;
      if (limited[i] === 'holds') conduct(a, b, 1 / ohms, volts / ohms);
      else conduct(a, b, 1 / besideOhms, limited[i] === 'limits' ? mostAmps : 0);
    }
    for (let i = 0; i < diodes.length; i++) {
      const { a, b, volts, ohms } = diodes[i] as Diode;
      if (conducting[i]) conduct(a, b, 1 / ohms, volts / ohms);
    }
    const factor = factorise(entries);
    if (factor !== undefined)
      for (let node = 0; node < n; node++)
        if ((row[node] as number) >= 0) row[node] = factor.structure.place[row[node] as number] as number;
    this.place = row;
    this.halves = factor === undefined ? undefined : new HalfSolver(factor);
    this.open =
      this.halves === undefined || factor === undefined ? rhs : this.halves.whole(inOrder(factor.structure, rhs));
  }

  fault(a: number, b: number): Fault {
    const none = (ohms: number): Fault => ({ a, b, amps: 0, openVolts: 0, ohms });
    if (this.halves === undefined || this.galvanic.find(a) !== this.galvanic.find(b))
      return none(Number.POSITIVE_INFINITY);
    if (a === b) return none(0);
    const half = this.halfOfFault(a, b);
    const ohms = squared(half);
    if (!(ohms > 0)) return none(Number.POSITIVE_INFINITY);
    const openVolts = productWith(half, this.open);
    return { a, b, amps: openVolts / ohms, openVolts, ohms };
  }

  /** Voltage from p to q while a fault lasts. */
  across(p: number, q: number, { a, b, amps }: Fault): number {
    const { openVolts, half } = this.port(p, q);
    return amps === 0 ? openVolts : openVolts - amps * product(half, this.halfOfFault(a, b));
  }

  private halfOfFault(a: number, b: number): Half {
    if (this.half === undefined || this.halfOf.a !== a || this.halfOf.b !== b) {
      this.half = this.passing(a, b);
      this.halfOf = { a, b };
    }
    return this.half;
  }

  private port(p: number, q: number): Port {
    const key = p * this.group.nodeCount + q;
    let port = this.ports.get(key);
    if (port === undefined) {
      const half = kept(this.passing(p, q));
      this.half = undefined;
      port = { half, openVolts: productWith(half, this.open) };
      this.ports.set(key, port);
    }
    return port;
  }

  /** Written over by the next. */
  private passing(a: number, b: number): Half {
    return this.halves?.passing(this.place[a] as number, this.place[b] as number) ?? nothing;
  }
}

const nothing: Half = { count: 0, places: new Int32Array(0), values: new Float64Array(0) };

/** A fault in the nodes of its group, and the network with its sources and diodes as the fault leaves them. */
interface Settled {
  readonly fault: Fault;
  readonly network: StateNetwork;
}

/** All faults of a group. */
class GroupFaults {
  private readonly networks = new Map<string, StateNetwork>();
  private readonly start: States;
  private last: Settled | undefined;

  constructor(private readonly group: Group) {
    this.start = statesOf(
      group.limited.map(() => 'limits'),
      group.diodes.map(() => true),
    );
  }

  /** One fault is asked for several times over: how much it is, and what of it flows through each device. */
  settled(a: number, b: number): Settled {
    if (this.last?.fault.a !== a || this.last.fault.b !== b) this.last = this.settle(a, b);
    return this.last;
  }

  private settle(a: number, b: number): Settled {
    let states = this.start;
    const seen: string[] = [];
    for (let round = 0; ; round++) {
      const network = this.networkOf(states);
      const fault = network.fault(a, b);
      const together = this.next(states, network, fault, false);
      if (together === undefined || round >= mostTogether + mostSingly) return { fault, network };
      seen.push(states.key);
      const singly = round >= mostTogether || seen.includes(together.key);
      states = (singly ? this.next(states, network, fault, true) : together) ?? states;
    }
  }

  private networkOf(states: States): StateNetwork {
    let network = this.networks.get(states.key);
    if (network === undefined) {
      network = new StateNetwork(this.group, states);
      this.networks.set(states.key, network);
    }
    return network;
  }

  /** States that the fault calls for, or with `singly` the first of them that it changes; undefined where it changes none. */
  private next(states: States, network: StateNetwork, fault: Fault, singly: boolean): States | undefined {
    const { limited, diodes } = this.group;
    let nextLimited: LimitedState[] | undefined;
    let nextConducting: boolean[] | undefined;
    for (let k = 0; k < limited.length && !(singly && nextLimited !== undefined); k++) {
      const source = limited[k] as LimitedSource & Ends;
      const now = states.limited[k] as LimitedState;
      const next = limitedState(source, now, network.across(source.a, source.b, fault));
      if (next === now) continue;
      nextLimited ??= states.limited.slice();
      nextLimited[k] = next;
    }
    for (let k = 0; k < diodes.length && !(singly && (nextLimited ?? nextConducting) !== undefined); k++) {
      const { a, b, volts, ohms } = diodes[k] as Diode;
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

/** All faults of conductors with sources at them. */
export class FaultNetwork {
  /** Islands that sources join, by the lowest of them. */
  private readonly joined = new Map<number, number>();
  private readonly groups = new Map<number, { readonly group: Group; readonly faults: GroupFaults }>();

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
    const { group, faults } = this.group(root);
    const { amps, openVolts, ohms } = faults.settled(group.node(a), group.node(b)).fault;
    return { a, b, amps, openVolts, ohms };
  }

  /** Current of a resistance of the circuit while a and b are joined, positive from its a to its b; 0 where it has nothing to do with them. */
  through({ a: p, b: q, ohms }: Watched, a: number, b: number): number {
    const root = this.groupOf(a);
    if (root !== this.groupOf(p)) return 0;
    const { group, faults } = this.group(root);
    // A fault to what is apart changes nothing.
    const { fault, network } = faults.settled(group.node(a), root === this.groupOf(b) ? group.node(b) : group.node(a));
    return network.across(group.node(p), group.node(q), fault) / ohms;
  }

  /** The lowest island of those that sources join to that of a node. */
  private groupOf(node: number): number {
    let island = this.conductors.islandOf[node] as number;
    for (let lower = this.joined.get(island); lower !== undefined; lower = this.joined.get(island)) island = lower;
    return island;
  }

  private group(root: number) {
    let known = this.groups.get(root);
    if (known === undefined) {
      const islands = new Set([root]);
      const isHere = ({ plus }: Emf) => this.groupOf(plus) === root;
      const [emfs, limited] = [this.sources.emfs.filter(isHere), this.sources.limited.filter(isHere)];
      for (const { plus, minus } of [...emfs, ...limited])
        for (const end of [plus, minus]) islands.add(this.conductors.islandOf[end] as number);
      const group = new Group(this.conductors, [...islands], emfs, limited);
      known = { group, faults: new GroupFaults(group) };
      this.groups.set(root, known);
    }
    return known;
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
  const network = FaultNetwork.of(circuit);
  return Float64Array.from(pairs, ({ a, b }) => network.at(a, b).amps);
}
