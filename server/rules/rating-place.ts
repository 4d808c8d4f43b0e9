/** Where the rating of a device is written. */
import type { ContactFigures } from '../answers/answers.ts';
import { slotNumber } from '../model/facts.ts';
import type { Place } from '../model/model.ts';
import { placeIn } from '../model/place.ts';

/** The rating's words: of a fusebox, those of the way. */
export function ratingPlace({ part, pole }: ContactFigures): Place {
  if (part.kind.word !== 'fusebox')
    return part.facts.place('rating', part.kind.word === 'fuse' || part.kind.word === 'breaker' ? 'rating' : undefined);
  for (const { clause, origin, fromStock } of [...part.facts.all('way')].reverse()) {
    const value = (slot: string) => clause.values.find((one) => one.slot === slot);
    const [first, last, rating] = [value('way'), value('last'), value('rating')];
    const from = first === undefined ? undefined : slotNumber(first);
    const to = last === undefined ? from : slotNumber(last);
    if (from === undefined || to === undefined || pole < from || pole > to || fromStock !== undefined) continue;
    return placeIn(origin, rating?.span ?? clause.span);
  }
  return part.namePlace;
}
