/** A gland whose thread is none of the holes that its box has ready. */
import type { Part, Place } from '../model/model.ts';
import { threadMm, threadSource } from '../tables/entry-threads.ts';
import { citeWithin } from '../tables/table.ts';
import { boxed } from './boxed.ts';
import type { Reported, Rule } from './rule.ts';
import { knockoutsOf, type Walls, wallsOf } from './walls.ts';

export const rule: Rule = {
  slug: 'gland-and-knockout',
  severity: 'warning',
  group: 'entries',
  reads: ['entry.way', 'run.enters', 'enclosure.knockouts'],
  page: {
    title: 'A gland that fits none of the holes',
    why: 'A gland larger than the hole does not go in; one that is smaller falls through, and its nut has nothing to seal on.',
    limit: `The threads of the ready holes that the box states; the clearance hole of a thread is half a millimetre above it (${citeWithin(threadSource)}).`,
    mend: 'Take a gland of the thread that the hole has, with a reducer where the hole is larger, or an adapter or a new hole where it is smaller. If the hole is drilled, say so among the `knockouts`.',
    see: ['more-entries-than-knockouts', 'gland-and-cable'],
    wrong: [
      boxed({
        box: 'plastic, IP54, indoors, knockouts 2 x M16',
        into: 'enters BOX by gland M16',
        out: 'enters BOX by gland M20 # finds: gland-and-knockout "by gland M20"',
      }),
      boxed(
        {
          box: 'plastic, IP54, indoors, knockouts 2 x M20',
          into: 'enters BOX by gland M20',
          out: 'enters BOX by E1',
        },
        'entry E1 in BOX, gland M16 # finds: gland-and-knockout "gland M16"',
      ),
    ],
    right: [
      boxed({
        box: 'plastic, IP54, indoors, knockouts 1 x M16, knockouts 1 x M20',
        into: 'enters BOX by gland M16',
        out: 'enters BOX by gland M20',
      }),
    ],
  },
  forKind: ({ word }) => word === 'enclosure',
  ofPart(box) {
    const holes = [...knockoutsOf(box).keys()];
    return holes.length === 0 ? undefined : ({ model }) => misfits(box, holes, wallsOf(model));
  },
};

function* misfits(box: Part, holes: readonly string[], walls: Walls): Generator<Reported> {
  const fittings: { readonly thread: string | undefined; readonly place: Place; readonly subject: string }[] = [
    ...(walls.entries.get(box) ?? []).map((entry) => ({
      thread: entry.facts.word('way'),
      place: entry.facts.place('way'),
      subject: entry.name,
    })),
    ...(walls.glands.get(box) ?? []).map(({ run, passage }) => ({
      thread: passage.size,
      place: passage.howPlace,
      subject: run.name,
    })),
  ];
  for (const { thread, place, subject } of fittings) {
    if (thread === undefined || threadMm(thread) === 0 || holes.includes(thread)) continue;
    const larger = holes
      .filter((hole) => threadMm(hole) > threadMm(thread))
      .sort((a, b) => threadMm(a) - threadMm(b))[0];
    yield {
      ...(larger === undefined ? {} : { severity: 'advice' as const }),
      message:
        larger === undefined
          ? `The gland ${thread} of ${subject} does not go into a hole of ${box.name}, which has ${holes.join(' and ')} ready: take one of that thread, or drill the hole and say it among the knockouts.`
          : `The gland ${thread} of ${subject} is smaller than the ready holes of ${box.name} (${holes.join(' and ')}): fit a reducer ${larger} to ${thread}, or take a gland ${larger} if it suits the cable.`,
      place,
      subject,
      figures: { thread, holes: holes.join(' ') },
      related: [knockoutsPlace(box)],
    };
  }
}

function knockoutsPlace(box: Part) {
  return { message: `The ready holes of ${box.name}`, place: box.facts.place('knockouts') };
}
