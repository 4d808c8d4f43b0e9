/** A string fuse larger than its panels bear. */
import type { ContactFigures } from '../answers/answers.ts';
import { stringFuseAmps, stringFuseFactors } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import { offerRating } from './other-rating.ts';
import { type PanelString, parallelStrings } from './panel-strings.ts';
import { ratingPlace } from './rating-place.ts';
import type { Rule, RuleContext } from './rule.ts';
import { array, fuseFor } from './string-fuse-needed.ts';
import { amps, deviceName, names } from './words.ts';

const fused = (fuse: string) => [
  `fuse F2 ${fuse}`,
  'run W1 6 mm² red, 2 m, P1:+ to F2:in',
  'run W12 6 mm² red, 1 m, F2:out to JP',
];

export const rule: Rule = {
  slug: 'string-fuse-too-large',
  severity: 'error',
  group: 'protection',
  reads: ['panel.isc', 'panel.most-series-fuse', 'fuse.rating', 'breaker.rating'],
  page: {
    title: 'A string fuse larger than the panels bear',
    why: 'The fuse is there for the current that the other strings push backwards through a failed one. A larger one lets them burn its cells and connectors before it opens, if it opens at all.',
    limit:
      'Where a string needs a fuse, that is no larger than the panel’s maker allows (`most series fuse`) and below 2.4 times the short-circuit current of its panels (IEC 62548, string overcurrent protection, confirmed). Above the second alone, or where the maker’s figure is not stated, it is a warning. Where the other strings together give no more than the maker allows, no fuse is needed and none is judged.',
    mend: 'Fit a string fuse between 1.5 and 2.4 times the short-circuit current of its panels, and no larger than their maker allows.',
    see: ['string-fuse-needed', 'fuse-never-blows'],
    wrong: [array('6 A', ...fused('10 A, gpv, 150 V # finds: string-fuse-too-large "10 A"'))],
    right: [array('6 A', ...fused('6 A, gpv, 150 V')), array('10 A', 'run W1 6 mm² red, 2 m, P1:+ to JP')],
  },
  *check(context) {
    for (const { string, fuse, rating, reverseAmps, allowed, greatest } of oversizedStringFuses(context)) {
      const { panels, shortCircuitAmps } = string;
      const above = allowed !== undefined && exceeds(rating, allowed);
      const who = names(panels);
      const limit = above
        ? `the maker of ${who} allows ${amps(allowed)} at most`
        : `${stringFuseFactors.most} times the ${amps(shortCircuitAmps)} of ${who} is ${amps(greatest)} (IEC 62548)`;
      const own = fuseFor(string);
      const most = Math.min(allowed ?? greatest, greatest);
      const best = stringFuseAmps.findLast(
        (one) => one > stringFuseFactors.least * shortCircuitAmps && one < greatest && one <= most,
      );
      yield {
        ...(above ? {} : { severity: 'warning' as const }),
        message: `${deviceName(fuse.part, fuse.pole)} is ${amps(rating)}, but ${limit}, and the other strings can drive ${amps(reverseAmps)} backwards through it: ${own === undefined ? `no fuse bears its sun and that, so put the panels in series where the controller allows it` : `fit ${own}`}.`,
        place: ratingPlace(fuse),
        subject: fuse.part.name,
        figures: {
          ratedAmps: rating,
          reverseAmps,
          mostAmps: most,
          ...(allowed === undefined ? {} : { mostSeriesFuseAmps: allowed }),
        },
        related: panels.map((part) => ({ message: `${part.name} is in its string`, place: part.namePlace })),
        fixes: offerRating(fuse, best),
      };
    }
  },
};

interface Oversized {
  readonly string: PanelString;
  /** The smallest in the string. */
  readonly fuse: ContactFigures;
  readonly rating: number;
  readonly reverseAmps: number;
  /** By the panels’ maker, and by their short-circuit current. */
  readonly allowed: number | undefined;
  readonly greatest: number;
}

/** Fuses of strings that need one, above what their panels bear. */
export function oversizedStringFuses(context: RuleContext): Oversized[] {
  return parallelStrings(context).flatMap((strings) =>
    strings.flatMap((string): Oversized[] => {
      const { fuses, shortCircuitAmps, mostSeriesFuseAmps: allowed } = string;
      const reverseAmps = strings.reduce((sum, one) => sum + (one === string ? 0 : one.shortCircuitAmps), 0);
      const needed = allowed === undefined ? strings.length > 2 : exceeds(reverseAmps, allowed);
      const rated = fuses.flatMap((fuse) =>
        fuse.device?.amps === undefined || fuse.device.blank ? [] : [{ fuse, rating: fuse.device.amps }],
      );
      const [least] = rated.sort((a, b) => a.rating - b.rating);
      const greatest = stringFuseFactors.most * shortCircuitAmps;
      if (!needed || least === undefined || !exceeds(least.rating, Math.min(allowed ?? greatest, greatest))) return [];
      return [{ string, ...least, reverseAmps, allowed, greatest }];
    }),
  );
}
