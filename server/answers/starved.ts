/**
 * Constant-current draws that their sources and wiring cannot drive. A circuit always has a solution for them, but one in which
 * they stand below 0 V and would give instead of take: a figure that no load has.
 */
import type { Circuit, Solution } from '../physics/circuit.ts';
import { solveCircuit } from '../physics/solve.ts';

export interface Starved {
  /** Indices in the circuit's constant-current draws. */
  readonly currents: readonly number[];
  /** The greatest part of their currents, all in proportion, that would still be driven; below 1. */
  readonly feedable: number;
}

/** Halvings of the part that can be driven: beyond them a double has no more digits that matter. */
const halvings = 40;

/** `among` are the draws that take; undefined where none of them stands below 0 V. */
export function starvedDraws(
  circuit: Circuit,
  solution: Pick<Solution, 'volts'>,
  among: readonly number[],
): Starved | undefined {
  const volts = ({ volts: all }: Pick<Solution, 'volts'>, at: number) => {
    const draw = circuit.currents[at];
    return draw === undefined ? 0 : (all[draw.plus] ?? 0) - (all[draw.minus] ?? 0);
  };
  const currents = among.filter((at) => volts(solution, at) < 0);
  if (currents.length === 0) return undefined;
  const less = new Set(currents);
  const isFed = (part: number) => {
    const tried = solveCircuit({
      ...circuit,
      currents: circuit.currents.map((draw, at) => (less.has(at) ? { ...draw, amps: draw.amps * part } : draw)),
    });
    return tried.converged && currents.every((at) => volts(tried, at) >= 0);
  };
  let [feedable, most] = [0, 1];
  for (let step = 0; step < halvings; step++) {
    const middle = (feedable + most) / 2;
    if (isFed(middle)) feedable = middle;
    else most = middle;
  }
  return { currents, feedable };
}
