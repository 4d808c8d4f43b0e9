/** What passes the walls of the boxes of a model: entries, glands and the cables in them. */
import type { Model, Part, Passage, Run } from '../model/model.ts';
import { threadMm } from '../tables/entry-threads.ts';

export interface Walls {
  /** Entries in the walls of a box. */
  readonly entries: ReadonlyMap<Part, readonly Part[]>;
  /** Cables through an entry. */
  readonly users: ReadonlyMap<Part, readonly Passing[]>;
  /** Cables with a gland of their own through a wall of a box. */
  readonly glands: ReadonlyMap<Part, readonly Passing[]>;
}

export interface Passing {
  readonly run: Run;
  readonly passage: Passage;
}

const gathered = new WeakMap<Model, Walls>();

/** Each model’s is gathered once, however many rules ask. */
export function wallsOf(model: Model): Walls {
  const known = gathered.get(model);
  if (known !== undefined) return known;
  const entries = new Map<Part, Part[]>();
  const users = new Map<Part, Passing[]>();
  const glands = new Map<Part, Passing[]>();
  const add = <Value>(map: Map<Part, Value[]>, part: Part, value: Value) => {
    const list = map.get(part);
    if (list === undefined) map.set(part, [value]);
    else list.push(value);
  };
  for (const part of model.parts.values())
    if (part.kind.word === 'entry' && part.enclosure !== undefined) add(entries, part.enclosure, part);
  for (const run of model.runs.values())
    for (const passage of run.passages) {
      const { entry, enclosure, how } = passage;
      if (entry !== undefined) add(users, entry, { run, passage });
      else if (enclosure !== undefined && how === 'gland') add(glands, enclosure, { run, passage });
    }
  const walls = { entries, users, glands };
  gathered.set(model, walls);
  return walls;
}

/** How many ready holes of each thread a box says it has. */
export function knockoutsOf(box: Part): Map<string, number> {
  const threads = new Map<string, number>();
  for (const facts of box.facts.each('knockouts')) {
    const thread = facts.word('knockouts', 'size');
    const count = facts.number('knockouts', 'count');
    if (thread !== undefined && count !== undefined && count > 0)
      threads.set(thread, (threads.get(thread) ?? 0) + count);
  }
  return threads;
}

/** Threads of what is screwed into the wall of a box, one for every hole that it takes. */
export function threadsIn(box: Part, walls: Walls): string[] {
  const own = (walls.entries.get(box) ?? []).map(({ facts }) => facts.word('way'));
  const single = (walls.glands.get(box) ?? []).map(({ passage }) => passage.size);
  return [...own, ...single].filter((thread) => thread !== undefined && threadMm(thread) > 0) as string[];
}

/** Outside diameters an entry says it clamps, in mm. */
export function clampsOf({ facts }: Part): { readonly leastMm: number; readonly mostMm: number } | undefined {
  const [least, most] = [facts.number('clamps', 'least'), facts.number('clamps', 'most')];
  // In `4 to 8 mm` the first is a plain number of millimetres, in `4 mm to 8 mm` a length in metres.
  return least === undefined || most === undefined
    ? undefined
    : { leastMm: least < 0.2 ? least * 1000 : least, mostMm: most * 1000 };
}
