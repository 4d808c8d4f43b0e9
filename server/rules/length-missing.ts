/** A cable whose length is left blank. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'length-missing',
  severity: 'warning',
  group: 'cable',
  reads: ['run.length'],
  page: {
    title: 'A cable of unknown length',
    why: 'Nothing is reckoned lost in it, and no fuse too far along it: a spec that looks clean may not be.',
    limit:
      'What is checked along a cable needs its length (common practice, no source). A length that is not said at all is told of as `missing-required-clause`.',
    mend: 'Measure it with a string along its way, and say it.',
    see: ['drop-over-limit', 'missing-required-clause'],
    wrong: [lampSpec({ out: 'run W2 1.5 mm² red, ? m, F1:out to LAMP:+ # finds: length-missing "? m"' })],
    right: [lampSpec()],
  },
  ofRun(run) {
    if (!run.facts.isBlank('length')) return undefined;
    return {
      message: `The length of ${run.name} is not known, so nothing is reckoned lost in it and no fuse too far along it: measure its way and say it.`,
      place: run.facts.place('length'),
      subject: run.name,
    };
  },
};
