/** A part that is fed and from which nothing leads back to what feeds it. */
import { endsAt } from '../answers/joining-paths.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

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
  *check({ answers: { network, miswirings } }) {
    for (const { port, supply, end, home } of miswirings.stranded) {
      const { part, minus } = port;
      const from = (end ?? minus).id;
      const to = home?.id ?? supply.minus.id;
      yield {
        message: `${part.name} has no way back to ${supply.part.name}, so it gets nothing: join ${from} to ${to}.`,
        place: endsAt(minus, network)[0]?.place ?? part.namePlace,
        subject: part.name,
        figures: { join: `${from} ${to}` },
        related: [{ message: `${supply.part.name} feeds it`, place: supply.part.namePlace }],
      };
    }
  },
};
