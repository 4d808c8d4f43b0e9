import { lampSpec, notationsOwn, nothing } from './language.ts';
import type { Rule } from './rule.ts';

/** Worked out in run.ts, which alone knows what the other rules found; here stands its page. */
export const rule: Rule = {
  slug: 'allow-unused',
  severity: 'warning',
  group: 'spec',
  reads: [],
  page: {
    title: 'An allow that no longer allows anything',
    why: 'An accepted finding that is gone leaves a hole through which the next one of its kind slips unseen.',
    limit: notationsOwn,
    mend: 'Take the allow out; if the finding comes back, judge it anew.',
    see: ['allow-unknown'],
    wrong: [lampSpec({}, 'allow drop-over-limit on W2 "long ago" # finds: allow-unused "drop-over-limit"')],
    right: [lampSpec()],
  },
  check: nothing,
};
