/** A cable through a bare hole in sheet metal. */

import { waysInReads } from './glands.ts';
import { lampSpec } from './language.ts';
import { openPassages } from './open-passages.ts';
import type { Rule } from './rule.ts';

const box = 'enclosure BOX metal, IP54, indoors';
const fuse = 'fuse F1 5 A, blade, 32 V, in BOX';
const feed = 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by grommet 8 mm';

export const rule: Rule = {
  slug: 'chafe-without-grommet',
  severity: 'error',
  group: 'entries',
  reads: ['run.enters', 'run.od', 'enclosure.material', 'part.in', ...waysInReads],
  page: {
    title: 'A cable over the bare edge of sheet metal',
    why: 'The edge of a hole in sheet metal cuts through the insulation, and behind it stands the body of the van, which is the battery’s other pole: that is a short circuit through a box that is full of cables.',
    limit:
      'Cables through metal are kept from its edge by a gland, a grommet or a conduit (IEC 60364-5-52 clause 522.8, from memory; common practice).',
    mend: 'Fit a grommet or a gland, and say so: `enters BOX by grommet 8 mm`.',
    see: ['entry-without-gland', 'entry-unstated'],
    wrong: [
      lampSpec(
        {
          fuse,
          feed,
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX open # finds: chafe-without-grommet "open"',
        },
        box,
      ),
    ],
    right: [
      lampSpec({ fuse, feed, out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX by grommet 8 mm' }, box),
    ],
  },
  ofRun(run) {
    return openPassages(
      run,
      (enclosure) => enclosure?.facts.word('material') === 'metal',
      (walls) =>
        `${run.name} enters ${walls} over the bare edge of its metal, which will cut through to the core and short it`,
    );
  },
};
