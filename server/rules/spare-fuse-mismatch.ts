/** Spare fuses kept with a fuse-board that fit none of its ways, or are missing for some. */

import { wayFuse } from '../kinds/fusebox.ts';
import type { Part } from '../model/model.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { amps } from './words.ts';

const board = (spares: string) =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F1 20 A, blade, 32 V',
    `fusebox FB 2 ways, total 40 A, way 1 fuse 5 A, way 2 fuse 10 A, ${spares}`,
    'load LAMP 12 W',
    'load FAN 40 W',
    'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 4 mm² red, 0.4 m, F1:out to FB:in',
    'run W3 2.5 mm² red, 1 m, FB:1 to LAMP:+',
    'run W4 2.5 mm² black, 1 m, LAMP:- to B1:-',
    'run W5 2.5 mm² red, 1 m, FB:2 to FAN:+',
    'run W6 2.5 mm² black, 1 m, FAN:- to B1:-',
  );

export const rule: Rule = {
  slug: 'spare-fuse-mismatch',
  severity: 'warning',
  group: 'protection',
  reads: ['fusebox.spares', 'fusebox.way'],
  page: {
    title: 'Spare fuses that do not match the board',
    why: 'A fuse blows at night and in the rain, and what lies beside it is put in. A spare larger than every fuse of the board will one day stand before a cable that it does not protect.',
    limit:
      'Spares kept with a board are of the ratings that its ways have, and there is one of each (common practice, no source). One of a rating that no way has is a warning where it is larger than the smallest fuse of the board, and advice otherwise; a rating without a spare is advice where others have some.',
    mend: 'Take out the spare that fits nothing, and put in one of each rating that the ways have.',
    see: ['fuse-odd-rating', 'cable-too-small'],
    wrong: [
      board('spares 2 x 5 A, spares 2 x 10 A, spares 1 x 30 A # finds: spare-fuse-mismatch "spares 1 x 30 A"'),
      board('spares 2 x 5 A # finds: spare-fuse-mismatch "spares 2 x 5 A"'),
    ],
    right: [board('spares 2 x 5 A, spares 2 x 10 A')],
  },
  forKind: ({ word }) => word === 'fusebox',
  ofPart(part) {
    if (!part.facts.says('spares')) return undefined;
    const fitted = ratingsOf(part);
    if (fitted.length === 0) return undefined;
    const kept = part.facts.each('spares').flatMap((row) => {
      const rating = row.number('spares', 'rating');
      return rating === undefined ? [] : [{ rating, place: row.place('spares') }];
    });
    const list = fitted
      .map(amps)
      .join(', ')
      .replace(/, (?=[^,]*$)/, ' and ');
    const odd = kept.filter(({ rating }) => !fitted.includes(rating));
    if (odd.length > 0)
      return odd.map(({ rating, place }) => ({
        ...(rating > Math.min(...fitted) ? {} : { severity: 'advice' as const }),
        message: `${part.name} keeps spares of ${amps(rating)}, but its fuses are ${list}: take them out, so that none of them is put before a cable that it does not protect.`,
        place,
        subject: part.name,
        figures: { spareAmps: rating },
      }));
    const missing = fitted.filter((one) => kept.every(({ rating }) => rating !== one));
    const [first] = kept;
    if (first === undefined || missing.length === 0) return undefined;
    return {
      severity: 'advice',
      message: `${part.name} keeps spares, but none of ${missing
        .map(amps)
        .join(', ')
        .replace(/, (?=[^,]*$)/, ' and ')}: add some, such as spares 2 x ${amps(missing[0] ?? 0)}.`,
      place: first.place,
      subject: part.name,
      figures: { missingAmps: missing[0] ?? 0 },
    };
  },
};

/** Ratings in its ways, each once, ascending. */
function ratingsOf({ facts, contacts }: Part): number[] {
  const ratings = contacts.flatMap(({ pole }) => wayFuse(facts, pole) ?? []);
  return [...new Set(ratings)].sort((a, b) => a - b);
}
