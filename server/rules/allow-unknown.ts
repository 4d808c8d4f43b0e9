import { lampSpec, notationsOwn, nothing } from './language.ts';
import type { Rule } from './rule.ts';

/** Worked out in run.ts, which alone knows what the other rules found; here stands its page. */
export const rule: Rule = {
  slug: 'allow-unknown',
  severity: 'warning',
  group: 'spec',
  reads: [],
  page: {
    title: 'An allow for a finding that does not exist',
    why: 'It accepts nothing, and what was meant is still found.',
    limit: notationsOwn,
    mend: 'Write the finding’s name as it stands in the list of findings.',
    see: ['allow-unused'],
    wrong: [lampSpec({}, 'allow drop-over-limt on W2 "horn" # finds: allow-unknown "drop-over-limt"')],
    right: [lampSpec()],
  },
  check: nothing,
};
