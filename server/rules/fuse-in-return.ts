/** A device in the conductor that is bonded to the body, and none in the feed. */
import type { Answers, ContactFigures, CoreFigures } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { example } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { deviceName, names } from './words.ts';

const lamp = (...circuit: string[]) =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'chassis G1',
    'load LAMP 12 W',
    ...circuit,
    'run W4 4 mm² black, 0.4 m, B1:- to G1',
  );

export const rule: Rule = {
  slug: 'fuse-in-return',
  severity: 'error',
  group: 'protection',
  reads: ['run.ends', 'fuse.rating', 'breaker.rating', 'chassis.body'],
  page: {
    title: 'The only fuse is in the negative, and the negative is bonded to the body',
    why: 'When the positive cable chafes through on the body, the current goes home through the body and past the fuse. Nothing ends it. And when the fuse does blow, the appliance stays live.',
    limit:
      'Each ungrounded conductor has its device (33 CFR 183.455(a), confirmed); one in the conductor that is joined to the body protects from nothing that touches the body (IEC 60364-4-43 clause 431, from memory).',
    mend: 'Move the fuse into the positive, close to the battery or busbar.',
    see: ['supply-unfused', 'protection-too-far'],
    wrong: [
      lamp(
        'fuse F1 5 A, blade, 32 V # finds: fuse-in-return "F1"',
        'run W1 1.5 mm² red, 1.2 m, B1:+ to LAMP:+',
        'run W2 1.5 mm² black, 1.2 m, LAMP:- to F1:in',
        'run W3 1.5 mm² black, 0.2 m, F1:out to G1',
      ),
    ],
    right: [
      lamp(
        'fuse F1 5 A, blade, 32 V',
        'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
        'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
        'run W3 1.5 mm² black, 1.2 m, LAMP:- to G1',
      ),
    ],
  },
  *check(context) {
    for (const { contact, loads, feeds } of fusedInReturnOnly(context)) {
      const { part, pole } = contact;
      const name = deviceName(part, pole);
      yield {
        message: `${name} is the only device of ${names(loads)} and stands in the negative, which is bonded to the body: a positive that touches the body makes a short-circuit past it, so move it into ${feeds.length === 0 ? 'the positive' : names(feeds.map(({ core }) => core.run))}, close to the battery.`,
        place: part.namePlace,
        subject: part.name,
        figures: { pole },
        related: feeds.map(({ core }) => ({
          message: `${core.run.name} has no device`,
          place: core.run.namePlace,
        })),
      };
    }
  },
};

interface InReturn {
  readonly contact: ContactFigures;
  /** Loads whose return it parts and whose feed has no device. */
  readonly loads: readonly Part[];
  readonly feeds: readonly CoreFigures[];
}

export function fusedInReturnOnly({ answers }: Pick<RuleContext, 'answers'>): InReturn[] {
  const found: InReturn[] = [];
  for (const contacts of answers.contacts.values())
    for (const contact of contacts) {
      if (contact.device === undefined || !contact.isReturn || contact.onPanelSide) continue;
      const unfused = contact.feeds.flatMap((load) => {
        // A starter motor needs none.
        if (load.facts.says('cranking')) return [];
        const feeds = feedsOf(load, answers).filter(({ protection }) => protection.unprotectedFrom.length > 0);
        return feeds.length === 0 ? [] : [{ load, feeds }];
      });
      if (unfused.length === 0 || !isBonded(contact.part, answers)) continue;
      found.push({
        contact,
        loads: unfused.map(({ load }) => load),
        feeds: [...new Set(unfused.flatMap(({ feeds }) => feeds))],
      });
    }
  return found;
}

/** Conductors on the plus of a load. */
function feedsOf(load: Part, { network, cores }: Answers): CoreFigures[] {
  return load.terminals
    .filter(({ spec }) => spec.polarity === '+')
    .flatMap(({ id }) => network.at.get(id) ?? [])
    .flatMap((edge) => (edge.is === 'core' ? (cores.get(edge.core) ?? []) : []));
}

/** Whether the conductors of a device are joined to the body. */
function isBonded({ terminals }: Part, { network }: Answers): boolean {
  const seen = new Set(terminals);
  for (const terminal of seen) {
    if (terminal.part.kind.word === 'chassis') return true;
    for (const edge of network.at.get(terminal.id) ?? []) seen.add(edge.from === terminal ? edge.to : edge.from);
  }
  return false;
}
