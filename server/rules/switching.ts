/** What the rules of switches share: which contacts are judged, and the next standard rating. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import { switchAmps } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import type { Fix, RuleContext } from './rule.ts';
import { protectors } from './words.ts';

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

/** What it has to carry: on the panel side what the limits ask for. */
export function carriedBy({ designAmps, neededAmps }: ContactFigures): number {
  return neededAmps ?? designAmps;
}

/** Whether it is too weak for what it carries. */
export function isBelowLoad(contact: ContactFigures): boolean {
  return exceeds(carriedBy(contact), contact.ratedAmps ?? Number.POSITIVE_INFINITY);
}

/** Whether it is too weak for what protects its circuit, whatever it carries. */
export function isBelowDevice({
  ratedAmps = Number.POSITIVE_INFINITY,
  circuitAmps,
  protection,
  designAmps,
  onPanelSide,
  feeds,
}: ContactFigures): boolean {
  if (onPanelSide || protection.blank || !Number.isFinite(circuitAmps)) return false;
  return (feeds.length > 0 || designAmps > 0) && exceeds(circuitAmps, ratedAmps);
}

/** Whether it stands in a way that has no device: then that is told, and what stands beyond the way does not count. */
export function isInUnfused({ part, pole }: ContactFigures, { network, unfusedStretches }: Answers): boolean {
  const contact = part.contacts.find((one) => one.pole === pole);
  if (contact === undefined) return false;
  const ends = [contact.from, contact.to].map((name) =>
    (network.at.get(`${part.name}:${name}`) ?? []).flatMap((edge) => (edge.is === 'core' ? [edge.core] : [])),
  );
  return unfusedStretches.some(({ cores }) => ends.every((end) => end.some((core) => cores.includes(core))));
}

/** What makes up the current that its circuit is protected at. */
export function protectedBy({ protection, circuitAmps }: ContactFigures): string {
  return protection.amps <= circuitAmps ? protectors(protection) : 'the devices behind it';
}

/** Contacts of a part whose rating is the same number in the spec: what settles one is for all of them. */
export function ratedWith(contact: ContactFigures, { answers }: RuleContext): readonly ContactFigures[] {
  const clause = ratingClause(contact);
  return (answers.contacts.get(contact.part.name) ?? []).filter(
    (other) => other.ratedAmps === contact.ratedAmps && ratingClause(other) === clause,
  );
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
