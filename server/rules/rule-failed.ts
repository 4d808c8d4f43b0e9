import { noLimit, nothing } from './language.ts';
import type { Rule } from './rule.ts';

/** Worked out in run.ts, which alone knows what the other rules found; here stands its page. */
export const rule: Rule = {
  slug: 'rule-failed',
  severity: 'warning',
  group: 'spec',
  reads: [],
  page: {
    title: 'A check that could not be worked out',
    why: 'One check failed inside; the others were run. What it would have found is not known.',
    limit: noLimit,
    mend: 'Take the findings that are there as they stand, check by hand what this one would have told, and please report it with the spec.',
    see: ['answers-failed'],
    wrong: [],
    right: [],
  },
  check: nothing,
};
