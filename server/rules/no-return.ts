/** A part that is fed and from which nothing leads back to what feeds it. */

import type { Answers } from '../answers/answers.ts';
import { endsAt } from '../answers/joining-paths.ts';
import type { Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'no-return',
  severity: 'error',
  group: 'network',
  restsOnAllNames: true,
  reads: ['run.ends'],
  page: {
    title: 'No way back to the battery',
    why: 'Current flows in a circle. A part whose minus leads nowhere does nothing, and whoever looks for the fault finds full voltage at its plus.',
    limit: 'Every part that takes current has a conductor to it and one back (common practice, no source).',
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
    ],
    right: [
      lampSpec(
        { back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to NEG' },
        'busbar NEG',
        'run W4 1.5 mm² black, 0.2 m, NEG to B1:-',
      ),
    ],
  },
  *check({ model, answers: { network, miswirings } }) {
    const groups = new Map<string, Stranded[]>();
    for (const one of miswirings.stranded) {
      const { part } = one.port;
      // What is accepted stands for no other.
      const own = isAccepted(model, 'no-return', part.name) ? part.name : '';
      const key = [...joinOf(one), one.supply.part.name, own].join(' ');
      groups.set(key, [...(groups.get(key) ?? []), one]);
    }
    for (const all of groups.values()) {
      const [first] = all;
      if (first === undefined) continue;
      const { port, supply } = first;
      const [from, to] = joinOf(first);
      const parts = [...new Set(all.map((one) => one.port.part))];
      const [has, gets] = parts.length > 1 ? ['have', 'they get'] : ['has', 'it gets'];
      yield {
        message: `${someNames(parts)} ${has} no way back to ${supply.part.name}, so ${gets} nothing: join ${from} to ${to}.`,
        place: endsAt(port.minus, network)[0]?.place ?? port.part.namePlace,
        subject: port.part.name,
        figures: { join: `${from} ${to}` },
        related: [
          { message: `${supply.part.name} feeds ${parts.length > 1 ? 'them' : 'it'}`, place: supply.part.namePlace },
          ...parts.slice(1).map((part) => ({ message: `${part.name} has none either`, place: part.namePlace })),
        ],
      };
    }
  },
};

type Stranded = Answers['miswirings']['stranded'][number];

/** What is to be joined: a joint that several share, or the terminal itself. */
function joinOf({ port, supply, end, home }: Stranded): readonly [from: string, to: string] {
  return [(end ?? port.minus).id, home?.id ?? supply.minus.id];
}

/** Parts that a message names before it counts the others. */
const mostNamed = 4;

function someNames(parts: readonly Part[]): string {
  return parts.length <= mostNamed
    ? names(parts)
    : `${parts
        .slice(0, mostNamed - 1)
        .map(({ name }) => name)
        .join(', ')} and ${parts.length - mostNamed + 1} others`;
}
