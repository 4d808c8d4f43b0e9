/** A device rated below the design current of what it feeds. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import { slotNumber } from '../model/facts.ts';
import type { Place, Run } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { fuseAmps } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { amps, deviceName, names } from './words.ts';

export const rule: Rule = {
  slug: 'fuse-below-load',
  severity: 'warning',
  group: 'protection',
  reads: [
    'fuse.rating',
    'breaker.rating',
    'fusebox.way',
    'load.power',
    'load.lowest',
    'inverter.efficiency',
    'system.limits',
  ],
  page: {
    title: 'A fuse that its own load will blow',
    why: 'It blows in ordinary use, on the night it is needed, and the next one put in is a larger one.',
    limit:
      'Ib ≤ In: the design current must not be above the device’s rating (IEC 60364-4-43 clause 433.1, confirmed). A load in watts takes more current the lower its voltage: it is reckoned at its lowest stated voltage, else at 0.875 of nominal (common practice, no source).',
    mend: 'Fit the next larger fuse that the cable allows; if the cable does not allow it, the cable is too small for the load.',
    see: ['cable-too-small', 'switch-below-load', 'breaks-too-little'],
    wrong: [
      lampSpec({
        fuse: 'fuse F1 5 A, blade, 32 V # finds: fuse-below-load "5 A"',
        load: 'load LAMP 60 W, lowest 10.5 V',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
    ],
    right: [
      lampSpec({
        fuse: 'fuse F1 7.5 A, blade, 32 V',
        load: 'load LAMP 60 W, lowest 10.5 V',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
    ],
  },
  *check({ answers }) {
    for (const contacts of answers.contacts.values()) {
      for (const contact of contacts) {
        const { part, pole, designAmps, device, feeds, onPanelSide } = contact;
        if (device?.amps === undefined || device.blank || onPanelSide || !exceeds(designAmps, device.amps)) continue;
        if (feeds.length > 0 && feeds.every(({ facts }) => facts.says('cranking'))) continue;
        const rating = device.amps;
        const place = ratingPlace(contact);
        const larger = fuseAmps(part.facts.word('style')).find((candidate) => candidate >= designAmps);
        const cable = larger === undefined ? undefined : cableBelow(larger, contact, answers);
        const who = feeds.length === 0 ? 'what it feeds' : feeds.length <= 3 ? names(feeds) : `${feeds.length} loads`;
        yield {
          message: `${deviceName(part, pole)} is ${amps(rating)}, but ${who} can take ${amps(designAmps)}, so it will blow in ordinary use: ${larger === undefined ? 'share the load over several circuits' : cable === undefined ? `fit ${amps(larger)}` : `fit ${amps(larger)} and a larger cable for ${cable.run.name}, which may have ${amps(cable.permittedAmps)} at most, or take less load`}.`,
          place,
          subject: part.name,
          figures: { deviceAmps: rating, designAmps, pole },
          related: feeds.slice(0, 4).map((load) => ({ message: `${load.name} hangs on it`, place: load.namePlace })),
          fixes:
            larger === undefined || cable !== undefined || part.facts.fact('rating')?.fromStock !== undefined
              ? []
              : [{ title: `Fit ${larger} A`, safe: false, edits: [{ place, newText: `${larger} A` }] }],
        };
      }
    }
  },
};

/** The weakest cable that the device alone protects, where it could not bear a device of this rating. */
function cableBelow(
  rating: number,
  { part, pole }: ContactFigures,
  { cores, limits, systemVolts }: Answers,
): { run: Run; permittedAmps: number } | undefined {
  let weakest: { run: Run; permittedAmps: number } | undefined;
  for (const { core, capacity, protection } of cores.values()) {
    const [device, other] = protection.devices;
    if (capacity === undefined || other !== undefined || protection.limitedSources.length > 0) continue;
    if (device?.part !== part || device.pole !== pole) continue;
    const { amps: permittedAmps } = limits.permittedDeviceAmps(capacity, systemVolts);
    if (permittedAmps < rating && permittedAmps < (weakest?.permittedAmps ?? Number.POSITIVE_INFINITY))
      weakest = { run: core.run, permittedAmps };
  }
  return weakest;
}

/** The rating's words: of a fusebox, those of the way. */
export function ratingPlace({ part, pole }: ContactFigures): Place {
  if (part.kind.word !== 'fusebox')
    return part.facts.place('rating', part.kind.word === 'fuse' || part.kind.word === 'breaker' ? 'rating' : undefined);
  for (const { clause, origin, fromStock } of [...part.facts.all('way')].reverse()) {
    const value = (slot: string) => clause.values.find((one) => one.slot === slot);
    const [first, last, rating] = [value('way'), value('last'), value('rating')];
    const from = first === undefined ? undefined : slotNumber(first);
    const to = last === undefined ? from : slotNumber(last);
    if (from === undefined || to === undefined || pole < from || pole > to || fromStock !== undefined) continue;
    return placeIn(origin, rating?.span ?? clause.span);
  }
  return part.namePlace;
}
