/** Which way into a box a cable may take: the box’s own entries and ready holes first, else a gland by typical clamping ranges. */
import type { Model, Part, Run } from '../model/model.ts';
import { entryThread, entryThreads, threadMm } from '../tables/entry-threads.ts';
import { clampsOf, knockoutsOf, threadsIn, wallsOf } from './walls.ts';

/** The smallest usual thread for a diameter in mm; M20 where it is not known. */
export function glandFor(diameterMm: number | undefined): string {
  if (diameterMm === undefined) return 'M20';
  return (
    entryThreads.find(({ clampsMm: [least, most] }) => diameterMm >= least && diameterMm <= most)?.thread ??
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

/** Clauses of boxes and entries that decide which way in is offered. */
export const waysInReads = ['enclosure.knockouts', 'entry.way', 'entry.holes', 'entry.clamps'] as const;

/**
 * Entries of the box with a free hole, then a gland; never none. Nobody drills a wall whose ready holes are all taken while an
 * entry there has room.
 */
export function waysIn(run: Run, box: Part | undefined, model: Model): WayIn[] {
  const entries = box === undefined ? [] : freeEntries(run, box, model).slice(0, 2);
  const isDrilled =
    box !== undefined && entries.length > 0 && knockoutsOf(box).size > 0 && freeKnockouts(box, model).length === 0;
  return [
    ...entries.map(({ name }) => ({
      by: `by ${name}`,
      advice: `take it through ${name}, which has a free hole`,
      thread: undefined,
      hole: '',
    })),
    ...(isDrilled ? [] : [glandInto(run, box, model)]),
  ];
}

/** A gland of its own: that of a ready hole where it suits the cable. */
export function glandInto(run: Run, box: Part | undefined, model: Model): WayIn {
  const od = run.outerDiameterMm;
  const free = box === undefined ? [] : freeKnockouts(box, model);
  const ready = free.find((thread) => od === undefined || takes(thread, od) === true);
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
  return { by: `by gland ${thread}`, advice: `fit a gland${which}${hole}`, thread, hole };
}

/** Whether a gland of this thread usually clamps a diameter; of a thread that is not in the table nothing is known. */
function takes(thread: string | undefined, diameterMm: number): boolean | undefined {
  const known = entryThread(thread);
  return known === undefined ? undefined : diameterMm >= known.clampsMm[0] && diameterMm <= known.clampsMm[1];
}

function freeEntries(run: Run, box: Part, model: Model): Part[] {
  const { entries, users } = wallsOf(model);
  return (entries.get(box) ?? []).filter((entry) => {
    const holes = entry.facts.number('holes') ?? 1;
    return (users.get(entry) ?? []).length < holes && clamps(entry, holes, run.outerDiameterMm);
  });
}

/** By the range that it states; of one hole and no range by its thread’s typical one. Of several holes only the maker knows. */
function clamps(entry: Part, holes: number, diameterMm: number | undefined): boolean {
  if (diameterMm === undefined) return true;
  const stated = clampsOf(entry);
  if (stated !== undefined) return diameterMm >= stated.leastMm && diameterMm <= stated.mostMm;
  return holes !== 1 || takes(entry.facts.word('way'), diameterMm) !== false;
}

/** Threads of the ready holes that nothing takes yet, the smallest first. */
function freeKnockouts(box: Part, model: Model): string[] {
  const taken = threadsIn(box, wallsOf(model));
  return [...knockoutsOf(box)]
    .filter(([thread, count]) => taken.filter((one) => one === thread).length < count)
    .map(([thread]) => thread)
    .sort((one, other) => threadMm(one) - threadMm(other));
}
