/**
 * The operating point of a circuit. Islands have nothing to do with each other: each is solved by itself, or taken as it was
 * solved before when nothing in it has changed.
 */
import type { Circuit, Collapse, Solution } from './circuit.ts';
import { type Island, islandsOf, withFigures } from './circuit-islands.ts';
import { type Settled, solveIsland } from './solve-island.ts';
import type { SolvedBefore } from './solved-before.ts';
import type { States } from './state-network.ts';

export function solveCircuit(circuit: Circuit, before?: SolvedBefore): Solution {
  return new CircuitSolver(circuit, before).solve(circuit);
}

/**
 * A circuit that is solved again and again with other figures: what it joins is taken apart once, and its sources and diodes
 * are first tried in the states that they were left in.
 */
export class CircuitSolver {
  private readonly islands: readonly Island[] | undefined;
  private readonly states: (States | undefined)[] = [];

  constructor(
    private readonly circuit: Circuit,
    private readonly before?: SolvedBefore,
  ) {
    this.islands = islandsOf(circuit);
  }

  /** With these figures, of the same elements between the same nodes. */
  solve(circuit: Circuit): Solution {
    if (this.islands === undefined) return this.settled(circuit, 0);
    return joined(
      circuit,
      this.islands.map((island, i) => {
        const own = circuit === this.circuit ? island.circuit : withFigures(island, circuit);
        return { island, solution: this.settled(own, i) };
      }),
    );
  }

  private settled(island: Circuit, i: number): Solution {
    const start = this.states[i];
    const { solution, states }: Settled =
      this.before === undefined ? solveIsland(island, start) : this.before.solve(island, start, solveIsland);
    this.states[i] = solution.converged ? states : undefined;
    return solution;
  }
}

/** The answers of the islands, in the numbers of the whole. */
function joined(circuit: Circuit, parts: readonly { island: Island; solution: Solution }[]): Solution {
  const scattered = (length: number, of: (part: Island) => Int32Array, from: (solution: Solution) => Float64Array) => {
    const all = new Float64Array(length);
    for (const { island, solution } of parts) {
      const values = from(solution);
      of(island).forEach((at, i) => {
        all[at] = values[i] as number;
      });
    }
    return all;
  };
  const linkAssumed = circuit.links.map(() => false);
  const collapses: Collapse[] = [];
  let [residual, unsettled] = [0, false];
  for (const { island, solution } of parts) {
    residual = Math.max(residual, solution.residual);
    if (solution.trouble === 'unsettled') unsettled = true;
    island.links.forEach((at, i) => {
      linkAssumed[at] = solution.linkAssumed[i] ?? false;
    });
    const whole = (powers: readonly number[]) => powers.map((i) => island.powers[i] as number);
    for (const collapse of solution.collapses)
      collapses.push({ ...collapse, powers: whole(collapse.powers), weak: whole(collapse.weak) });
  }
  const trouble = unsettled ? 'unsettled' : collapses.length > 0 ? 'collapse' : undefined;
  return {
    converged: trouble === undefined,
    trouble,
    collapses,
    volts: scattered(
      circuit.nodeCount,
      ({ nodes }) => nodes,
      ({ volts }) => volts,
    ),
    resistorAmps: scattered(
      circuit.resistors.length,
      ({ resistors }) => resistors,
      (one) => one.resistorAmps,
    ),
    linkAmps: scattered(
      circuit.links.length,
      ({ links }) => links,
      (one) => one.linkAmps,
    ),
    linkAssumed,
    emfAmps: scattered(
      circuit.emfs.length,
      ({ emfs }) => emfs,
      (one) => one.emfAmps,
    ),
    limitedAmps: scattered(
      circuit.limited.length,
      ({ limited }) => limited,
      (one) => one.limitedAmps,
    ),
    currentAmps: scattered(
      circuit.currents.length,
      ({ currents }) => currents,
      (one) => one.currentAmps,
    ),
    powerAmps: scattered(
      circuit.powers.length,
      ({ powers }) => powers,
      (one) => one.powerAmps,
    ),
    diodeAmps: scattered(
      circuit.diodes.length,
      ({ diodes }) => diodes,
      (one) => one.diodeAmps,
    ),
    residual,
  };
}
