/** Blanks (`? A`, `? mm²`): where each stands, and what shares it: parts declared alike, or everything that takes a stock. */

import { isBlankSlot } from '../model/facts.ts';
import type { Fact, Part, Place, Run } from '../model/model.ts';
import { placeIn } from '../model/place.ts';

export interface Blank {
  readonly key: string;
  readonly place: Place;
}

/** The blank in a slot of a fact; undefined when the slot says something. */
export function blankIn(fact: Fact | undefined, slot: string): Blank | undefined {
  const value = fact?.clause.values.find((one) => one.slot === slot);
  if (fact === undefined || value === undefined || !isBlankSlot(value)) return undefined;
  const place = placeIn(fact.origin, value.span);
  return { key: `${place.uri} ${place.span.start}`, place };
}

export function blankSize(run: Run): Blank | undefined {
  return run.sizeBlank ? blankIn(run.facts.fact('size'), 'size') : undefined;
}

/** Whether the blank asks for a gauge; undefined when it does not say its unit. */
export function asksForGauge(run: Run): boolean | undefined {
  const atom = run.facts.slot('size', 'size')?.atom;
  return atom?.kind === 'quantity' ? atom.dimension === 'gauge' : undefined;
}

/** Slot of the rated current in a part's `rating` clause. */
export function ratingSlot(part: Part): string {
  return part.kind.family === 'switching' ? 'current' : 'rating';
}
