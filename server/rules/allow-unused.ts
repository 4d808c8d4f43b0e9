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
    mend: 'Take the allow out; if the finding comes back, judge it anew. It is not told while something in the spec cannot be read or is left blank, or the wiring is such that its currents mean nothing: what the allow accepts may be there again once that is mended.',
    see: ['allow-unknown'],
    wrong: [lampSpec({}, 'allow drop-over-limit on W2 "long ago" # finds: allow-unused "drop-over-limit"')],
    right: [lampSpec()],
  },
  check: nothing,
};
