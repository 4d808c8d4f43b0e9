/**
 * The operating point of a circuit. Islands have nothing to do with each other: each is solved by itself, or taken as it was
 * solved before when nothing in it has changed.
 */
import type { Circuit, Collapse, Solution } from './circuit.ts';
import { type Apart, type Island, islandsOf } from './circuit-islands.ts';
import { type Settled, type Solved, solveIsland } from './solve-island.ts';
import type { SolvedBefore } from './solved-before.ts';
import type { States } from './state-rows.ts';
import { type Flat, flattened, type Sort, type Topology } from './topology.ts';

export function solveCircuit(circuit: Circuit, before?: SolvedBefore): Solution {
  const { topology, figures } = flattened(circuit);
  const { amps, ...solved } = new CircuitSolver(topology, before).solve(figures);
  const { first, counts } = topology;
  const of = (sort: Sort) => amps.subarray(first[sort], first[sort] + counts[sort]);
  return {
    ...solved,
    resistorAmps: of('resistors'),
    linkAmps: of('links'),
    emfAmps: of('emfs'),
    limitedAmps: of('limited'),
    currentAmps: of('currents'),
    powerAmps: of('powers'),
    diodeAmps: of('diodes'),
  };
}

/**
 * A circuit that is solved again and again with other figures: its sources and diodes are first tried in the states that they
 * were left in.
 */
export class CircuitSolver {
  private readonly apart: Apart | undefined;
  private readonly states: (States | undefined)[] = [];
  /** Room for the answers of the islands in the numbers of the whole. */
  private readonly volts: Float64Array;
  private readonly amps: Float64Array;

  constructor(
    readonly topology: Topology,
    private readonly before?: SolvedBefore,
  ) {
    this.apart = islandsOf(topology);
    const { nodeCount, elements } = topology;
    // In one piece, which costs less than two.
    const room = new Float64Array(this.apart === undefined ? 0 : nodeCount + elements);
    this.volts = room.subarray(0, nodeCount);
    this.amps = room.subarray(nodeCount);
  }

  /** Of these figures, which may be changed afterwards. The answer is good until the next, and is read only. */
  solve(figures: Float64Array): Solved {
    const { topology, apart, volts, amps } = this;
    if (apart === undefined) return this.settled({ topology, figures }, 0);
    const linkAssumed: boolean[] = new Array(topology.counts.links).fill(false);
    const collapses: Collapse[] = [];
    let [residual, unsettled] = [0, false];
    for (let i = 0; i < apart.islands.length; i++) {
      const island = apart.islands[i] as Island;
      const { figures: places, room: own } = island;
      for (let k = 0; k < own.length; k++) own[k] = figures[places[k] as number] as number;
      const solution = this.settled({ topology: island.topology, figures: own }, i);
      this.tell(island, solution, linkAssumed, collapses);
      residual = Math.max(residual, solution.residual);
      if (solution.trouble === 'unsettled') unsettled = true;
    }
    const { nodes, hangOn } = apart.deadEnds;
    for (let k = 0; k < nodes.length; k++) volts[nodes[k] as number] = volts[hangOn[k] as number] as number;
    const trouble = unsettled ? 'unsettled' : collapses.length > 0 ? 'collapse' : undefined;
    return { converged: trouble === undefined, trouble, collapses, volts, amps, linkAssumed, residual };
  }

  /** The answer of an island in the numbers of the whole. */
  private tell(island: Island, solution: Solved, linkAssumed: boolean[], collapses: Collapse[]): void {
    const { topology: whole, volts, amps } = this;
    const { nodes, elements, topology } = island;
    for (let k = 0; k < nodes.length; k++) volts[nodes[k] as number] = solution.volts[k] as number;
    for (let k = 0; k < elements.length; k++) amps[elements[k] as number] = solution.amps[k] as number;
    for (let k = 0; k < topology.counts.links; k++)
      linkAssumed[(elements[topology.first.links + k] as number) - whole.first.links] =
        solution.linkAssumed[k] ?? false;
    const inWhole = (powers: readonly number[]) =>
      powers.map((power) => (elements[topology.first.powers + power] as number) - whole.first.powers);
    for (const collapse of solution.collapses)
      collapses.push({ ...collapse, powers: inWhole(collapse.powers), weak: inWhole(collapse.weak) });
  }

  private settled(island: Flat, i: number): Solved {
    const start = this.states[i];
    const { solution, states }: Settled =
      this.before === undefined ? solveIsland(island, start) : this.before.solve(island, start, solveIsland);
    this.states[i] = solution.converged ? states : undefined;
    return solution;
  }
}
