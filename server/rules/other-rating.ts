/** Ratings that could stand in place of a device's own, and the edit that writes one. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import { standardRatings } from '../answers/devices.ts';
import { exceeds } from './exceeds.ts';
import { inTheWay } from './in-the-way.ts';
import { ratingPlace } from './rating-place.ts';
import type { Fix } from './rule.ts';

/** None where the rating is written in stock, which others take it from too. */
export function offerRating(contact: ContactFigures, rating: number | undefined): Fix[] {
  const { part } = contact;
  const place = ratingPlace(contact);
  const inStock = part.facts.fact('rating')?.fromStock !== undefined || place === part.namePlace;
  return rating === undefined || inStock
    ? []
    : [{ title: `Fit ${rating} A`, safe: false, edits: [{ place, newText: `${rating} A` }] }];
}

/** The largest up to a limit that still bears what flows through it. */
export function smallerRating(contact: ContactFigures, mostAmps: number): number | undefined {
  const { part, designAmps, neededAmps } = contact;
  return standardRatings(part.kind.word, part.facts.word('style')).findLast(
    (rating) => rating <= mostAmps && !exceeds(Math.max(designAmps, neededAmps ?? 0), rating),
  );
}

/** The smallest from a limit on that the cables it protects may have. */
export function largerRating(contact: ContactFigures, leastAmps: number, answers: Answers): number | undefined {
  const { part } = contact;
  const rating = standardRatings(part.kind.word, part.facts.word('style')).find((one) => one >= leastAmps);
  return rating === undefined || inTheWay(rating, contact, answers) !== undefined ? undefined : rating;
}
