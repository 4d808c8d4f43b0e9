/** A return cable that does not bear what its feed does. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { thinReturns } from './thin-return-report.ts';

const fuse = 'fuse F1 20 A, blade, 32 V';
const warm = 'system "Shed" 12 V, ambient 30.5 °C';
const feed = 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in';
const out = 'run W2 6 mm² red, 1.2 m, F1:out to LAMP:+';

export const rule: Rule = {
  slug: 'return-thinner-than-feed',
  severity: 'error',
  group: 'battery',
  reads: ['run.size', 'run.ends', 'fuse.rating', 'system.limits'],
  page: {
    title: 'A return that is weaker than its feed',
    why: 'What goes out comes back: the same current, and in a short circuit the same fault. Where the feed is thick and the return is thin, the return is the fuse.',
    limit:
      'A return bears what protects its feed: the device’s rating by the set of limits, where it is shared by several circuits the sum of theirs, and what a short circuit lets through (Ib ≤ In ≤ Iz by IEC 60364-4-43 clause 433.1, confirmed). Its size alone decides nothing: a thinner return that bears it is right. Where the feed is too thin for its device as well, its `cable-too-small` is told, with the return beside it.',
    mend: 'Use the size of the feed for the return too; a shared return carries all of its circuits.',
    see: ['chassis-return-too-thin', 'cable-too-small'],
    wrong: [
      lampSpec({
        system: warm,
        fuse,
        feed,
        out,
        back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:- # finds: return-thinner-than-feed "1.5 mm²"',
      }),
    ],
    right: [
      // 20 A at 30 °C: BS 7671 table 4D1A, 1.5 mm² clipped.
      lampSpec({ fuse, feed, out, back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-' }),
      lampSpec({ system: warm, fuse, feed, out, back: 'run W3 6 mm² black, 1.3 m, LAMP:- to B1:-' }),
    ],
  },
  check: (context) => thinReturns('cable', context),
};
