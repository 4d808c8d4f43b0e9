/** More glands of a thread than the box has ready holes of it. */
import type { Part } from '../model/model.ts';
import { boxed } from './boxed.ts';
import type { Reported, Rule } from './rule.ts';
import { knockoutsOf, threadsIn, type Walls, wallsOf } from './walls.ts';

export const rule: Rule = {
  slug: 'more-entries-than-knockouts',
  severity: 'warning',
  group: 'entries',
  reads: ['enclosure.knockouts', 'entry.way', 'run.enters'],
  page: {
    title: 'More glands than the box has holes',
    why: 'Somebody will drill one more hole, often where there is no room for its nut, or squeeze a second cable through a gland for one.',
    limit: 'The count of ready holes that the box states; common practice, no source.',
    mend: 'Let cables share a gland with several holes, take a box with more holes, or drill one and count it among the `knockouts`.',
    see: ['gland-and-knockout', 'knockout-left-open'],
    wrong: [
      boxed({
        box: 'plastic, IP54, indoors, knockouts 1 x M12 # finds: more-entries-than-knockouts "knockouts 1 x M12"',
      }),
    ],
    right: [boxed({ box: 'plastic, IP54, indoors, knockouts 2 x M12' })],
  },
  forKind: ({ word }) => word === 'enclosure',
  ofPart(box) {
    const holes = knockoutsOf(box);
    if (holes.size === 0) return undefined;
    return ({ model }) => {
      const walls = wallsOf(model);
      const used = threadsIn(box, walls);
      return [...holes].flatMap(([thread, count]) => {
        const glands = used.filter((one) => one === thread).length;
        return glands > count ? [tooMany(box, walls, thread, count, glands)] : [];
      });
    };
  },
};

function tooMany(box: Part, walls: Walls, thread: string, count: number, glands: number): Reported {
  const entries = (walls.entries.get(box) ?? []).filter(({ facts }) => facts.word('way') === thread);
  const single = (walls.glands.get(box) ?? []).filter(({ passage }) => passage.size === thread);
  return {
    message: `${box.name} has ${count} hole${count === 1 ? '' : 's'} ${thread} ready, but ${glands} glands of it go in: share a gland with several holes, or drill ${glands - count} more and say so.`,
    place: statedPlace(box, thread),
    subject: box.name,
    figures: { thread, knockouts: count, glands },
    related: [
      ...entries.map(({ name, namePlace }) => ({ message: `${name} takes one`, place: namePlace })),
      ...single.map(({ run, passage }) => ({ message: `${run.name} takes one`, place: passage.howPlace })),
    ],
  };
}

function statedPlace(box: Part, thread: string) {
  const said = box.facts.each('knockouts').find((facts) => facts.word('knockouts', 'size') === thread);
  return (said ?? box.facts).place('knockouts');
}
