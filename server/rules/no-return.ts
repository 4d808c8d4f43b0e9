/** A part that is fed and from which nothing leads back to what feeds it. */

import type { Answers } from '../answers/answers.ts';
import { endsAt } from '../answers/joining-paths.ts';
import type { Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { sunSpec } from './sun-examples.ts';
import { someNames } from './words.ts';

/** A radio on a converter whose returns are left to say. */
const radio = [
  'load RADIO 10 W',
  'run W5 1.5 mm² red, 1 m, F1:out to U1:in+',
  'run W6 1.5 mm² red, 0.5 m, U1:out+ to RADIO:+',
];

export const rule: Rule = {
  slug: 'no-return',
  severity: 'error',
  group: 'network',
  restsOnAllNames: true,
  reads: ['run.ends'],
  page: {
    title: 'No way back to the battery',
    why: 'Current flows in a circle. A part whose minus leads nowhere does nothing, and whoever looks for the fault finds full voltage at its plus.',
    limit:
      'Every part that takes current has a conductor to it and one back, and so has what charges a battery; a pole that input and output share inside serves both (common practice, no source).',
    mend: 'Join the bar, splice or body that its minus ends on to the negative of the battery, by a cable as large as the feed’s.',
    see: ['terminal-unconnected', 'polarity-reversed', 'no-source'],
    wrong: [
      lampSpec(
        { back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to NEG # finds: no-return "LAMP:-"' },
        'busbar NEG',
        'load FAN 12 W',
        'run W4 1.5 mm² red, 1 m, F1:out to FAN:+',
        'run W5 1.5 mm² black, 1 m, FAN:- to B1:-',
      ),
      lampSpec(
        {},
        ...radio,
        'converter U1 5 V, 4 A, common negative # finds: no-return "U1"',
        'run W7 1.5 mm² black, 0.5 m, U1:out- to RADIO:-',
      ),
      {
        spec: sunSpec({
          controller: 'controller U1 mppt, pv 50 V 15 A, output 15 A, common negative # finds: no-return "U1"',
        }).spec.replace('0.5 m, U1:bat- to B1:-', '0.5 m, G1 to B1:-\nchassis G1'),
      },
    ],
    right: [
      lampSpec(
        { back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to NEG' },
        'busbar NEG',
        'run W4 1.5 mm² black, 0.2 m, NEG to B1:-',
      ),
      lampSpec(
        {},
        ...radio,
        'converter U1 5 V, 4 A, common negative',
        'run W7 1.5 mm² black, 0.5 m, U1:out- to RADIO:-',
        'run W8 1.5 mm² black, 1 m, U1:out- to B1:-',
      ),
    ],
  },
  *check({ model, answers: { network, miswirings } }) {
    const groups = new Map<string, Stranded[]>();
    for (const one of miswirings.stranded) {
      const { part } = one.port;
      // What is accepted stands for no other.
      const own = isAccepted(model, 'no-return', part.name) ? part.name : '';
      // One conductor serves both ways.
      const key = [...[...joinOf(one)].sort(), one.end === undefined ? one.supply.part.name : '', own].join(' ');
      groups.set(key, [...(groups.get(key) ?? []), one]);
    }
    for (const all of groups.values()) {
      const [first] = all;
      if (first === undefined) continue;
      const { port, supply } = first;
      const [from, to] = joinOf(first);
      const parts = [...new Set(all.map((one) => one.port.part))];
      const [has, gets, give] =
        parts.length > 1 ? ['have', 'they get', 'they charge'] : ['has', 'it gets', 'it charges'];
      const feeders = [...new Set(all.map((one) => one.supply.part))];
      const feeder = feeders.length > 1 ? 'what feeds them' : supply.part.name;
      const so = all.every(({ feeds }) => feeds) ? give : gets;
      yield {
        message: `${someNames(parts)} ${has} no way back to ${feeder}, so ${so} nothing: join ${from} to ${to}.`,
        place: endsAt(port.minus, network)[0]?.place ?? port.part.namePlace,
        subject: port.part.name,
        figures: { join: `${from} ${to}` },
        related: [
          ...feeders.map((one) => ({ message: whatItDoes(one, all), place: one.namePlace })),
          ...parts.slice(1).map((part) => ({ message: `${part.name} has none either`, place: part.namePlace })),
        ],
      };
    }
  },
};

type Stranded = Answers['miswirings']['stranded'][number];

function whatItDoes(feeder: Part, stranded: readonly Stranded[]): string {
  const its = stranded.filter(({ supply }) => supply.part === feeder);
  const fed = [...new Set(its.flatMap(({ feeds, port }) => (feeds ? [] : port.part)))];
  if (fed.length === 0) return `${feeder.name} is what it is to charge`;
  return `${feeder.name} feeds ${its.length === stranded.length ? (fed.length > 1 ? 'them' : 'it') : someNames(fed)}`;
}

/** What is to be joined: a joint that several share, or the terminal itself. */
function joinOf({ port, supply, end, home }: Stranded): readonly [from: string, to: string] {
  return [(end ?? port.minus).id, home?.id ?? supply.minus.id];
}
