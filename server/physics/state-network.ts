/**
 * An island with its limited sources and diodes in given states: nodal analysis with a sparse factorisation, Newton's method
 * on constant-power loads from the unloaded state down (which finds the upper-voltage solution), and refinement of what
 * rounding leaves of the current law.
 */
import type { Circuit, Solution } from './circuit.ts';
import { linkCurrents } from './link-currents.ts';
import {
  type Factor,
  inOrder,
  refactor,
  type Structure,
  SymmetricEntries,
  solveInOrder,
  structureOf,
  upperValues,
} from './sparse.ts';
import { UnionFind } from './union-find.ts';

const mostNewtonSteps = 60;
/** The current law is refined to this part of the greatest current, in so many rounds at most. */
const finestBalance = 1e-12;
const mostRefinements = 4;

export type LimitedState = 'holds' | 'limits' | 'off';

/** What limited sources do and which diodes conduct. */
export interface States {
  readonly limited: readonly LimitedState[];
  readonly conducting: readonly boolean[];
}

/** A constant power between two rows of the matrix, and the slot of the pair that joins them (-1 for none). */
interface Draw {
  readonly plus: number;
  readonly minus: number;
  readonly watts: number;
  readonly slot: number;
  /** Index of the power in the circuit. */
  readonly power: number;
}

/** Everything linear of one state, ready for Newton's steps on any share of the powers. */
export class StateNetwork {
  private readonly size: number;
  /** Row of the matrix of each node, in the order of elimination; of what is grounded the number of rows, where volts are 0. */
  private readonly row: Int32Array;
  private readonly diagonal: Float64Array;
  private readonly rhs: Float64Array;
  private readonly draws: readonly Draw[];
  private readonly structure: Structure;
  private readonly upper: Float64Array;
  private readonly currentActive: Uint8Array;
  private readonly powerActive: Uint8Array;
  private readonly limitedActive: Uint8Array;

  constructor(
    private readonly circuit: Circuit,
    private readonly states: States,
  ) {
    const { limited, conducting } = states;
    const n = circuit.nodeCount;
    const merged = new UnionFind(n);
    for (const { a, b } of circuit.links) merged.join(a, b);
    // Galvanic parts: what resistances and sources join. A draw across two parts, or in one without a source, gets nothing.
    const galvanic = new UnionFind(n);
    for (const { a, b } of circuit.links) galvanic.join(a, b);
    for (const { a, b } of circuit.resistors) galvanic.join(a, b);
    for (const { plus, minus } of circuit.emfs) galvanic.join(plus, minus);
    circuit.limited.forEach(({ plus, minus }, i) => {
      if (limited[i] !== 'off') galvanic.join(plus, minus);
    });
    circuit.diodes.forEach(({ a, b }, i) => {
      if (conducting[i]) galvanic.join(a, b);
    });
    const fed = new Uint8Array(n);
    for (const { plus } of circuit.emfs) fed[galvanic.find(plus)] = 1;
    // A source at its limit feeds as well: where nothing else holds a voltage and its loads ask for more, that is a collapse.
    circuit.limited.forEach(({ plus }, i) => {
      if (limited[i] !== 'off') fed[galvanic.find(plus)] = 1;
    });
    const active = ({ plus, minus }: { readonly plus: number; readonly minus: number }) => {
      const part = galvanic.find(plus);
      return part === galvanic.find(minus) && fed[part] === 1 && merged.find(plus) !== merged.find(minus) ? 1 : 0;
    };
    this.currentActive = flags(circuit.currents, active);
    this.powerActive = flags(circuit.powers, (one) => (one.watts > 0 ? active(one) : 0));
    this.limitedActive = flags(circuit.limited, active);

    // One grounded node a galvanic part.
    const grounded = new Int32Array(n).fill(-1);
    for (const node of circuit.references) {
      const part = galvanic.find(node);
      if (grounded[part] === -1) grounded[part] = merged.find(node);
    }
    const row = new Int32Array(n).fill(-1);
    let size = 0;
    for (let node = 0; node < n; node++) {
      if (merged.find(node) !== node) continue;
      const part = galvanic.find(node);
      if (grounded[part] === -1) grounded[part] = node;
      if (grounded[part] !== node) row[node] = size++;
    }
    for (let node = 0; node < n; node++) {
      const own = row[merged.find(node)] as number;
      row[node] = own < 0 ? size : own;
    }
    const base = new SymmetricEntries(size);
    const rhs = new Float64Array(size + 1);
    const conduct = (a: number, b: number, siemens: number) => {
      const [i, j] = [row[a] as number, row[b] as number];
      if (i === j) return;
      if (i < size) base.addDiagonal(i, siemens);
      if (j < size) base.addDiagonal(j, siemens);
      if (i < size && j < size) base.addPair(i, j, -siemens);
    };
    /** Current pushed from node a to node b through an element. */
    const push = (a: number, b: number, amps: number) => {
      const [i, j] = [row[a] as number, row[b] as number];
      rhs[i] = (rhs[i] as number) - amps;
      rhs[j] = (rhs[j] as number) + amps;
    };
    /** A source, or a diode that conducts: its volts from plus to minus behind its resistance. */
    const hold = (plus: number, minus: number, volts: number, ohms: number) => {
      conduct(plus, minus, 1 / ohms);
      push(minus, plus, volts / ohms);
    };
    for (const { a, b, ohms } of circuit.resistors) conduct(a, b, 1 / ohms);
    for (const { plus, minus, volts, ohms } of circuit.emfs) hold(plus, minus, volts, ohms);
    circuit.limited.forEach(({ plus, minus, volts, ohms, mostAmps }, i) => {
      if (limited[i] === 'holds') hold(plus, minus, volts, ohms);
      else if (limited[i] === 'limits' && this.limitedActive[i] === 1) push(minus, plus, mostAmps);
    });
    circuit.diodes.forEach(({ a, b, volts, ohms }, i) => {
      if (conducting[i]) hold(a, b, volts, ohms);
    });
    circuit.currents.forEach(({ plus, minus, amps }, i) => {
      if (this.currentActive[i] === 1) push(plus, minus, amps);
    });
    // Powers couple their two nodes whatever their present conductance: the pattern, and so the structure, stays.
    const pairs = new Int32Array(circuit.powers.length).fill(-1);
    circuit.powers.forEach(({ plus, minus }, i) => {
      const [p, m] = [row[plus] as number, row[minus] as number];
      if (this.powerActive[i] === 1 && p < size && m < size) pairs[i] = base.addPair(p, m, 0);
    });
    const structure = structureOf(base);
    // From here on everything is in the order of elimination: what belongs together lies together.
    const { place, slots } = structure;
    for (let node = 0; node < n; node++) row[node] = place[row[node] as number] ?? size;
    this.size = size;
    this.row = row;
    this.structure = structure;
    this.diagonal = inOrder(structure, base.diagonal);
    this.rhs = inOrder(structure, rhs);
    this.upper = upperValues(structure, base);
    const draws: Draw[] = [];
    circuit.powers.forEach(({ plus, minus, watts }, power) => {
      if (this.powerActive[power] !== 1) return;
      const pair = pairs[power] as number;
      const slot = pair < 0 ? -1 : (slots[pair] as number);
      draws.push({ plus: row[plus] as number, minus: row[minus] as number, watts, slot, power });
    });
    this.draws = draws;
  }

  /** With such shares of each constant power, by its index. */
  solve(shares: (power: number) => number): Solution {
    const { circuit } = this;
    const draws = this.draws.flatMap((draw) => {
      const watts = draw.watts * shares(draw.power);
      return watts > 0 ? { ...draw, watts } : [];
    });
    const found = this.newton(draws);
    if (found === undefined) {
      const nothing = new Float64Array(this.size + 1);
      return this.solution(new Flows(circuit), nothing, 'collapse');
    }
    const flows = this.refined(found.volts, found.factor, draws);
    return this.solution(flows, found.volts, undefined);
  }

  /** Newton's method; undefined when the loads ask more than can be fed. Volts by row, and that of ground. */
  private newton(draws: readonly Draw[]): { volts: Float64Array; factor: Factor } | undefined {
    const { size, rhs, structure, upper } = this;
    let factor = refactor(structure, this.diagonal, upper);
    if (factor === undefined) return undefined;
    let x = new Float64Array(size + 1);
    x.set(rhs);
    solveInOrder(factor, x);
    if (draws.length === 0) return { volts: x, factor };
    // Without a voltage of the right sense there is nothing to draw power from.
    if (!allFed(x, draws)) return undefined;
    let next = new Float64Array(size + 1);
    const diagonal = new Float64Array(size + 1);
    const sloped = new Float64Array(upper.length);
    let previous = Number.POSITIVE_INFINITY;
    for (let step = 0; step < mostNewtonSteps; step++) {
      diagonal.set(this.diagonal);
      sloped.set(upper);
      next.set(rhs);
      for (let i = 0; i < draws.length; i++) {
        const { plus, minus, watts, slot } = draws[i] as Draw;
        const volts = (x[plus] as number) - (x[minus] as number);
        const amps = watts / volts;
        const slope = amps / volts;
        diagonal[plus] = (diagonal[plus] as number) - slope;
        diagonal[minus] = (diagonal[minus] as number) - slope;
        next[plus] = (next[plus] as number) - 2 * amps;
        next[minus] = (next[minus] as number) + 2 * amps;
        if (slot >= 0) sloped[slot] = (sloped[slot] as number) + slope;
      }
      factor = refactor(structure, diagonal, sloped, factor);
      if (factor === undefined) return undefined;
      next[size] = 0;
      solveInOrder(factor, next);
      if (!allFed(next, draws)) return undefined;
      let change = 0;
      let scale = 0;
      for (let i = 0; i < size; i++) {
        const volts = next[i] as number;
        change = Math.max(change, Math.abs(volts - (x[i] as number)));
        scale = Math.max(scale, Math.abs(volts));
      }
      [x, next] = [next, x];
      if (change <= 1e-13 * scale + 1e-15) return { volts: x, factor };
      // Resistances over many decades make much of rounding. Newton's steps are quadratic: small ones that shrink no more are
      // rounding, and no collapse. What they leave of the current law is refined away.
      if (change <= 1e-7 * scale && change > previous / 2) return { volts: x, factor };
      previous = change;
    }
    return undefined;
  }

  /**
   * Currents at volts, which are refined on the way. A volt has so many digits only, and across a small resistance their last
   * is a current that can be told: so volts are kept as a sum of two numbers, the second far below the last digit of the
   * first (iterative refinement with extra precision; J. Demmel and others, ACM Trans. Math. Softw. 32, 2006).
   */
  private refined(volts: Float64Array, factor: Factor, draws: readonly Draw[]): Flows {
    const { size } = this;
    const rest = new Float64Array(size + 1);
    let flows = this.flows(volts, rest, draws);
    let left = this.unbalanced(flows);
    for (let round = 0; round < mostRefinements; round++) {
      const worst = greatest(left);
      if (worst <= finestBalance * flows.largest) break;
      const step = left.slice();
      solveInOrder(factor, step);
      const tried = [Float64Array.from(volts), Float64Array.from(rest)] as const;
      for (let i = 0; i < size; i++) {
        const more = (rest[i] as number) + (step[i] as number);
        const high = (volts[i] as number) + more;
        tried[0][i] = high;
        tried[1][i] = more - (high - (volts[i] as number));
      }
      const next = this.flows(...tried, draws);
      const nextLeft = this.unbalanced(next);
      if (!(greatest(nextLeft) < worst)) break;
      volts.set(tried[0]);
      rest.set(tried[1]);
      flows = next;
      left = nextLeft;
    }
    return flows;
  }

  /** What flows into each row from its elements: by Kirchhoff nought. */
  private unbalanced({ inflow }: Flows): Float64Array {
    const { row } = this;
    const left = new Float64Array(this.size + 1);
    for (let node = 0; node < inflow.length; node++) {
      const i = row[node] as number;
      left[i] = (left[i] as number) + (inflow[node] as number);
    }
    left[this.size] = 0;
    return left;
  }

  /** Currents of all elements but links at volts that are `high` and `low` together. */
  private flows(high: Float64Array, low: Float64Array, draws: readonly Draw[]): Flows {
    const { circuit, row } = this;
    const { limited, conducting } = this.states;
    const flows = new Flows(circuit);
    /** `volts` less those from a to b. */
    const short = (volts: number, a: number, b: number) => {
      const [i, j] = [row[a] as number, row[b] as number];
      const [va, vb] = [high[i] as number, high[j] as number];
      const difference = va - vb;
      const part = difference - va;
      // What rounding took from the difference (O. Møller, D. Knuth: TwoSum).
      const lost = va - (difference - part) - (vb + part);
      return volts - difference - (lost + ((low[i] as number) - (low[j] as number)));
    };
    const { resistors, emfs, currents, powers, diodes } = circuit;
    for (let i = 0; i < resistors.length; i++) {
      const { a, b, ohms } = resistors[i] as Circuit['resistors'][number];
      flows.resistorAmps[i] = flows.flow(a, b, (0 - short(0, a, b)) / ohms);
    }
    emfs.forEach(({ plus, minus, volts, ohms }, i) => {
      flows.emfAmps[i] = flows.flow(minus, plus, short(volts, plus, minus) / ohms);
    });
    circuit.limited.forEach(({ plus, minus, volts, ohms, mostAmps }, i) => {
      if (limited[i] === 'holds') flows.limitedAmps[i] = flows.flow(minus, plus, short(volts, plus, minus) / ohms);
      else if (limited[i] === 'limits' && this.limitedActive[i] === 1)
        flows.limitedAmps[i] = flows.flow(minus, plus, mostAmps);
    });
    currents.forEach(({ plus, minus, amps }, i) => {
      if (this.currentActive[i] === 1) flows.currentAmps[i] = flows.flow(plus, minus, amps);
    });
    for (const { power, watts } of draws) {
      const { plus, minus } = powers[power] as Circuit['powers'][number];
      flows.powerAmps[power] = flows.flow(plus, minus, watts / (0 - short(0, plus, minus)));
    }
    diodes.forEach(({ a, b, volts, ohms }, i) => {
      if (conducting[i]) flows.diodeAmps[i] = flows.flow(a, b, (0 - short(volts, a, b)) / ohms);
    });
    return flows;
  }

  private solution(flows: Flows, volts: Float64Array, trouble: Solution['trouble']): Solution {
    const { circuit, row } = this;
    const nodeVolts = new Float64Array(circuit.nodeCount);
    for (let node = 0; node < nodeVolts.length; node++) nodeVolts[node] = volts[row[node] as number] as number;
    const { inflow, largest, ...amps } = flows;
    const { amps: linkAmps, assumed: linkAssumed } = linkCurrents(circuit.nodeCount, circuit.links, inflow);
    const left = inflow.slice();
    circuit.links.forEach(({ a, b }, i) => {
      left[a] = (left[a] as number) - (linkAmps[i] as number);
      left[b] = (left[b] as number) + (linkAmps[i] as number);
    });
    return {
      converged: trouble === undefined,
      trouble,
      collapses: [],
      volts: nodeVolts,
      ...amps,
      linkAmps,
      linkAssumed,
      // Where next to nothing flows the rounding of volts is all there is.
      residual: greatest(left) / Math.max(1, largest),
    };
  }
}

function flags<T>(all: readonly T[], of: (one: T) => number): Uint8Array {
  const out = new Uint8Array(all.length);
  all.forEach((one, i) => {
    out[i] = of(one);
  });
  return out;
}

/** Whether each load has a voltage of the right sense. */
function allFed(volts: Float64Array, draws: readonly Draw[]): boolean {
  for (let i = 0; i < draws.length; i++) {
    const { plus, minus } = draws[i] as Draw;
    if (!((volts[plus] as number) - (volts[minus] as number) > 0)) return false;
  }
  return true;
}

function greatest(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, Math.abs(values[i] as number));
  return most;
}

/** Currents of the elements of a circuit, what they bring into each node, and the greatest of them. */
class Flows {
  readonly resistorAmps: Float64Array;
  readonly emfAmps: Float64Array;
  readonly limitedAmps: Float64Array;
  readonly currentAmps: Float64Array;
  readonly powerAmps: Float64Array;
  readonly diodeAmps: Float64Array;
  readonly inflow: Float64Array;
  largest = 0;

  constructor({ nodeCount, resistors, emfs, limited, currents, powers, diodes }: Circuit) {
    this.resistorAmps = new Float64Array(resistors.length);
    this.emfAmps = new Float64Array(emfs.length);
    this.limitedAmps = new Float64Array(limited.length);
    this.currentAmps = new Float64Array(currents.length);
    this.powerAmps = new Float64Array(powers.length);
    this.diodeAmps = new Float64Array(diodes.length);
    this.inflow = new Float64Array(nodeCount);
  }

  flow(from: number, to: number, amps: number): number {
    this.inflow[from] = (this.inflow[from] as number) - amps;
    this.inflow[to] = (this.inflow[to] as number) + amps;
    const size = Math.abs(amps);
    if (size > this.largest) this.largest = size;
    return amps;
  }
}
