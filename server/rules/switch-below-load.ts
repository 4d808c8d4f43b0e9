/** An isolator, switch or relay rated below what it has to carry. */
import type { ContactFigures } from '../answers/answers.ts';
import { exceeds } from './exceeds.ts';
import { example, lampSpec } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import {
  carriedBy,
  isBelowDevice,
  isBelowLoad,
  largerSwitch,
  linkedRemark,
  protectedBy,
  ratedWith,
  ratingClause,
  worstContacts,
} from './switching.ts';
import { amps, panelFactor } from './words.ts';

const feed = 'run W1 6 mm² red, 0.1 m, B1:+ to F1:in';
const back = 'run W3 6 mm² black, 1.3 m, LAMP:- to B1:-';
const out = 'run W2 6 mm² red, 1.2 m, F1:out to S1:1';

/** One panel behind an isolator: 6.2 A × 1.25 = 7.75 A. */
function sunny(isolator: string) {
  return example(
    'system "Shed" 12 V',
    'panel P1 100 W, voc 21.5 V, isc 6.2 A, vmp 17.6 V, imp 5.7 A',
    isolator,
    'controller U1 mppt, pv 100 V 20 A, output 10 A, common negative',
    'fuse F1 15 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
    'run W2 4 mm² black, 2 m, P1:- to Q1:3',
    'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
    'run W4 4 mm² black, 3 m, Q1:4 to U1:pv-',
    'run W5 4 mm² red, 0.4 m, U1:bat+ to F1:out',
    'run W6 4 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 4 mm² black, 0.4 m, U1:bat- to B1:-',
  );
}

export const rule: Rule = {
  slug: 'switch-below-load',
  severity: 'error',
  group: 'switching',
  reads: [
    'isolator.rating',
    'switch.rating',
    'relay.rating',
    'selector.rating',
    'isolator.parallel',
    'load.power',
    'panel.isc',
    'fuse.rating',
  ],
  page: {
    title: 'A switch weaker than its load',
    why: 'It runs hot in ordinary use, its contacts burn, and it may not open when it must.',
    limit:
      'The rated current of one pole, or the maker’s figure for linked poles, against the design current. On the panel side the rating needed is 1.25 times the sum of the short-circuit currents of the strings in parallel (IEC 62548, from memory); both figures are shown. Where a device before one of its poles is larger still, the rating asked for is that of the device, so that one switch settles both.',
    mend: 'Fit a switch of a higher d.c. rating, of no less than the fuse before it, or share the load over two circuits.',
    see: ['switch-below-fuse', 'bar-on-one-side', 'string-fuse-needed'],
    wrong: [
      lampSpec(
        { fuse: 'fuse F1 20 A, blade, 32 V', load: 'load LAMP 150 W, lowest 10 V', feed, back, out },
        'switch S1 1 pole, 10 A dc, 24 V # finds: switch-below-load "10 A"',
        'run W4 6 mm² red, 1 m, S1:2 to LAMP:+',
      ),
      sunny('isolator Q1 2 poles, 6 A dc, 60 V # finds: switch-below-load "6 A"'),
    ],
    right: [
      lampSpec(
        { fuse: 'fuse F1 20 A, blade, 32 V', load: 'load LAMP 150 W, lowest 10 V', feed, back, out },
        'switch S1 1 pole, 20 A dc, 24 V',
        'run W4 6 mm² red, 1 m, S1:2 to LAMP:+',
      ),
      sunny('isolator Q1 2 poles, 8 A dc, 60 V'),
    ],
  },
  *check(context) {
    const over = worstContacts(context, (contact) =>
      isBelowLoad(contact) ? carriedBy(contact) - (contact.ratedAmps ?? 0) : undefined,
    );
    for (const contact of over) {
      const { part, ratedAmps = 0, designAmps, neededAmps, shortCircuitAmps, pole } = contact;
      const carries =
        neededAmps === undefined
          ? `but carries ${amps(designAmps)}`
          : `but the panels can give ${amps(shortCircuitAmps ?? 0)}, which asks for ${amps(neededAmps)} (× ${panelFactor(context.answers)})`;
      const guarded = mostGuarded(contact, context);
      const whose = guarded?.pole === pole ? 'its circuit' : `the circuit of its pole ${guarded?.pole}`;
      const why =
        guarded === undefined
          ? carries
          : `${carries}, and ${whose} is protected at ${amps(guarded.circuitAmps)} (${protectedBy(guarded)})`;
      const needed = guarded?.circuitAmps ?? carriedBy(contact);
      yield {
        message: `${part.name} is rated ${amps(ratedAmps)}, ${why}: use one rated ${amps(needed)} or more for direct current.${linkedRemark(contact)}`,
        place: part.facts.place(ratingClause(contact), 'current'),
        subject: part.name,
        figures: {
          ratedAmps,
          designAmps,
          pole,
          ...(neededAmps === undefined ? {} : { neededAmps, shortCircuitAmps: shortCircuitAmps ?? 0 }),
          ...(guarded === undefined ? {} : { deviceAmps: guarded.circuitAmps }),
        },
        fixes: largerSwitch(contact, needed),
      };
    }
  },
};

/** Of what the same rating holds for, the one whose protecting device asks for more than any of them carries. */
function mostGuarded(contact: ContactFigures, context: RuleContext): ContactFigures | undefined {
  return ratedWith(contact, context)
    .filter((one) => isBelowDevice(one) && exceeds(one.circuitAmps, carriedBy(contact)))
    .sort(
      (one, other) =>
        other.circuitAmps - one.circuitAmps || Math.abs(one.pole - contact.pole) - Math.abs(other.pole - contact.pole),
    )[0];
}
