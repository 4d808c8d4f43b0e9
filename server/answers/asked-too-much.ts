/**
 * Which draws of a circuit that has no answer ask too much. What stands on one positive is fed together; what stands behind a
 * converter is fed apart from what stands before it, whatever negative they share.
 */
import type { Circuit } from '../physics/circuit.ts';
import { solveCircuit } from '../physics/solve.ts';

/** Of the circuit's constant-power or constant-current draws. */
export type DrawSort = 'powers' | 'currents';

export interface AskingTooMuch {
  /** Its place among the groups. */
  readonly group: number;
  /** The greatest part of what it draws, all in proportion, that would be fed; below 1. */
  readonly feedable: number;
}

/** Halvings of the part that can be fed: beyond them a double has no more digits that matter. */
const halvings = 40;

/** Of these groups of draws, by their index, those that cannot be fed even while the others draw nothing. */
export function askingTooMuch(
  circuit: Circuit,
  groups: readonly (readonly number[])[],
  sort: DrawSort,
): AskingTooMuch[] {
  const isFed = (own: readonly number[], share: number, silent: ReadonlySet<number>) => {
    const mine = new Set(own);
    const shareOf = (at: number) => (mine.has(at) ? share : silent.has(at) ? 0 : 1);
    return solveCircuit(scaled(circuit, sort, shareOf)).converged;
  };
  const all = new Set(groups.flat());
  const over = groups.map((own) => !isFed(own, 1, all));
  const silent = new Set(groups.flatMap((own, group) => (over[group] === true ? own : [])));
  return groups.flatMap((own, group) => {
    if (over[group] !== true) return [];
    let [feedable, most] = [0, 1];
    for (let step = 0; step < halvings; step++) {
      const middle = (feedable + most) / 2;
      if (isFed(own, middle, silent)) feedable = middle;
      else most = middle;
    }
    return [{ group, feedable }];
  });
}

/** Where constant currents alone are looked at, nothing draws power. */
function scaled(circuit: Circuit, sort: DrawSort, shareOf: (at: number) => number): Circuit {
  const { powers, currents } = circuit;
  return sort === 'powers'
    ? { ...circuit, powers: powers.map((one, at) => ({ ...one, watts: one.watts * shareOf(at) })) }
    : {
        ...circuit,
        powers: powers.map((one) => ({ ...one, watts: 0 })),
        currents: currents.map((one, at) => ({ ...one, amps: one.amps * shareOf(at) })),
      };
}
