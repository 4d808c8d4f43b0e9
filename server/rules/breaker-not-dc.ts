/** A breaker for alternating current in a circuit of direct current. */
import type { Facts } from '../model/model.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

/** Voltages of mains (IEC 60038): one of these without a word is seldom a rating for direct current. */
const mainsVolts: ReadonlySet<number> = new Set([110, 115, 120, 127, 220, 230, 240, 380, 400, 415]);

export const rule: Rule = {
  slug: 'breaker-not-dc',
  severity: 'error',
  group: 'protection',
  reads: ['breaker.voltage'],
  page: {
    title: 'A breaker that is rated for alternating current only',
    why: 'Alternating current stops a hundred times a second, and with it the arc. Direct current does not: the breaker of a house opens, and the arc burns on between its contacts until it or the box is gone.',
    limit:
      'A breaker breaks direct current only up to the d.c. voltage that its maker states (IEC 60947-2 and IEC 60898-2, from memory); its rating for alternating current says nothing about it. A voltage is taken as one for d.c. unless it says `ac`; one of those that mains have (110 to 127, 220 to 240, 380 to 415 V, IEC 60038, from memory) is advice to say which.',
    mend: 'Fit a breaker with a d.c. rating at this voltage and say it: `60 V dc`. If the maker states one besides, write that.',
    see: ['breaker-reversed', 'fuse-voltage', 'switch-not-dc'],
    wrong: [
      lampSpec({ fuse: 'breaker F1 5 A, 230 V ac # finds: breaker-not-dc "230 V ac"' }),
      lampSpec({ fuse: 'breaker F1 5 A, 230 V # finds: breaker-not-dc "230 V"' }),
    ],
    right: [
      lampSpec({ fuse: 'breaker F1 5 A, 60 V dc, breaks 5 kA' }),
      lampSpec({ fuse: 'breaker F1 5 A, 80 V, breaks 5 kA' }),
    ],
  },
  forKind: ({ word }) => word === 'breaker',
  ofPart({ name, facts }) {
    const volts = facts.number('voltage');
    if (volts === undefined || !isNotDc(facts)) return undefined;
    const sort = facts.word('voltage', 'sort');
    const written = facts.written('voltage');
    const base = { place: facts.place('voltage'), subject: name, figures: { volts } };
    if (sort === 'ac')
      return {
        ...base,
        message: `${name} is rated ${written} ac, which is for alternating current only, and on direct current its arc may not go out: fit one with a d.c. rating and say it, such as 60 V dc.`,
      };
    return {
      ...base,
      severity: 'advice',
      message: `${name} is rated ${written}, a voltage of mains, and does not say for which current: say ${written} dc if its maker states that for direct current, else fit one that has a d.c. rating.`,
    };
  },
};

/** Whether its voltage is one for alternating current, by its word or as that of mains. */
export function isNotDc(facts: Facts): boolean {
  const volts = facts.number('voltage');
  const sort = facts.word('voltage', 'sort');
  return volts !== undefined && (sort === 'ac' || (sort === undefined && mainsVolts.has(volts)));
}
