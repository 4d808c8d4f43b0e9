/** What the rules of switches share: which contacts are judged, and the next standard rating. */
import type { ContactFigures } from '../answers/answers.ts';
import { switchAmps } from '../tables/sizes.ts';
import type { Fix, RuleContext } from './rule.ts';

/** The contact of each switching part that is worst placed, by `excess` (larger is worse; undefined is no fault). */
export function* worstContacts(
  { answers }: RuleContext,
  excess: (contact: ContactFigures) => number | undefined,
): Generator<ContactFigures> {
  for (const contacts of answers.contacts.values()) {
    let worst: ContactFigures | undefined;
    let most = 0;
    for (const contact of contacts) {
      if (contact.part.kind.family !== 'switching' || contact.ratedAmps === undefined) continue;
      const over = excess(contact);
      if (over !== undefined && over > most) {
        worst = contact;
        most = over;
      }
    }
    if (worst !== undefined) yield worst;
  }
}

/** Whether the rating that counts is the maker's for linked poles, one pole's, or one pole's for want of a figure. */
export function ratingClause(contact: ContactFigures): 'parallel' | 'rating' {
  return contact.parallelPoles.length > 1 &&
    contact.part.facts.each('parallel').some((row) => row.number('parallel', 'poles') === contact.parallelPoles.length)
    ? 'parallel'
    : 'rating';
}

export function largerSwitch(contact: ContactFigures, needed: number): Fix[] {
  const { part } = contact;
  if (
    ratingClause(contact) === 'parallel' ||
    contact.parallelPoles.length > 1 ||
    part.facts.fact('rating')?.fromStock !== undefined
  )
    return [];
  const larger = switchAmps.find((amps) => amps >= needed);
  if (larger === undefined) return [];
  const slot = part.facts.slot('rating', 'current');
  return slot === undefined
    ? []
    : [
        {
          title: `Use one rated ${larger} A`,
          safe: false,
          edits: [{ place: part.facts.place('rating', 'current'), newText: `${larger} A` }],
        },
      ];
}

/** A remark on poles linked without a figure from the maker. */
export function linkedRemark(contact: ContactFigures): string {
  return contact.parallelPoles.length > 1 && ratingClause(contact) === 'rating'
    ? ` Its poles ${contact.parallelPoles.join(' and ')} are linked, but without the maker’s figure (${contact.parallelPoles.length} in parallel … A) that counts for nothing more.`
    : '';
}
