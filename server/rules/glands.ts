/** Which way into a box a cable may take: the box’s own entries and ready holes first, else a gland by typical clamping ranges. */
import type { Model, Part, Run } from '../model/model.ts';

/**
 * Thread, and the outside diameters it typically clamps, mm. EN 62444 does not fix these; typical figures, from memory: the
 * maker's range counts.
 */
const typical: readonly (readonly [string, number, number])[] = [
  ['M12', 3, 6],
  ['M16', 4.5, 10],
  ['M20', 6, 12],
  ['M25', 11, 17],
  ['M32', 15, 21],
  ['M40', 19, 28],
  ['M50', 27, 35],
  ['M63', 34, 45],
];

/** The smallest usual thread for a diameter in mm; M20 where it is not known. */
export function glandFor(diameterMm: number | undefined): string {
  if (diameterMm === undefined) return 'M20';
  return (
    typical.find(([, least, most]) => diameterMm >= least && diameterMm <= most)?.[0] ??
    (diameterMm < 3 ? 'M12' : 'M63')
  );
}

/** A way in that may be offered. */
export interface WayIn {
  /** As the run says it: `by E4`, `by gland M20`. */
  readonly by: string;
  /** As a message advises it: `take it through E4, which has a free hole`. */
  readonly advice: string;
  /** Thread of the gland to fit; undefined for an entry that is there. */
  readonly thread: string | undefined;
  /** The hole that is ready for it: `; BOX has a hole ready for it`, or nothing. */
  readonly hole: string;
}

/** Entries of the box with a free hole, then a gland: that of a ready hole where it suits the cable; never none. */
export function waysIn(run: Run, box: Part | undefined, model: Model): WayIn[] {
  const entries = box === undefined ? [] : freeEntries(run, box, model).slice(0, 2);
  const od = run.outerDiameterMm;
  const free = box === undefined ? [] : freeKnockouts(box, model);
  const ready = free.find((thread) => od === undefined || takes(thread, od));
  const thread = ready ?? glandFor(od);
  const reduced = free.find((one) => threadMm(one) > threadMm(thread));
  const hole =
    ready !== undefined
      ? `; ${box?.name} has a hole ready for it`
      : reduced !== undefined
        ? `; with a reducer it fits a hole ${reduced} that ${box?.name} has ready`
        : '';
  const which =
    od === undefined
      ? ` ${ready === undefined ? '' : `${ready} `}that suits its outside diameter`
      : `, ${thread} for ${od} mm`;
  return [
    ...entries.map(({ name }) => ({
      by: `by ${name}`,
      advice: `take it through ${name}, which has a free hole`,
      thread: undefined,
      hole: '',
    })),
    { by: `by gland ${thread}`, advice: `fit a gland${which}${hole}`, thread, hole },
  ];
}

const threadMm = (thread: string): number => Number(/^M(\d+(?:\.\d+)?)$/.exec(thread)?.[1] ?? 0);

function takes(thread: string, diameterMm: number): boolean {
  return typical.some(([name, least, most]) => name === thread && diameterMm >= least && diameterMm <= most);
}

function freeEntries(run: Run, box: Part, model: Model): Part[] {
  const { entries, users } = wallsOf(model);
  return (entries.get(box) ?? []).filter((entry) => {
    const holes = entry.facts.number('holes') ?? 1;
    return (users.get(entry) ?? 0) < holes && clamps(entry, holes, run.outerDiameterMm);
  });
}

/** By the range that it states; of one hole and no range by its thread’s typical one. Of several holes only the maker knows. */
function clamps(entry: Part, holes: number, diameterMm: number | undefined): boolean {
  if (diameterMm === undefined) return true;
  const { facts } = entry;
  const most = facts.number('clamps', 'most');
  const least = facts.number('clamps', 'least');
  if (most !== undefined && least !== undefined) {
    // In `4 to 8 mm` the first is a plain number of millimetres, in `4 mm to 8 mm` a length in metres.
    const leastMm = least < 0.2 ? least * 1000 : least;
    return diameterMm >= leastMm && diameterMm <= most * 1000;
  }
  const thread = facts.word('way');
  const range = holes === 1 ? typical.find(([name]) => name === thread) : undefined;
  return range === undefined || (diameterMm >= range[1] && diameterMm <= range[2]);
}

/** Threads of the ready holes that nothing takes yet, the smallest first. */
function freeKnockouts(box: Part, model: Model): string[] {
  const threads = new Map<string, number>();
  for (const facts of box.facts.each('knockouts')) {
    const thread = facts.word('knockouts', 'size') ?? '';
    threads.set(thread, (threads.get(thread) ?? 0) + (facts.number('knockouts', 'count') ?? 0));
  }
  const walls = wallsOf(model);
  return [...threads]
    .filter(([thread, count]) => {
      const entries = (walls.entries.get(box) ?? []).filter(({ facts }) => facts.word('way') === thread).length;
      const glands = (walls.glands.get(box) ?? []).filter((size) => size === thread).length;
      return entries + glands < count;
    })
    .map(([thread]) => thread)
    .sort((one, other) => threadMm(one) - threadMm(other));
}

/** What passes the walls of a model: each model’s is gathered once, however many of its runs ask. */
interface Walls {
  readonly entries: Map<Part, Part[]>;
  /** How many cables go through an entry. */
  readonly users: Map<Part, number>;
  /** Sizes of the glands that single cables have. */
  readonly glands: Map<Part, (string | undefined)[]>;
}

const gathered = new WeakMap<Model, Walls>();

function wallsOf(model: Model): Walls {
  const known = gathered.get(model);
  if (known !== undefined) return known;
  const walls: Walls = { entries: new Map(), users: new Map(), glands: new Map() };
  for (const part of model.parts.values())
    if (part.kind.word === 'entry' && part.enclosure !== undefined)
      walls.entries.set(part.enclosure, [...(walls.entries.get(part.enclosure) ?? []), part]);
  for (const { passages } of model.runs.values())
    for (const { entry, enclosure, how, size } of passages) {
      if (entry !== undefined) walls.users.set(entry, (walls.users.get(entry) ?? 0) + 1);
      if (enclosure !== undefined && how === 'gland')
        walls.glands.set(enclosure, [...(walls.glands.get(enclosure) ?? []), size]);
    }
  gathered.set(model, walls);
  return walls;
}
