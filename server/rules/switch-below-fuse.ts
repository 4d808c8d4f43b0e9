/** An isolator, switch or relay rated below the device that protects its circuit. */
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { orSmaller } from './smaller-device.ts';
import {
  isBelowDevice,
  isBelowLoad,
  isInUnfused,
  largerSwitch,
  linkedRemark,
  protectedBy,
  ratedWith,
  ratingClause,
  worstContacts,
} from './switching.ts';
import { amps, names } from './words.ts';

const two = 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in';

export const rule: Rule = {
  slug: 'switch-below-fuse',
  severity: 'error',
  group: 'switching',
  reads: [
    'isolator.rating',
    'switch.rating',
    'relay.rating',
    'selector.rating',
    'isolator.parallel',
    'fuse.rating',
    'link.bar',
  ],
  page: {
    title: 'A switch weaker than the fuse before it',
    why: 'In a fault the current rises to what the fuse lets through. A switch rated for less overheats or welds while the fuse still holds, and direct current keeps the arc burning when it is opened.',
    limit:
      'The rated current of a switch must not be below the rating of the device that protects its circuit (IEC 60364-5-53 coordination of switches and protective devices, from memory; common practice). Poles in parallel count for more only at the figure their maker states. Where a switch feeds only fixed loads within its rating it is a warning.',
    mend: 'Fit a switch of at least the fuse’s rating, or a smaller fuse if the loads and the cable allow it.',
    see: ['switch-below-load', 'bar-on-one-side', 'fuse-below-load'],
    wrong: [
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 20 A, plugged in 12 A',
          feed: two,
          out: 'run W2 4 mm² red, 1.2 m, F1:out to S1:1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'switch S1 1 pole, 16 A dc, 24 V # finds: switch-below-fuse "16 A"',
        'run W4 4 mm² red, 1 m, S1:2 to LAMP:+',
      ),
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          feed: two,
          out: 'run W2 4 mm² red, 1.2 m, F1:out to S1:1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'switch S1 1 pole, 10 A dc, 24 V # finds: switch-below-fuse "10 A"',
        'run W4 4 mm² red, 1 m, S1:2 to LAMP:+',
      ),
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 20 A, plugged in 12 A',
          feed: two,
          out: 'run W2 4 mm² red, 1.2 m, F1:out to S1:1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'switch S1 2 poles, 15 A dc, 24 V # finds: switch-below-fuse "15 A"',
        'link S1 1-3, 2-4',
        'run W4 4 mm² red, 1 m, S1:2 to LAMP:+',
      ),
    ],
    right: [
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 20 A, plugged in 12 A',
          feed: two,
          out: 'run W2 4 mm² red, 1.2 m, F1:out to S1:1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'switch S1 1 pole, 20 A dc, 24 V',
        'run W4 4 mm² red, 1 m, S1:2 to LAMP:+',
      ),
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 20 A, plugged in 12 A',
          feed: two,
          out: 'run W2 4 mm² red, 1.2 m, F1:out to S1:1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'switch S1 2 poles, 15 A dc, 24 V, 2 in parallel 20 A',
        'link S1 1-3, 2-4',
        'run W4 4 mm² red, 1 m, S1:2 to LAMP:+',
      ),
    ],
  },
  *check(context) {
    const over = worstContacts(context, (contact) => {
      // Where a load is above the rating, that is the finding, and asks for a rating that settles both.
      const isTold = ratedWith(contact, context).some(isBelowLoad);
      return isTold || !isBelowDevice(contact) || isInUnfused(contact, context.answers)
        ? undefined
        : contact.circuitAmps - (contact.ratedAmps ?? 0);
    });
    for (const contact of over) {
      const { part, ratedAmps = 0, circuitAmps, protection, designAmps, feeds, feedsAmps } = contact;
      // Their sum counts, whether a case has them all on or not.
      const fixed = contact.feedsFixed && !exceeds(feedsAmps, ratedAmps);
      const place = part.facts.place(ratingClause(contact), 'current');
      const calm = fixed
        ? ` It feeds only ${names(feeds)}, ${amps(feedsAmps)} in all, so it will do until there is a fault.`
        : '';
      // What devices behind it let through together, one smaller device does not change.
      const smaller =
        protection.amps <= circuitAmps ? orSmaller(protection, ratedAmps, context.answers) : ', or a smaller fuse';
      yield {
        severity: fixed ? 'warning' : 'error',
        message: `${part.name} is rated ${amps(ratedAmps)}, but its circuit is protected at ${amps(circuitAmps)} (${protectedBy(contact)}): use one rated ${amps(circuitAmps)} or more${smaller}.${calm}${linkedRemark(contact)}`,
        place,
        subject: part.name,
        figures: { ratedAmps, deviceAmps: circuitAmps, designAmps, feedsAmps, pole: contact.pole },
        related: protection.devices.map(({ part: own, amps: rating }) => ({
          message: `${own.name} protects it at ${amps(rating)}`,
          place: own.facts.place('rating'),
        })),
        fixes: largerSwitch(contact, circuitAmps),
      };
    }
  },
};
