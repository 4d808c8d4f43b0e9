/** What a case says is on, and nothing feeds there because of how that case has the switches. */
import type { CaseAnswer } from '../answers/answers.ts';
import { barriersBefore } from '../answers/barred.ts';
import { drawsOf } from '../answers/ports.ts';
import { slotWord } from '../model/facts.ts';
import type { Case, Part, Place } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { isAccepted } from './accepted.ts';
import { expectedBy, type InCase, isNeverFed } from './expected-figures.ts';
import { lampSpec, notationsOwn, throughS1 } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { listed, standingIn, type Why, whyOpen } from './why-open.ts';
import { names } from './words.ts';

const { out } = throughS1;

const switched = ['switch S1 1 pole, 10 A dc, 24 V', 'run W4 1.5 mm² red, 1 m, S1:2 to LAMP:+'];

/** Two batteries on a selector, which feeds a lamp. */
const chosen = (said: string) =>
  lampSpec(
    { out: 'run W2 1.5 mm² red, 1.2 m, F1:out to S9:1' },
    'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F2 5 A, blade, 32 V',
    'selector S9 50 A dc, 24 V, positions off 1 2',
    'run W4 1.5 mm² red, 0.1 m, B2:+ to F2:in',
    'run W5 1.5 mm² red, 1.2 m, F2:out to S9:2',
    'run W6 1.5 mm² red, 1 m, S9:common to LAMP:+',
    'run W7 1.5 mm² black, 0.5 m, B2:- to B1:-',
    said,
  );

export const rule: Rule = {
  slug: 'dead-in-case',
  severity: 'warning',
  group: 'spec',
  restsOnAllNames: true,
  reads: ['case.state', 'case.position', 'case.all'],
  page: {
    title: 'On in a case, and fed by nothing there',
    why: 'What a case names as on counts for cables, drops and batteries. Where a switch, selector or relay of that very case cuts it off it takes nothing, so that the case says less than it seems to, or the wiring is not what its writer thinks.',
    limit: `${notationsOwn} What a case says is on by its name has a way from a source and back as that case has the contacts. It is not asked of \`all loads on\`, nor of what a cut-off relay opens by itself.`,
    mend: 'Close what is named in that case, or leave the load off there; where the switch stands rightly, the load is wired to the wrong side of it.',
    see: ['no-source', 'diode-reversed', 'selector-common-swapped', 'coil-behind-own-contact', 'expect-not-met'],
    wrong: [
      lampSpec({ out }, ...switched, 'case night S1 off, LAMP on # finds: dead-in-case "LAMP"'),
      chosen('case night S9 at off, LAMP on # finds: dead-in-case "LAMP"'),
    ],
    right: [
      lampSpec({ out }, ...switched, 'case night LAMP on', 'case away S1 off, all loads on'),
      chosen('case night S9 at 2, LAMP on'),
      // Whoever expects that it is dead knows it.
      lampSpec({ out }, ...switched, 'case away S1 off, LAMP on', 'expect LAMP voltage at most 0.1 V in away'),
    ],
  },
  *check(context) {
    const causes = new Map<string, Dead[]>();
    for (const dead of deadIn(context)) {
      const key = `${dead.cases.map(({ name }) => name).join(' ')} ${listed(dead.why.map(({ says }) => says))}`;
      causes.set(key, [...(causes.get(key) ?? []), dead]);
    }
    for (const [first, ...others] of causes.values()) {
      if (first === undefined) continue;
      const { part, cases, why } = first;
      const parts = [part, ...others.map((one) => one.part)];
      const [is, it] = others.length > 0 ? ['are', 'them'] : ['is', 'it'];
      const mends = why.flatMap(({ mends: one }) => one ?? []);
      const instead = `leave ${names(parts)} off`;
      const toDo =
        mends.length === 0 ? `${instead} there, or feed ${it} another way` : `${listed(mends)} there, or ${instead}`;
      const { unless } = why.find((one) => one.unless !== undefined) ?? {};
      const [stated, ...more] = cases;
      if (stated === undefined) continue;
      yield {
        message: `In ${whichCases(cases)} ${names(parts)} ${is} on, but nothing feeds ${it}: ${listed(why.map(({ says }) => says))}. ${toDo.charAt(0).toUpperCase()}${toDo.slice(1)}${unless === undefined ? '' : `; ${unless}`}.`,
        place: placeOf(part, stated),
        subject: part.name,
        figures: { cases: cases.map(({ name }) => name).join(' '), open: why.map((one) => one.part.name).join(' ') },
        related: [
          ...why.map((one) => ({ message: `${one.part.name} is in the way`, place: one.part.namePlace })),
          ...others.map((one) => ({
            message: `${one.part.name} gets nothing either`,
            place: placeOf(one.part, stated),
          })),
          ...more.map((one) => ({
            message: `${part.name} gets nothing in ${one.name} either`,
            place: placeOf(part, one),
          })),
        ],
      };
    }
  },
};

/** Something that is on and dead, and the cases in which it is so for one reason. */
interface Dead {
  readonly part: Part;
  readonly cases: readonly Case[];
  readonly why: readonly Why[];
}

function deadIn(context: RuleContext): Dead[] {
  const found = new Map<string, Dead>();
  for (const { stated, answer } of answeredCases(context))
    for (const [name, isOn] of stated.on) {
      const part = context.model.parts.get(name);
      const why = isOn && part !== undefined ? whyDead(part, stated, answer, context) : undefined;
      if (part === undefined || why === undefined) continue;
      const key = `${name} ${listed(why.map(({ says }) => says))}`;
      found.set(key, { part, why, cases: [...(found.get(key)?.cases ?? []), stated] });
    }
  return [...found.values()];
}

function answeredCases({ model, answers }: RuleContext) {
  return answers.cases.flatMap((answer, index) => {
    const stated = model.cases[index];
    return stated === undefined || stated.implied || !answer.converged ? [] : [{ stated, answer }];
  });
}

/** Whether it is told here, and not accepted, that something gets nothing in a case. */
export function isToldDead(part: Part, { one, answer }: InCase, context: RuleContext): boolean {
  if (one.implied || one.on.get(part.name) !== true || isAccepted(context.model, rule.slug, part.name)) return false;
  return whyDead(part, one, answer, context) !== undefined;
}

/** What has to be fed: its ports, of which one is enough. */
const fed: ReadonlySet<string> = new Set(['load', 'input']);

/** Share of the nominal voltage below which nothing feeds it: what a meter or a diode lets through. */
const leastShare = 0.1;

/** Undefined for what is fed, and where another finding tells why it is not. */
function whyDead(part: Part, stated: Case, answer: CaseAnswer, context: RuleContext): readonly Why[] | undefined {
  const { answers, model } = context;
  const { behaviour } = part.kind;
  if (!drawing.has(behaviour.is)) return undefined;
  const told = answer.partIn(part);
  const across = behaviour.is === 'converter' ? told?.input?.volts : told?.volts;
  if (Math.abs(across ?? 0) >= leastShare * answers.systemVolts) return undefined;
  if (isNeverFed(part, context) || part.terminals.some((one) => answers.miswirings.isUpset(one))) return undefined;
  const isMeant = model.expectations.some((one) => {
    const { subject, bound, cases } = expectedBy(one);
    return subject === part.name && bound === 'most' && cases.includes(stated.name);
  });
  if (isMeant) return undefined;
  const { network } = answers;
  const standing = standingIn(stated, answer);
  let least: ReturnType<typeof barriersBefore>;
  for (const draw of drawsOf([part]).filter(({ is }) => fed.has(is))) {
    const barriers = barriersBefore(draw, network, standing);
    if (barriers === undefined) continue;
    if (least === undefined || barriers.length < least.length) least = barriers;
  }
  if (least === undefined || least.length === 0) return undefined;
  return whyOpen(least, { stated, answer, answers: answers.cases, network, model });
}

const drawing: ReadonlySet<string> = new Set(['load', 'socket', 'inverter', 'converter']);

const mostNamed = 3;

function whichCases(cases: readonly Case[]): string {
  if (cases.length === 1) return `case ${names(cases)}`;
  return cases.length <= mostNamed ? `cases ${names(cases)}` : `case ${cases[0]?.name} and ${cases.length - 1} others`;
}

/** Where a case names a part as on. */
function placeOf(part: Part, { origin, namePlace }: Case): Place {
  for (const { spec, values } of origin.statement.shaped.clauses) {
    const named =
      spec.id === 'state' ? values.find((one) => one.slot === 'part' && slotWord(one) === part.name) : undefined;
    if (named !== undefined) return placeIn(origin, named.atom.span);
  }
  return namePlace;
}
