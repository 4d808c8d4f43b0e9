/** A case of which no currents and voltages could be found. */
import type { CaseAnswer } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { anyReversed } from './diode-reversed.ts';
import { lampSpec, noLimit } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
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
    limit: noLimit,
    mend: 'Where a relay never comes to rest, feed its coil from before its contact. Where it is a plus and a minus that are swapped or joined, that is told in its place, by polarity-reversed or short-circuit; a coil behind its own contact by coil-behind-own-contact.',
    see: ['polarity-reversed', 'short-circuit', 'voltage-collapse', 'coil-behind-own-contact'],
    wrong: [
      lampSpec(
        {
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to K1:30',
          back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'relay K1 coil 12 V 150 mA, contact 20 A',
        'run W4 1.5 mm² red, 0.5 m, K1:87a to K1:86',
        'run W5 1.5 mm² black, 0.5 m, K1:85 to B1:-',
        'run W6 1.5 mm² red, 0.5 m, K1:87 to LAMP:+',
        'case evening all loads on # finds: case-unanswered "evening"',
      ),
    ],
    right: [lampSpec({}, 'case evening all loads on')],
  },
  *check(context) {
    const { model, answers } = context;
    const byTrouble = new Map<string, string[]>();
    for (const one of answers.cases) {
      const { name, converged, trouble, overloads } = one;
      // What asks too much is told by voltage-collapse.
      if (converged || overloads.length > 0 || isToldAsMiswired(one, context)) continue;
      const why = trouble ?? 'no stable state was found';
      byTrouble.set(why, [...(byTrouble.get(why) ?? []), name]);
    }
    for (const [trouble, cases] of byTrouble) {
      const [first = ''] = cases;
      const [unfed, ...more] = answers.cases.find(({ name }) => name === first)?.unfed ?? [];
      const stated = model.cases.find(({ name, implied }) => name === first && !implied);
      const place = stated?.namePlace ??
        model.system.facts?.place('name') ?? { uri: model.files[0]?.uri ?? '', span: { start: 0, end: 0 } };
      const which = `${cases.length > 1 ? 'Cases' : 'Case'} ${names(cases.map((name) => ({ name })))}`;
      yield {
        message: `${which} ${cases.length > 1 ? 'have' : 'has'} no answer, so nothing is checked there; ${trouble}.`,
        place,
        subject: first,
        figures: { cases: cases.join(' '), ...(unfed === undefined || more.length > 0 ? {} : { unfed: unfed.name }) },
        related: [],
      };
    }
  },
};

/** Wiring that takes the answer away where it is told itself. */
const miswired: ReadonlySet<string> = new Set([
  'polarity-reversed',
  'poles-crossed',
  'short-circuit',
  'voltages-joined',
]);

/** Whether there is no answer only because of what is the wrong way round, shorted, on another voltage or without a way back, which is told itself and not accepted. */
function isToldAsMiswired({ unfed }: CaseAnswer, { model, answers }: RuleContext): boolean {
  const { miswirings } = answers;
  const anyAccepted = model.allowances.some(({ slug }) => miswired.has(slug));
  const isReversed = (part: Part) =>
    miswirings.reversed.some(
      ({ port, through }) =>
        port.part === part &&
        !isAccepted(model, 'polarity-reversed', part.name) &&
        !through.some((name) => isAccepted(model, 'poles-crossed', name)),
    );
  const isUpset = ({ terminals }: Part) => !anyAccepted && terminals.some((terminal) => miswirings.isUpset(terminal));
  const isStranded = (part: Part) =>
    miswirings.stranded.some(({ port }) => port.part === part) && !isAccepted(model, 'no-return', part.name);
  // Panels whose diode points the other way have nothing that takes their current.
  if (unfed.length === 0) return anyReversed(model, answers.network);
  return unfed.every((part) => isReversed(part) || isUpset(part) || isStranded(part));
}
