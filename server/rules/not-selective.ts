/** A device behind a smaller one that feeds other things besides: a fault on one circuit takes the others with it. */
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { offerRating, smallerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Rule } from './rule.ts';
import { amps, deviceName, names } from './words.ts';

const two = (main: string, way: string, heavy = '18 A') =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    `fuse F1 ${main}, blade, 32 V`,
    `fuse F2 ${way}`,
    'fuse F3 5 A, blade, 32 V',
    'busbar POS 100 A',
    'busbar NEG 100 A',
    `load PUMP ${heavy}`,
    'load LAMP 12 W',
    'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 10 mm² red, 0.4 m, F1:out to POS',
    'run W3 10 mm² red, 0.1 m, POS to F2:in',
    'run W4 10 mm² red, 1 m, F2:out to PUMP:+',
    'run W5 10 mm² black, 1 m, PUMP:- to NEG',
    'run W6 1.5 mm² red, 0.1 m, POS to F3:in',
    'run W7 1.5 mm² red, 1 m, F3:out to LAMP:+',
    'run W8 1.5 mm² black, 1 m, LAMP:- to NEG',
    'run W9 10 mm² black, 0.4 m, NEG to B1:-',
  );

export const rule: Rule = {
  slug: 'not-selective',
  severity: 'warning',
  group: 'protection',
  reads: ['fuse.rating', 'breaker.rating', 'fusebox.way', 'run.ends'],
  page: {
    title: 'A fuse behind a smaller one',
    why: 'When something fails on that circuit, the smaller fuse before it goes first, and with it the lamps and the cooler that hang on it too. Nobody then finds the fault where it is.',
    limit:
      'Of devices in series the one nearest the fault opens first, so its rating is below that of those before it (IEC 60364-5-53 clause 535, selectivity between devices in series, from memory). Of equal ratings either may go first, which is advice. Where everything behind the first passes the second too nothing more is lost, and nothing is found. Only ratings are compared: how much larger the first must be for fast faults is for the makers’ curves to tell.',
    mend: 'Fit a smaller device behind, or a larger one before it if its cable may have that.',
    see: ['fuse-below-load', 'fuse-breaking-capacity'],
    wrong: [
      two('30 A', '40 A, bolt-in, 58 V # finds: not-selective "40 A"'),
      two('30 A', '30 A, bolt-in, 58 V # finds: not-selective "30 A"'),
    ],
    right: [two('40 A', '30 A, bolt-in, 58 V')],
  },
  *check({ answers }) {
    for (const contacts of answers.contacts.values())
      for (const contact of contacts) {
        const { part, pole, device, protection, onPanelSide, isReturn } = contact;
        if (device?.amps === undefined || device.blank || onPanelSide || isReturn) continue;
        const { devices, limitedSources, blank } = protection;
        if (blank || limitedSources.length > 0 || devices.length === 0) continue;
        // The smallest in series protects it; that is itself, unless one before it is smaller or the same.
        if (devices.some((one) => one.part === part && one.pole === pole)) continue;
        if (exceeds(protection.amps, device.amps)) continue;
        const before = devices.flatMap((one) => {
          const figures = answers.contacts.get(one.part.name)?.find((other) => other.pole === one.pole);
          return figures === undefined ? [] : [{ ...one, figures, name: deviceName(one.part, one.pole) }];
        });
        // One that its own loads blow is told of as that.
        if (before.some(({ figures, amps: rating }) => exceeds(figures.designAmps, rating))) continue;
        const lost = before.flatMap(({ figures }) => figures.feeds.filter((load) => !contact.feeds.includes(load)));
        if (lost.length === 0) continue;
        const same = !exceeds(device.amps, protection.amps);
        const others = names(lost.slice(0, 3)) + (new Set(lost).size > 3 ? ' and more' : '');
        yield {
          ...(same ? { severity: 'advice' as const } : {}),
          message: `${deviceName(part, pole)} is ${amps(device.amps)}, but ${names(before)} before it ${before.length === 1 ? 'is' : 'are'} ${same ? 'the same' : `only ${amps(protection.amps)}`}, so a fault behind it ${same ? 'may take' : 'takes'} ${others} off as well: fit less than ${amps(protection.amps)}, or more before it if the cable may have that.`,
          place: ratingPlace(contact),
          subject: part.name,
          figures: { ratedAmps: device.amps, beforeAmps: protection.amps, pole },
          fixes: offerRating(contact, smallerRating(contact, protection.amps * (1 - 1e-9))),
          related: before.map((one) => ({
            message: `${one.name} goes first`,
            place: ratingPlace(one.figures),
          })),
        };
      }
  },
};
