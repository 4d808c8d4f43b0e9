/** A wall that a cable passes without a word on how. */
import type { Model, Part, Passage, Run, Terminal } from '../model/model.ts';
import { endOf, isBroken, placeIn } from '../model/place.ts';
import { type WayIn, waysIn, waysInReads } from './glands.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';

const box = 'enclosure BOX plastic, IP54, indoors';
const fuse = 'fuse F1 5 A, blade, 32 V, in BOX';
const feed = 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by gland M12';

export const rule: Rule = {
  slug: 'entry-unstated',
  severity: 'warning',
  group: 'entries',
  reads: ['run.enters', 'run.od', 'run.ends', 'part.in', ...waysInReads],
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
  ofRun(run) {
    if (isBroken(run.origin)) return undefined;
    const passed = wallsOf(run);
    for (const { enclosure } of run.passages) if (enclosure !== undefined) passed.delete(enclosure);
    const unstated = run.passages.filter(({ how }) => how === 'unstated');
    if (passed.size === 0 && unstated.length === 0) return undefined;
    return ({ model }) => [
      ...unstated.flatMap((passage) => howIsUnsaid(run, passage, model)),
      ...[...passed].map((wall) => wallIsUnsaid(run, wall, model)),
    ];
  },
};

function howIsUnsaid(run: Run, { enclosure, place }: Passage, model: Model): Reported[] {
  if (enclosure === undefined) return [];
  const ways = waysIn(run, enclosure, model);
  return [
    {
      message: `${run.name} enters ${enclosure.name}, but it is not said how: name the entry, gland, grommet or conduit, such as ${list(ways)}.`,
      place,
      subject: run.name,
      figures: { enclosure: enclosure.name },
      fixes: ways.map(({ by }) => ({
        title: `Add ${by}`,
        safe: false,
        edits: [{ place: endOf(place), newText: ` ${by}` }],
      })),
    },
  ];
}

function wallIsUnsaid(run: Run, wall: Part, model: Model): Reported {
  const { node } = run.origin.statement;
  const end = node.text.trimEnd().length;
  const newline = node.text.includes('\r\n') ? '\r\n' : '\n';
  const ends = run.cores[0];
  const ways = waysIn(run, wall, model);
  return {
    message: `${run.name} goes from ${ends?.from?.id ?? 'one end'} to ${ends?.to?.id ?? 'the other'} and so passes the wall of ${wall.name}: say how, such as enters ${wall.name} ${list(ways)}.`,
    place: run.namePlace,
    subject: run.name,
    figures: { enclosure: wall.name },
    related: [{ message: `${wall.name} is declared here`, place: wall.namePlace }],
    fixes: ways.map(({ by }) => ({
      title: `Add enters ${wall.name} ${by}`,
      safe: false,
      edits: [{ place: placeIn(run.origin, { start: end, end }), newText: `${newline}    enters ${wall.name} ${by}` }],
    })),
  };
}

/** `by E4`, `by E4 or by gland M20; BOX has a hole ready for it`. */
function list(ways: readonly WayIn[]): string {
  return ways.map(({ by, hole }) => `${by}${hole}`).join(' or ');
}

/** Enclosures that hold one end of a core and not the other. */
function wallsOf(run: Run): Set<Part> {
  const walls = new Set<Part>();
  for (const { from, to } of run.cores) {
    if (from === undefined || to === undefined || from.part.enclosure === to.part.enclosure) continue;
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
