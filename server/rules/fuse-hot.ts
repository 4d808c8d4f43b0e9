/** A fuse in a warm place that its own load comes near: there it bears less than its rating. */
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { largerRating, offerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Rule } from './rule.ts';
import { amps, deviceName, percent, takes, temperature } from './words.ts';

/** Temperature at which fuses are rated, °C, and what they lose for each degree above. Common practice, no source. */
const ratedCelsius = 25;
const lostPerDegree = 0.002;

/** What of its rating a fuse bears at a temperature. */
export function bornShare(celsius: number): number {
  return Math.max(0, 1 - lostPerDegree * Math.max(0, celsius - ratedCelsius));
}

const near = {
  load: 'load LAMP 9.4 A',
  feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 4 mm² red, 1.2 m, F1:out to LAMP:+',
} as const;

export const rule: Rule = {
  slug: 'fuse-hot',
  severity: 'advice',
  group: 'protection',
  reads: ['fuse.rating', 'fusebox.way', 'place.temperature', 'part.at', 'load.power', 'load.current'],
  page: {
    title: 'A fuse near its rating in a warm place',
    why: 'A fuse melts by its own heat, and in a warm place it needs less of it. One that just bears its load on the bench blows in the engine bay in summer.',
    limit:
      'A fuse is rated in still air of about 25 °C and bears about 0.2 % less for each degree above that (common practice, no source; its maker’s curve counts more). The warmth is that of the place the fuse is at. Breakers differ too much and are not judged, nor are panel circuits, whose fuses are chosen well above their current.',
    mend: 'Bring the fuse to a cooler place, take the next larger one if the cable may have it, or share the load.',
    see: ['fuse-below-load', 'cable-too-small'],
    wrong: [
      lampSpec(
        { ...near, fuse: 'fuse F1 10 A, blade, 32 V, at BAY # finds: fuse-hot "10 A"' },
        'place BAY engine space, 60 °C',
      ),
    ],
    right: [
      lampSpec({ ...near, fuse: 'fuse F1 10 A, blade, 32 V, at BAY' }, 'place BAY engine space, 50 °C'),
      lampSpec({ ...near, fuse: 'fuse F1 10 A, blade, 32 V' }),
    ],
  },
  *check({ model, answers }) {
    for (const contacts of answers.contacts.values())
      for (const contact of contacts) {
        const { part, pole, device, designAmps } = contact;
        const { location } = part;
        const celsius = location?.celsius;
        if (part.kind.word === 'breaker' || device?.amps === undefined || device.blank) continue;
        if (location === undefined || celsius === undefined || contact.onPanelSide) continue;
        const bears = device.amps * bornShare(celsius);
        // Above its rating it blows anywhere: that is another finding.
        if (!exceeds(designAmps, bears) || exceeds(designAmps, device.amps)) continue;
        yield {
          message: `${deviceName(part, pole)} (${amps(device.amps)}) bears about ${amps(bears)} at ${location.name}, ${temperature(celsius, model)} (${percent(100 * lostPerDegree)} less a degree above ${temperature(ratedCelsius, model)}; common practice, no source), but ${takes(contact, designAmps)}: put it somewhere cooler, or fit the next larger one if its cable may have that.`,
          place: ratingPlace(contact),
          subject: part.name,
          figures: { ratedAmps: device.amps, bearsAmps: bears, designAmps, celsius, pole },
          fixes: offerRating(contact, largerRating(contact, designAmps / bornShare(celsius), answers)),
          related: [{ message: `${location.name} is where it gets warm`, place: location.namePlace }],
        };
      }
  },
};
