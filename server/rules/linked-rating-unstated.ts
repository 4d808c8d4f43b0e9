/** Poles linked in parallel of which the maker’s figure together is not said. */
import { exceeds } from './exceeds.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';
import { ratingClause } from './switching.ts';
import { amps } from './words.ts';

const { out, on } = throughS1;

export const rule: Rule = {
  slug: 'linked-rating-unstated',
  severity: 'advice',
  group: 'switching',
  reads: ['link.bar', 'isolator.parallel', 'switch.parallel', 'isolator.rating', 'switch.rating'],
  page: {
    title: 'Linked poles without the maker’s figure',
    why: 'Two poles in parallel never share evenly, so they carry less than twice one pole’s current. Only the maker knows how much; without the figure the link gains nothing here.',
    limit: 'The maker’s figure for poles in parallel; without it the rating of one pole (common practice, no source).',
    mend: 'Take the figure from the data sheet and say it, as `2 in parallel 45 A`; or take the links out, where one pole is enough.',
    see: ['bar-on-one-side', 'switch-below-fuse'],
    wrong: [
      lampSpec(
        { out },
        'switch S1 2 poles, 10 A dc, 24 V',
        'link S1 1-3, 2-4 # finds: linked-rating-unstated "1-3"',
        on,
      ),
    ],
    right: [lampSpec({ out }, 'switch S1 2 poles, 10 A dc, 24 V, 2 in parallel 14 A', 'link S1 1-3, 2-4', on)],
  },
  *check({ model, answers }) {
    for (const part of new Set(model.bars.map((bar) => bar.part))) {
      const contacts = answers.contacts.get(part.name) ?? [];
      const contact = contacts.find(
        (one) => one.part.kind.family === 'switching' && one.parallelPoles.length > 1 && ratingClause(one) === 'rating',
      );
      if (contact?.ratedAmps === undefined) continue;
      const { ratedAmps, parallelPoles, neededAmps, designAmps, circuitAmps } = contact;
      // Where one pole is too weak, that is told with the missing figure.
      const needed = Math.max(neededAmps ?? designAmps, Number.isFinite(circuitAmps) ? circuitAmps : 0);
      const bar = model.bars.find((one) => one.part === part);
      if (exceeds(needed, ratedAmps) || bar === undefined) continue;
      yield {
        message: `Poles ${parallelPoles.join(' and ')} of ${part.name} are linked, but what they carry together is not said, so they count as one, ${amps(ratedAmps)}: say the maker’s figure (${parallelPoles.length} in parallel … A), or take the links out.`,
        place: bar.place,
        subject: part.name,
        figures: { poles: parallelPoles.length, ratedAmps },
        related: [{ message: `${part.name} says what one pole carries`, place: part.facts.place('rating') }],
      };
    }
  },
};
