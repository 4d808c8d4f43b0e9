/** A device larger than the maker of an appliance allows before it. */
import type { Answers } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { feedOf } from './feed-of.ts';
import { lampSpec } from './language.ts';
import { offerRating, smallerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Reported, Rule } from './rule.ts';
import { amps, protectors } from './words.ts';

const wide = { load: 'load LAMP 60 W, lowest 10.5 V, most fuse 10 A' } as const;

export const rule: Rule = {
  slug: 'fuse-above-appliance',
  severity: 'error',
  group: 'protection',
  reads: ['load.most-fuse', 'inverter.most-fuse', 'fuse.rating', 'breaker.rating', 'fusebox.way'],
  page: {
    title: 'A fuse larger than the appliance allows',
    why: 'The fuse protects the leads and tracks inside the appliance too, which are thinner than the cable to it. A larger one lets them burn when something inside fails.',
    limit:
      'What the maker states as the largest fuse before the appliance (`most fuse`); it counts beside the cable, and the smaller of the two governs (IEC 60364-5-51 clause 510.3, makers’ instructions, from memory).',
    mend: 'Fit a fuse of at most what the maker allows. Where several appliances share it, give this one a fuse of its own.',
    see: ['cable-too-small', 'fuse-below-load'],
    wrong: [
      lampSpec({ ...wide, fuse: 'fuse F1 15 A, blade, 32 V # finds: fuse-above-appliance "15 A"' }),
      lampSpec(
        {
          fuse: 'fuse F1 100 A, bolt-in, 58 V # finds: fuse-above-appliance "100 A"',
          load: 'inverter LAMP 350 W, lowest 10.5 V, most fuse 60 A',
          feed: 'run W1 35 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 35 mm² red, 0.6 m, F1:out to LAMP:+',
          back: 'run W3 35 mm² black, 0.6 m, LAMP:- to B1:-',
        },
        'chassis G1',
        'run W4 16 mm² green/yellow, 0.6 m, LAMP:case to G1',
        'run W5 16 mm² black, 0.6 m, B1:- to G1',
      ),
    ],
    right: [lampSpec({ ...wide, fuse: 'fuse F1 10 A, blade, 32 V' })],
  },
  forKind: ({ clauses }) => clauses.some(({ id }) => id === 'most-fuse'),
  ofPart(part) {
    const most = part.facts.number('most-fuse');
    return most === undefined ? undefined : ({ answers }) => tooLarge(part, most, answers);
  },
};

function tooLarge(part: Part, most: number, answers: Answers): Reported[] {
  const feed = feedOf(part, answers);
  if (feed === undefined) return [];
  const { protection } = feed;
  // Without a device that is another finding, and a source that limits itself lets through no more.
  if (protection.blank || !Number.isFinite(protection.amps) || !exceeds(protection.amps, most)) return [];
  const [device, other] = protection.devices;
  if (device === undefined) return [];
  const own = answers.contacts.get(device.part.name)?.find(({ pole }) => pole === device.pole);
  const place = own === undefined ? device.part.namePlace : ratingPlace(own);
  const alone = other === undefined && protection.limitedSources.length === 0;
  const shared = (own?.feeds.length ?? 0) > 1;
  const smaller = own === undefined ? undefined : smallerRating(own, most);
  const fixes = alone && !shared && own !== undefined ? offerRating(own, smaller) : [];
  return [
    {
      message: `${part.name} is protected at ${amps(protection.amps)} (${protectors(protection)}), but its maker allows a fuse of ${amps(most)} at most: ${shared || !alone ? `give it a fuse of its own of ${amps(most)} or less` : `fit ${smaller === undefined ? `one of ${amps(most)} or less` : amps(smaller)}`}.`,
      place,
      subject: part.name,
      figures: { deviceAmps: protection.amps, mostAmps: most },
      related: [{ message: `${part.name} allows ${amps(most)}`, place: part.facts.place('most-fuse') }],
      fixes,
    },
  ];
}
