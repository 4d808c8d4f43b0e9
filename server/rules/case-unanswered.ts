/** A case of which no currents and voltages could be found. */
import { lampSpec, notationsOwn } from './language.ts';
import type { Rule } from './rule.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'case-unanswered',
  severity: 'error',
  group: 'spec',
  reads: ['case.state', 'load.power'],
  page: {
    title: 'A case without an answer',
    why: 'Of such a case no current, drop or voltage is known, so nothing that rests on it is checked: a spec that looks clean may not be. Sources and wiring can bring about only so much power; where more is asked for, there is no answer.',
    limit: notationsOwn,
    mend: 'Have less on at once, or use a larger or shorter cable, a larger battery; where nothing at all can be fed, look for a plus and a minus that are swapped.',
    see: ['polarity-reversed', 'short-circuit', 'cable-too-small'],
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
    for (const { name, converged, trouble } of answers.cases) {
      if (converged) continue;
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
        message: `${which} ${cases.length > 1 ? 'have' : 'has'} no answer, and nothing is checked there: ${trouble}.`,
        place,
        subject: first,
        figures: { cases: cases.join(' ') },
        related: [],
      };
    }
  },
};
