/** The face that a part says: which of its terminals stands in which row, and what of that cannot be. */
import { slotNumber } from './facts.ts';
import type { Part, Place } from './model.ts';
import { placeIn } from './place.ts';

/** A number of a face, in the order they are written. */
export interface FaceNumber {
  readonly name: string;
  readonly row: 'top' | 'bottom';
  /** What stock says is looked at where it is taken. */
  readonly place: Place;
  /** The part has no such terminal, or it was named before. */
  readonly wrong: 'unknown' | 'twice' | undefined;
}

export interface SaidFace {
  readonly numbers: readonly FaceNumber[];
  /** Terminals of the part that it leaves out. */
  readonly missing: readonly string[];
}

/** Undefined where no face is said. */
export function saidFace({ facts, terminals }: Part): SaidFace | undefined {
  const fact = facts.fact('face');
  if (fact === undefined) return undefined;
  const names = new Set(terminals.map(({ spec }) => spec.name));
  const left = new Set(names);
  const numbers = fact.clause.values.flatMap((value): FaceNumber[] => {
    const number = slotNumber(value);
    if (number === undefined) return [];
    const name = String(number);
    const wrong = left.delete(name) ? undefined : names.has(name) ? 'twice' : 'unknown';
    const place = fact.fromStock === undefined ? placeIn(fact.origin, value.span) : facts.place('face');
    return [{ name, row: value.slot === 'top' ? 'top' : 'bottom', place, wrong }];
  });
  return numbers.length === 0 ? undefined : { numbers, missing: [...left] };
}
