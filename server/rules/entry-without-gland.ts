/** A wall passed through a bare hole. */
import { waysInReads } from './glands.ts';
import { lampSpec } from './language.ts';
import { openPassages } from './open-passages.ts';
import type { Rule } from './rule.ts';

const box = 'enclosure BOX plastic, IP54, indoors';
const fuse = 'fuse F1 5 A, blade, 32 V, in BOX';
const feed = 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by gland M12';

export const rule: Rule = {
  slug: 'entry-without-gland',
  severity: 'error',
  group: 'entries',
  reads: ['run.enters', 'run.od', 'enclosure.material', 'part.in', ...waysInReads],
  page: {
    title: 'A cable that passes a wall through a bare hole',
    why: 'The van shakes for years, and the edge of the hole saws through the insulation: the core shorts on metal, or water runs in along the cable.',
    limit:
      'Every cable enters its box through a gland, a grommet or a conduit (IEC 60364-5-52 clause 522.8 on mechanical stress at entries, from memory; common practice). The enclosure keeps its IP code only with a fitting of the same.',
    mend: 'Fit a gland whose clamping range takes the cable’s outside diameter, and say so: `enters BOX by gland M20`.',
    see: ['entry-unstated', 'chafe-without-grommet'],
    wrong: [
      lampSpec(
        {
          fuse,
          feed,
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX open # finds: entry-without-gland "open"',
        },
        box,
      ),
    ],
    right: [
      lampSpec({ fuse, feed, out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX by gland M12' }, box),
      lampSpec(
        { fuse, feed, out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX by E1' },
        box,
        'entry E1 in BOX, gland M16, 2 holes',
      ),
    ],
  },
  ofRun(run) {
    return openPassages(
      run,
      // Over the edge of sheet metal it is worse, and told of as that.
      (enclosure) => enclosure?.facts.word('material') !== 'metal',
      (walls) => `${run.name} enters ${walls} through a bare hole, whose edge will wear through it`,
    );
  },
};
