/** A case of which no currents and voltages could be found. */
import { lampSpec, notationsOwn } from './language.ts';
import type { Rule } from './rule.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'case-unanswered',
  severity: 'error',
  group: 'spec',
  restsOnAllNames: true,
  scope: 'whole',
  reads: ['case.state', 'load.power'],
  page: {
    title: 'A case without an answer',
    why: 'Of such a case no current, drop or voltage is known, so nothing that rests on it is checked: a spec that looks clean may not be.',
    limit: notationsOwn,
    mend: 'Where nothing at all can be fed, look for a plus and a minus that are swapped; where a relay never comes to rest, feed its coil from before its contact.',
    see: ['polarity-reversed', 'short-circuit', 'voltage-collapse'],
    wrong: [
      lampSpec(
        {
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:- # finds: polarity-reversed "LAMP:-"',
          back: 'run W3 1.5 mm² black, 1.3 m, LAMP:+ to B1:-',
        },
        'case evening all loads on # finds: case-unanswered "evening"',
      ),
    ],
    right: [lampSpec({}, 'case evening all loads on')],
  },
  *check({ model, answers }) {
    const byTrouble = new Map<string, string[]>();
    for (const { name, converged, trouble, overloads } of answers.cases) {
      // What asks too much is told by voltage-collapse.
      if (converged || overloads.length > 0) continue;
      const why = trouble ?? 'no stable state was found';
      byTrouble.set(why, [...(byTrouble.get(why) ?? []), name]);
    }
    for (const [trouble, cases] of byTrouble) {
      const [first = ''] = cases;
      const stated = model.cases.find(({ name, implied }) => name === first && !implied);
      const place = stated?.namePlace ??
        model.system.facts?.place('name') ?? { uri: model.files[0]?.uri ?? '', span: { start: 0, end: 0 } };
      const which = `${cases.length > 1 ? 'Cases' : 'Case'} ${names(cases.map((name) => ({ name })))}`;
      yield {
        message: `${which} ${cases.length > 1 ? 'have' : 'has'} no answer, so nothing is checked there; ${trouble}.`,
        place,
        subject: first,
        figures: { cases: cases.join(' ') },
        related: [],
      };
    }
  },
};
