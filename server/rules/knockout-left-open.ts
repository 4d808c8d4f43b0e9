/** Ready holes that neither a gland nor a blank closes. */
import type { Part } from '../model/model.ts';
import { boxed } from './boxed.ts';
import type { Reported, Rule } from './rule.ts';
import { knockoutsOf, threadsIn, type Walls, wallsOf } from './walls.ts';

export const rule: Rule = {
  slug: 'knockout-left-open',
  severity: 'warning',
  group: 'entries',
  reads: ['enclosure.knockouts', 'enclosure.blanks', 'entry.way', 'run.enters'],
  page: {
    title: 'A hole in the box that nothing closes',
    why: 'Water, dust and fingers get in where neither a gland nor a blank is, and the box’s IP code counts for nothing.',
    limit:
      'Every hole has a gland or a blank: as many `blanks` as ready holes are left over. A box that says nothing of blanks is not judged, since a knock-out that was never knocked out is closed (common practice, no source).',
    mend: 'Fit a blanking plug in each hole that is left over, and count it in `blanks`.',
    see: ['more-entries-than-knockouts', 'box-ip-for-place'],
    wrong: [
      boxed({
        box: 'plastic, IP54, indoors, knockouts 4 x M12, blanks 1 # finds: knockout-left-open "blanks 1"',
      }),
    ],
    right: [
      boxed({ box: 'plastic, IP54, indoors, knockouts 4 x M12, blanks 2' }),
      boxed({ box: 'plastic, IP54, indoors, knockouts 4 x M12' }),
    ],
  },
  forKind: ({ word }) => word === 'enclosure',
  ofPart(box) {
    const blanks = box.facts.number('blanks');
    return blanks === undefined ? undefined : ({ model }) => stillOpen(box, blanks, wallsOf(model));
  },
};

function stillOpen(box: Part, blanks: number, walls: Walls): Reported[] {
  const holes = [...knockoutsOf(box).values()].reduce((sum, count) => sum + count, 0);
  const taken = threadsIn(box, walls).length;
  const open = holes - taken - blanks;
  if (open <= 0) return [];
  return [
    {
      message: `${box.name} has ${holes} holes, of which ${taken} ${taken === 1 ? 'has a gland' : 'have glands'} and ${blanks} ${blanks === 1 ? 'a blank' : 'blanks'}, so ${open} ${open === 1 ? 'is' : 'are'} open: fit ${open} more blank${open === 1 ? '' : 's'}.`,
      place: box.facts.place('blanks'),
      subject: box.name,
      figures: { holes, glands: taken, blanks, open },
      related: [{ message: 'The ready holes', place: box.facts.place('knockouts') }],
      fixes:
        box.facts.fact('blanks')?.fromStock === undefined
          ? [
              {
                title: `Fit ${open} more blank${open === 1 ? '' : 's'}`,
                safe: false,
                edits: [{ place: box.facts.place('blanks'), newText: `blanks ${blanks + open}` }],
              },
            ]
          : [],
    },
  ];
}
