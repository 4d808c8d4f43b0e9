/** A box in the open that does not keep out the water there. */
import type { Part } from '../model/model.ts';
import { ipDigits, leastOutdoors } from '../tables/ip-codes.ts';
import { citeWithin } from '../tables/table.ts';
import { boxed } from './boxed.ts';
import type { Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'box-ip-for-place',
  severity: 'warning',
  group: 'entries',
  reads: ['enclosure.ip', 'enclosure.exposure', 'place.exposure', 'part.at', 'part.in'],
  page: {
    title: 'A box that is not made for the weather',
    why: 'Rain and road spray get in, terminals corrode, and what was a good joint gets hot or leaks current.',
    limit: `Out of doors at least protection against splashing water, the second digit 4 of the IP code (${citeWithin(leastOutdoors.source)}); the digits mean what IEC 60529 says (confirmed).`,
    mend: 'Take a box of IPX4 or better (IP65 on a roof is usual), or put it where it is dry. If it says nothing of its IP code, state it.',
    see: ['gland-ip-below-box', 'knockout-left-open'],
    wrong: [
      boxed({ box: 'plastic, IP43, outdoors # finds: box-ip-for-place "IP43"' }),
      boxed({ box: 'plastic, outdoors # finds: box-ip-for-place "outdoors"' }),
      boxed({ box: 'plastic, IP20, at DECK # finds: box-ip-for-place "IP20"' }, 'place DECK outdoors'),
    ],
    right: [
      boxed({ box: 'plastic, IP44, outdoors' }),
      boxed({ box: 'plastic, IP20, at LOFT' }, 'place LOFT indoors'),
      boxed({ box: 'plastic, IP20, indoors, at DECK' }, 'place DECK outdoors'),
    ],
  },
  forKind: ({ word }) => word === 'enclosure',
  ofPart(box) {
    if (!standsOutdoors(box)) return undefined;
    const code = box.facts.word('ip');
    const water = ipDigits(code)?.water;
    const where = box.location?.name ?? 'out of doors';
    const related = box.location === undefined ? [] : [{ message: 'It stands here', place: box.location.namePlace }];
    if (code === undefined)
      return {
        severity: 'advice',
        message: `${box.name} stands out of doors, but its IP code is not said: state it, IPX${leastOutdoors.water} at least (such as IP65).`,
        place: box.facts.place(box.facts.says('exposure') ? 'exposure' : 'at'),
        subject: box.name,
        related,
      };
    if (water === undefined || water >= leastOutdoors.water) return undefined;
    return {
      message: `${box.name} is ${code}, which does not hold against the water ${where === 'out of doors' ? where : `at ${where}, out of doors`}: take one of IPX${leastOutdoors.water} or better, such as IP65.`,
      place: box.facts.place('ip'),
      subject: box.name,
      figures: { code, water, leastWater: leastOutdoors.water },
      related,
    };
  },
};

/** As the box says, else its place; a box in another is where that one lets the water. */
function standsOutdoors(box: Part): boolean {
  if (box.enclosure !== undefined) return false;
  const own = box.facts.word('exposure');
  return own === undefined ? box.location?.outdoors === true : own === 'outdoors';
}
