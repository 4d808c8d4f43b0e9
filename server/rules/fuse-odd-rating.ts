/** A fuse of a rating that its body style is not made in. */
import { list } from '../../grammar/phrases.ts';
import { fuseSeries, stylesOf } from '../tables/sizes.ts';
import { citeWithin } from '../tables/table.ts';
import { inTheWay } from './in-the-way.ts';
import { lampSpec } from './language.ts';
import { offerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Rule } from './rule.ts';
import { amps, deviceName } from './words.ts';

export const rule: Rule = {
  slug: 'fuse-odd-rating',
  severity: 'warning',
  group: 'protection',
  reads: ['fuse.rating', 'fuse.style', 'fusebox.way'],
  page: {
    title: 'A fuse of a rating that is not made',
    why: 'It cannot be bought. Whoever fits the circuit takes what is at hand, and that is as often the next larger one.',
    limit:
      'Blade fuses come in 0.5, 1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35 and 40 A (ISO 8820-3, confirmed). Series of maxi-blade fuses (ISO 8820-3 type E) and of bolt-in ones (ISO 8820-5) are from memory, so a rating between theirs is advice only, and one below or above them is not judged. Other styles differ from country to country and are not judged.',
    mend: 'Take the next smaller rating that bears the load, or the next larger one that the cable may have.',
    see: ['fuse-below-load', 'fuse-above-appliance', 'spare-fuse-mismatch', 'cable-too-small'],
    wrong: [
      lampSpec({ fuse: 'fuse F1 12 A, blade, 32 V # finds: fuse-odd-rating "12 A"' }),
      lampSpec({
        fuse: 'fuse F1 65 A, bolt-in, 58 V # finds: fuse-odd-rating "65 A"',
        feed: 'run W1 25 mm² red, 0.1 m, B1:+ to F1:in',
        out: 'run W2 25 mm² red, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 25 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
    ],
    right: [
      lampSpec({ fuse: 'fuse F1 10 A, blade, 32 V' }),
      lampSpec({ fuse: 'fuse F1 12 A, cartridge, 125 V, breaks 5 kA' }),
    ],
  },
  *check({ answers }) {
    for (const contacts of answers.contacts.values())
      for (const contact of contacts) {
        const { part, pole, device, designAmps } = contact;
        if (part.kind.word === 'breaker' || device?.amps === undefined || device.blank) continue;
        // Of poles linked in parallel the sum counts, and no single fuse has that.
        if (contact.parallelPoles.length > 1) continue;
        const rating = device.amps;
        const style = part.kind.word === 'fusebox' ? 'blade' : part.facts.word('style');
        const made = fuseSeries(style);
        if (made === undefined || made.amps.includes(rating)) continue;
        const sorted = [...made.amps].sort((a, b) => a - b);
        // Outside a series that is from memory there may be others.
        const [least = 0, most = 0] = [sorted[0], sorted.at(-1)];
        if (made.source.status !== 'confirmed' && (rating < least || rating > most)) continue;
        const around = [sorted.findLast((one) => one < rating), sorted.find((one) => one > rating)].flatMap(
          (one) => one ?? [],
        );
        const fitting = around.filter(
          (one) => one >= designAmps && (one < rating || inTheWay(one, contact, answers) === undefined),
        );
        // Far above all of its style it is more likely of another.
        const others = part.kind.word === 'fuse' && rating > most ? stylesOf(rating) : [];
        const other = others.length === 0 ? '' : `, or say ${list(others)} where it is that`;
        const place = ratingPlace(contact);
        yield {
          ...(made.source.status === 'confirmed' ? {} : { severity: 'advice' as const }),
          message: `${deviceName(part, pole)} is ${amps(rating)}, but there is no ${style} fuse of that (${citeWithin(made.source)}): fit ${(fitting.length > 0 ? fitting : around).map(amps).join(' or ')}${other}.`,
          place,
          subject: part.name,
          figures: { ratedAmps: rating, pole },
          fixes: fitting.flatMap((one) => offerRating(contact, one)),
        };
      }
  },
};
