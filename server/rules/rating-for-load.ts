/** Which rating of a device bears what flows through it, for as long as it does. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import { standardRatings } from '../answers/devices.ts';
import { held } from '../answers/holding.ts';
import { exceeds } from './exceeds.ts';

/** What a load takes for a moment is no matter to a device of which no curve is known. */
export function bearsLoad({ part, pole }: ContactFigures, rating: number, { directions }: Answers): boolean {
  const { lastingAmps, runs, timedStarts, cranks } = directions.ofContact(part, pole);
  if (exceeds(lastingAmps, rating)) return false;
  return [...runs, ...timedStarts, ...cranks].every((current) => {
    const { holding } = held(part, rating, current);
    return holding === 'holds' || (holding === 'not known' && current.is !== 'runs');
  });
}

/** The smallest standard rating above its own that does; undefined where there is none. */
export function largerForLoad(contact: ContactFigures, answers: Answers): number | undefined {
  const own = contact.device?.amps ?? 0;
  return ratingsOf(contact).find((rating) => rating > own && bearsLoad(contact, rating, answers));
}

/** The largest standard rating below its own, and up to a limit, that does; undefined where there is none. */
export function smallerForLoad(contact: ContactFigures, mostAmps: number, answers: Answers): number | undefined {
  const own = contact.device?.amps ?? Number.POSITIVE_INFINITY;
  return ratingsOf(contact).findLast(
    (rating) => rating < own && rating <= mostAmps && bearsLoad(contact, rating, answers),
  );
}

function ratingsOf({ part }: ContactFigures): readonly number[] {
  return standardRatings(part.kind.word, part.facts.word('style'));
}
