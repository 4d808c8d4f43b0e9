/** A wall that a cable passes without a word on how. */
import type { Part, Run, Terminal } from '../model/model.ts';
import { endOf, isBroken, placeIn } from '../model/place.ts';
import { type WayIn, waysIn } from './glands.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

const box = 'enclosure BOX plastic, IP54, indoors';
const fuse = 'fuse F1 5 A, blade, 32 V, in BOX';
const feed = 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by gland M12';

export const rule: Rule = {
  slug: 'entry-unstated',
  severity: 'warning',
  group: 'entries',
  reads: ['run.enters', 'part.in', 'run.ends'],
  page: {
    title: 'A wall passed, and not said how',
    why: 'A gland that nobody thought of is a gland that nobody buys: the cable ends up in a bare hole.',
    limit:
      'A run whose two ends stand in different enclosures passes the walls between them, whether it says so or not (common practice, no source).',
    mend: 'Say how it passes each wall: `enters BOX by gland M20`, by grommet, by conduit, or by an entry that it shares.',
    see: ['entry-without-gland'],
    wrong: [
      lampSpec({ fuse, feed, out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: entry-unstated "W2"' }, box),
      lampSpec(
        {
          fuse,
          feed,
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX # finds: entry-unstated "enters BOX"',
        },
        box,
      ),
      lampSpec(
        {
          fuse,
          feed,
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX # finds: entry-unstated "enters BOX"',
        },
        box,
        'entry E1 in BOX, gland M20, 2 holes',
      ),
    ],
    right: [
      lampSpec({ fuse, feed, out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX by grommet 8 mm' }, box),
    ],
  },
  *check({ model }) {
    for (const run of model.runs.values()) {
      if (isBroken(run.origin)) continue;
      for (const passage of run.passages) {
        if (passage.how !== 'unstated' || passage.enclosure === undefined) continue;
        const ways = waysIn(run, passage.enclosure, model);
        yield {
          message: `${run.name} enters ${passage.enclosure.name}, but it is not said how: name the entry, gland, grommet or conduit, such as ${list(ways)}.`,
          place: passage.place,
          subject: run.name,
          figures: { enclosure: passage.enclosure.name },
          fixes: ways.map(({ by }) => ({
            title: `Add ${by}`,
            safe: false,
            edits: [{ place: endOf(passage.place), newText: ` ${by}` }],
          })),
        };
      }
      const told = new Set(run.passages.map(({ enclosure }) => enclosure));
      for (const wall of wallsOf(run)) {
        if (told.has(wall)) continue;
        const { node } = run.origin.statement;
        const end = node.text.trimEnd().length;
        const ends = run.cores[0];
        const ways = waysIn(run, wall, model);
        yield {
          message: `${run.name} goes from ${ends?.from?.id ?? 'one end'} to ${ends?.to?.id ?? 'the other'} and so passes the wall of ${wall.name}: say how, such as enters ${wall.name} ${list(ways)}.`,
          place: run.namePlace,
          subject: run.name,
          figures: { enclosure: wall.name },
          related: [{ message: `${wall.name} is declared here`, place: wall.namePlace }],
          fixes: node.comments.some(({ span }) => span.end >= node.text.trimEnd().length)
            ? []
            : ways.map(({ by }) => ({
                title: `Add enters ${wall.name} ${by}`,
                safe: false,
                edits: [
                  {
                    place: placeIn(run.origin, { start: end, end }),
                    newText: `\n    enters ${wall.name} ${by}`,
                  },
                ],
              })),
        };
      }
    }
  },
};

/** `by E4`, `by E4 or by gland M20; BOX has a hole ready for it`. */
function list(ways: readonly WayIn[]): string {
  return ways.map(({ by, hole }) => `${by}${hole}`).join(' or ');
}

/** Enclosures that hold one end of a core and not the other. */
function wallsOf(run: Run): Set<Part> {
  const walls = new Set<Part>();
  for (const { from, to } of run.cores) {
    if (from === undefined || to === undefined) continue;
    const [a, b] = [around(from), around(to)];
    for (const one of a) if (!b.includes(one)) walls.add(one);
    for (const one of b) if (!a.includes(one)) walls.add(one);
  }
  return walls;
}

function around({ part }: Terminal): Part[] {
  const chain: Part[] = [];
  for (let box = part.enclosure; box !== undefined && !chain.includes(box); box = box.enclosure) chain.push(box);
  return chain;
}
