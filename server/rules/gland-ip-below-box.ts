/** An entry that lets in what its box keeps out. */
import { ipDigits, ipMeaning, ipSource } from '../tables/ip-codes.ts';
import { boxed } from './boxed.ts';
import type { Rule } from './rule.ts';

const through = { box: 'plastic, IP65, outdoors', out: 'enters BOX by E1' };

export const rule: Rule = {
  slug: 'gland-ip-below-box',
  severity: 'warning',
  group: 'entries',
  reads: ['entry.ip', 'enclosure.ip', 'part.in'],
  page: {
    title: 'An entry with less protection than its box',
    why: 'A box is as tight as its weakest hole: through this one comes what the box was bought to keep out.',
    limit: `Both digits of the entry’s IP code are at least those of the box (${ipSource.citation}, ${ipSource.status}; that the least governs is common practice, no source).`,
    mend: 'Take a gland of the same IP code as the box or better.',
    see: ['box-ip-for-place', 'gland-and-cable'],
    wrong: [
      boxed(through, 'entry E1 in BOX, gland M16, IP64 # finds: gland-ip-below-box "IP64"'),
      boxed(through, 'entry E1 in BOX, gland M16, IP55 # finds: gland-ip-below-box "IP55"'),
    ],
    right: [
      boxed(through, 'entry E1 in BOX, gland M16, IP65'),
      boxed(through, 'entry E1 in BOX, gland M16, IP68'),
      boxed(through, 'entry E1 in BOX, gland M16'),
    ],
  },
  forKind: ({ word }) => word === 'entry',
  ofPart(entry) {
    const box = entry.enclosure;
    const [own, whole] = [entry.facts.word('ip'), box?.facts.word('ip')];
    const [here, wanted] = [ipDigits(own), ipDigits(whole)];
    if (box === undefined || here === undefined || wanted === undefined) return undefined;
    const below = (a: number | undefined, b: number | undefined) => a !== undefined && b !== undefined && a < b;
    if (!below(here.solids, wanted.solids) && !below(here.water, wanted.water)) return undefined;
    const meaning = ipMeaning(own ?? '');
    return {
      message: `${entry.name} is ${own}${meaning === undefined ? '' : ` (${meaning})`}, but ${box.name} is ${whole}, and a box is as tight as its weakest hole: take an entry of ${whole} or better.`,
      place: entry.facts.place('ip'),
      subject: entry.name,
      figures: { entry: own ?? '', box: whole ?? '' },
      related: [{ message: `${box.name} is ${whole}`, place: box.facts.place('ip') }],
      fixes:
        entry.facts.fact('ip')?.fromStock === undefined
          ? [
              {
                title: `Use one of ${whole}`,
                safe: false,
                edits: [{ place: entry.facts.place('ip'), newText: whole ?? '' }],
              },
            ]
          : [],
    };
  },
};
