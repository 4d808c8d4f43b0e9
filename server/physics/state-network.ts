/**
 * An island with its limited sources and diodes in given states: nodal analysis with a sparse factorisation, Newton's method
 * on constant-power loads from the unloaded state down (which finds the upper-voltage solution), and refinement of what
 * rounding leaves of the current law. Made once for a topology, and used for any figures; all that it works in is its own.
 */
import { Flows, greatest, short } from './flows.ts';
import { LinkNetwork } from './link-currents.ts';
import { type Factor, newFactor, refactor, solveInOrder } from './sparse.ts';
import { type StateRows, type States, stateRows } from './state-rows.ts';
import type { Topology } from './topology.ts';

const mostNewtonSteps = 60;
/** The current law is refined to this part of the greatest current, in so many rounds at most. */
const finestBalance = 1e-12;
const mostRefinements = 4;

/** Volts by node, and amps by element: of a conductor from its first node to its second, of a source out of its plus. */
export interface Found {
  readonly converged: boolean;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  readonly linkAssumed: readonly boolean[];
  readonly residual: number;
}

/** Part of the constant power of each load, by its index. */
export type Shares = (power: number) => number;

const networks = new WeakMap<Topology, Map<string, StateNetwork>>();
/** A search that goes through many states is no reason to keep them all. */
const mostStates = 12;

export function networkIn(topology: Topology, states: States, key: string): StateNetwork {
  let known = networks.get(topology);
  if (known === undefined) {
    known = new Map();
    networks.set(topology, known);
  }
  let network = known.get(key);
  if (network === undefined) {
    if (known.size >= mostStates) known.clear();
    network = new StateNetwork(topology, states);
    known.set(key, network);
  }
  return network;
}

const linkNetworks = new WeakMap<Topology, LinkNetwork>();

function linksOf(topology: Topology): LinkNetwork {
  let links = linkNetworks.get(topology);
  if (links === undefined) {
    const { nodeCount, ends, first, counts } = topology;
    links = new LinkNetwork(nodeCount, ends.subarray(2 * first.links, 2 * (first.links + counts.links)));
    linkNetworks.set(topology, links);
  }
  return links;
}

export class StateNetwork {
  private readonly rows: StateRows;
  private readonly links: LinkNetwork;
  private readonly factor: Factor;
  // The linear part, and that with the slope of the loads; the last row is the ground's.
  private readonly diagonal: Float64Array;
  private readonly upper: Float64Array;
  private readonly rhs: Float64Array;
  private readonly slopedDiagonal: Float64Array;
  private readonly slopedUpper: Float64Array;
  private volts: Float64Array;
  private next: Float64Array;
  // Volts are kept as a sum of two numbers (see `refine`).
  private rest: Float64Array;
  private nextRest: Float64Array;
  private left: Float64Array;
  private step: Float64Array;
  private flows: Flows;
  private nextFlows: Flows;
  /** Powers that draw now: how many, their elements, and watts. */
  private drawing = 0;
  private readonly draws: Int32Array;
  private readonly watts: Float64Array;
  private figures: Float64Array = new Float64Array(0);

  constructor(
    private readonly topology: Topology,
    private readonly states: States,
  ) {
    this.rows = stateRows(topology, states);
    this.links = linksOf(topology);
    const { size, structure } = this.rows;
    const row = () => new Float64Array(size + 1);
    this.factor = newFactor(structure);
    this.diagonal = row();
    this.rhs = row();
    this.upper = new Float64Array(structure.upperRows.length);
    this.slopedDiagonal = row();
    this.slopedUpper = new Float64Array(this.upper.length);
    [this.volts, this.next, this.rest, this.nextRest] = [row(), row(), row(), row()];
    [this.left, this.step] = [row(), row()];
    this.flows = new Flows(topology);
    this.nextFlows = new Flows(topology);
    this.draws = new Int32Array(topology.counts.powers);
    this.watts = new Float64Array(topology.counts.powers);
  }

  /** With such shares of each constant power. */
  solve(figures: Float64Array, shares: Shares): Found {
    this.figures = figures;
    this.load(shares);
    const converged = this.newton();
    if (converged) this.refine();
    else {
      this.volts.fill(0);
      this.flows.clear();
    }
    return this.found(converged);
  }

  /** Figures into the matrix. */
  private load(shares: Shares): void {
    const { topology, states, rhs, figures } = this;
    const { active } = this.rows;
    const { first, at, counts } = topology;
    this.diagonal.fill(0);
    this.upper.fill(0);
    rhs.fill(0);
    for (let i = 0; i < counts.resistors; i++)
      this.conduct(first.resistors + i, 1 / (figures[at.resistors + i] as number));
    for (let i = 0; i < counts.emfs; i++) this.hold(first.emfs + i, at.emfs + i, counts.emfs);
    for (let i = 0; i < counts.limited; i++) {
      const k = first.limited + i;
      if (states.limited[i] === 'holds') this.hold(k, at.limited + i, counts.limited);
      else if (states.limited[i] === 'limits' && active[k] === 1)
        this.push(k, -(figures[at.limited + 2 * counts.limited + i] as number));
    }
    // A diode that conducts loses its volts from its first node to its second, as a source does from plus to minus.
    for (let i = 0; i < counts.diodes; i++)
      if (states.conducting[i] === true) this.hold(first.diodes + i, at.diodes + i, counts.diodes);
    for (let i = 0; i < counts.currents; i++)
      if (active[first.currents + i] === 1) this.push(first.currents + i, figures[at.currents + i] as number);
    this.drawing = 0;
    for (let i = 0; i < counts.powers; i++) {
      if (active[first.powers + i] !== 1) continue;
      const watts = (figures[at.powers + i] as number) * shares(i);
      if (!(watts > 0)) continue;
      this.draws[this.drawing] = first.powers + i;
      this.watts[this.drawing] = watts;
      this.drawing += 1;
    }
  }

  private conduct(element: number, siemens: number): void {
    const { ends, slots } = this.rows;
    const { diagonal, upper } = this;
    const i = ends[2 * element] as number;
    const j = ends[2 * element + 1] as number;
    if (i === j) return;
    diagonal[i] = (diagonal[i] as number) + siemens;
    diagonal[j] = (diagonal[j] as number) + siemens;
    const slot = slots[element] as number;
    if (slot >= 0) upper[slot] = -siemens;
  }

  /** Current through an element, in at its first end and out at its second. */
  private push(element: number, amps: number): void {
    const { ends } = this.rows;
    const { rhs } = this;
    const i = ends[2 * element] as number;
    const j = ends[2 * element + 1] as number;
    rhs[i] = (rhs[i] as number) - amps;
    rhs[j] = (rhs[j] as number) + amps;
  }

  /** Volts behind a resistance; `at` is where its volts are, and `ohms` so much further on. */
  private hold(element: number, at: number, ohms: number): void {
    const volts = this.figures[at] as number;
    const behind = this.figures[at + ohms] as number;
    this.conduct(element, 1 / behind);
    this.push(element, -volts / behind);
  }

  /** Newton's method; false when the loads ask more than can be fed. */
  private newton(): boolean {
    const { factor, rhs, diagonal, upper, slopedDiagonal, slopedUpper, draws, watts, drawing } = this;
    const { size, structure, ends, slots } = this.rows;
    if (refactor(structure, diagonal, upper, factor) === undefined) return false;
    this.volts.set(rhs);
    this.volts[size] = 0;
    solveInOrder(factor, this.volts);
    if (drawing === 0) return true;
    // Without a voltage of the right sense there is nothing to draw power from.
    if (!this.allFed()) return false;
    let previous = Number.POSITIVE_INFINITY;
    for (let step = 0; step < mostNewtonSteps; step++) {
      const x = this.volts;
      const next = this.next;
      slopedDiagonal.set(diagonal);
      slopedUpper.set(upper);
      next.set(rhs);
      for (let i = 0; i < drawing; i++) {
        const k = draws[i] as number;
        const plus = ends[2 * k] as number;
        const minus = ends[2 * k + 1] as number;
        const volts = (x[plus] as number) - (x[minus] as number);
        const amps = (watts[i] as number) / volts;
        const slope = amps / volts;
        slopedDiagonal[plus] = (slopedDiagonal[plus] as number) - slope;
        slopedDiagonal[minus] = (slopedDiagonal[minus] as number) - slope;
        next[plus] = (next[plus] as number) - 2 * amps;
        next[minus] = (next[minus] as number) + 2 * amps;
        const slot = slots[k] as number;
        if (slot >= 0) slopedUpper[slot] = (slopedUpper[slot] as number) + slope;
      }
      if (refactor(structure, slopedDiagonal, slopedUpper, factor) === undefined) return false;
      next[size] = 0;
      solveInOrder(factor, next);
      [this.volts, this.next] = [next, x];
      if (!this.allFed()) return false;
      let change = 0;
      let scale = 0;
      for (let i = 0; i < size; i++) {
        const volts = next[i] as number;
        change = Math.max(change, Math.abs(volts - (x[i] as number)));
        scale = Math.max(scale, Math.abs(volts));
      }
      if (change <= 1e-13 * scale + 1e-15) return true;
      // Resistances over many decades make much of rounding. Newton's steps are quadratic: small ones that shrink no more are
      // rounding, and no collapse. What they leave of the current law is refined away.
      if (change <= 1e-7 * scale && change > previous / 2) return true;
      previous = change;
    }
    return false;
  }

  /** Whether each load has a voltage of the right sense. */
  private allFed(): boolean {
    const { volts, draws, drawing } = this;
    const { ends } = this.rows;
    for (let i = 0; i < drawing; i++) {
      const k = draws[i] as number;
      if (!((volts[ends[2 * k] as number] as number) - (volts[ends[2 * k + 1] as number] as number) > 0)) return false;
    }
    return true;
  }

  /**
   * Currents at volts, which are refined on the way. A volt has so many digits only, and across a small resistance their last
   * is a current that can be told: so volts are kept as a sum of two numbers, the second far below the last digit of the
   * first (iterative refinement with extra precision; J. Demmel and others, ACM Trans. Math. Softw. 32, 2006).
   */
  private refine(): void {
    const { size } = this.rows;
    this.rest.fill(0);
    this.flow(this.flows, this.volts, this.rest);
    let worst = this.unbalanced(this.flows, this.left);
    for (let round = 0; round < mostRefinements && worst > finestBalance * greatest(this.flows.amps); round++) {
      const { volts, rest, next, nextRest, left, step } = this;
      step.set(left);
      solveInOrder(this.factor, step);
      for (let i = 0; i < size; i++) {
        const more = (rest[i] as number) + (step[i] as number);
        const high = (volts[i] as number) + more;
        next[i] = high;
        nextRest[i] = more - (high - (volts[i] as number));
      }
      next[size] = 0;
      nextRest[size] = 0;
      this.flow(this.nextFlows, next, nextRest);
      const nextWorst = this.unbalanced(this.nextFlows, step);
      if (!(nextWorst < worst)) break;
      worst = nextWorst;
      [this.volts, this.next] = [next, volts];
      [this.rest, this.nextRest] = [nextRest, rest];
      [this.left, this.step] = [step, left];
      [this.flows, this.nextFlows] = [this.nextFlows, this.flows];
    }
  }

  /** What flows into each row from its elements, by Kirchhoff nought; the greatest. */
  private unbalanced({ inflow }: Flows, left: Float64Array): number {
    const { row, size } = this.rows;
    left.fill(0);
    for (let node = 0; node < inflow.length; node++) {
      const i = row[node] as number;
      left[i] = (left[i] as number) + (inflow[node] as number);
    }
    left[size] = 0;
    return greatest(left);
  }

  /** Currents of all elements but links at volts that are `high` and `low` together. */
  private flow(flows: Flows, high: Float64Array, low: Float64Array): void {
    const { topology, states, figures } = this;
    const { ends, active } = this.rows;
    const { first, at, counts } = topology;
    flows.clear();
    this.flowInResistors(flows, high, low);
    for (let i = 0; i < counts.emfs; i++) this.held(flows, first.emfs + i, at.emfs + i, counts.emfs, high, low);
    for (let i = 0; i < counts.limited; i++) {
      const k = first.limited + i;
      if (states.limited[i] === 'holds') this.held(flows, k, at.limited + i, counts.limited, high, low);
      else if (states.limited[i] === 'limits' && active[k] === 1)
        flows.outOf(k, figures[at.limited + 2 * counts.limited + i] as number);
    }
    for (let i = 0; i < counts.currents; i++)
      if (active[first.currents + i] === 1) flows.through(first.currents + i, figures[at.currents + i] as number);
    for (let i = 0; i < this.drawing; i++) {
      const k = this.draws[i] as number;
      flows.through(k, (this.watts[i] as number) / (0 - short(0, k, ends, high, low)));
    }
    for (let i = 0; i < counts.diodes; i++) {
      if (states.conducting[i] !== true) continue;
      const k = first.diodes + i;
      const over = 0 - short(figures[at.diodes + i] as number, k, ends, high, low);
      flows.through(k, over / (figures[at.diodes + counts.diodes + i] as number));
    }
  }

  /** Most of what there is: by itself, so that it is one short loop. */
  private flowInResistors({ amps, inflow }: Flows, high: Float64Array, low: Float64Array): void {
    const { figures } = this;
    const { ends: nodes, counts } = this.topology;
    const { ends } = this.rows;
    // The first of all elements, and theirs the first of all figures.
    for (let k = 0; k < counts.resistors; k++) {
      const current = (0 - short(0, k, ends, high, low)) / (figures[k] as number);
      const a = nodes[2 * k] as number;
      const b = nodes[2 * k + 1] as number;
      amps[k] = current;
      inflow[a] = (inflow[a] as number) - current;
      inflow[b] = (inflow[b] as number) + current;
    }
  }

  /** A source by its volts behind a resistance, as in `hold`. */
  private held(flows: Flows, element: number, at: number, ohms: number, high: Float64Array, low: Float64Array): void {
    const { figures } = this;
    const left = short(figures[at] as number, element, this.rows.ends, high, low);
    flows.outOf(element, left / (figures[at + ohms] as number));
  }

  private found(converged: boolean): Found {
    const { topology, rows, links } = this;
    const { amps: all, inflow } = this.flows;
    const largest = greatest(all);
    const { first, counts, ends, nodeCount } = topology;
    // In one piece, which costs less than two.
    const told = new Float64Array(nodeCount + all.length);
    const volts = told.subarray(0, nodeCount);
    for (let node = 0; node < nodeCount; node++) volts[node] = this.volts[rows.row[node] as number] as number;
    if (counts.links > 0) {
      links.currents(inflow, all, first.links);
      for (let k = first.links; k < first.links + counts.links; k++) {
        const a = ends[2 * k] as number;
        const b = ends[2 * k + 1] as number;
        inflow[a] = (inflow[a] as number) - (all[k] as number);
        inflow[b] = (inflow[b] as number) + (all[k] as number);
      }
    }
    // Where next to nothing flows the rounding of volts is all there is.
    const residual = greatest(inflow) / Math.max(1, largest);
    const amps = told.subarray(nodeCount);
    amps.set(all);
    return { converged, volts, amps, linkAssumed: links.assumed, residual };
  }
}
