/** A return to or from the vehicle’s body that does not bear what its feed does. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { thinReturns } from './thin-return-report.ts';

const body = 'chassis G1 and G2';
const home = 'run W4 10 mm² black, 0.4 m, B1:- to G1';
const feed = 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in';
const out = 'run W2 6 mm² red, 1.2 m, F1:out to LAMP:+';
const fuse = 'fuse F1 20 A, blade, 32 V';
const warm = 'system "Shed" 12 V, ambient 30.5 °C';

export const rule: Rule = {
  slug: 'chassis-return-too-thin',
  severity: 'error',
  group: 'battery',
  reads: ['run.size', 'run.ends', 'fuse.rating', 'system.limits'],
  page: {
    title: 'A return to the body that is too thin',
    why: 'The body carries anything; the short wire to it does not. All that comes back by the body passes the one strap at the battery, and a fault to metal finds it before the fuse does.',
    limit:
      'The conductor between a load or the battery and the body bears what protects the feed: the rating of the device, of several circuits their sum, and what a short circuit lets through (Ib ≤ In ≤ Iz by IEC 60364-4-43 clause 433.1, confirmed).',
    mend: 'Use the size of the feed for the strap too; that at the battery carries all that the body brings back.',
    see: ['return-thinner-than-feed', 'negative-bonded-twice'],
    wrong: [
      lampSpec(
        {
          system: warm,
          fuse,
          feed,
          out,
          back: 'run W3 1.5 mm² black, 0.3 m, LAMP:- to G2 # finds: chassis-return-too-thin "1.5 mm²"',
        },
        body,
        home,
      ),
    ],
    right: [
      lampSpec({ fuse, feed, out, back: 'run W3 1.5 mm² black, 0.3 m, LAMP:- to G2' }, body, home),
      lampSpec({ system: warm, fuse, feed, out, back: 'run W3 6 mm² black, 0.3 m, LAMP:- to G2' }, body, home),
    ],
  },
  check: (context) => thinReturns('body', context),
};
