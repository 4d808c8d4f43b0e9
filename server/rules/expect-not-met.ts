/** What the spec says must hold, and does not. */
import { plainNumber } from '../../grammar/units.ts';
import type { CaseAnswer } from '../answers/answers.ts';
import { slotWord } from '../model/facts.ts';
import type { Case, Expectation, Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { neverFedThrough } from './coil-behind-own-contact.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { amps, percent, temperature, volts } from './words.ts';

export const rule: Rule = {
  slug: 'expect-not-met',
  severity: 'warning',
  group: 'spec',
  reads: ['expect.what'],
  page: {
    title: 'An expectation that is not met',
    why: 'The spec says what its writer relies on, such as the voltage of a cooler at night. Where that does not come out, the van will not do what it was planned for.',
    limit: `${notationsOwn} The bound is the spec’s own. An expectation that names no case must hold in every one; a voltage of a load counts there only where it is on.`,
    mend: 'Shorten the cable or use a larger one, use a larger source, have less on at once, or expect less.',
    see: ['drop-over-limit', 'load-below-lowest-voltage', 'blank-unfilled', 'reading-outside-expectation'],
    wrong: [
      lampSpec(
        {},
        'case night LAMP on',
        'expect LAMP voltage at least 12.5 V in night # finds: expect-not-met "12.5 V"',
      ),
      lampSpec({}, 'expect W2 current at most 0.5 A # finds: expect-not-met "0.5 A"'),
    ],
    right: [
      lampSpec(
        {},
        'case night LAMP on',
        'expect LAMP voltage at least 11.8 V in night',
        'expect F1:out current at most 2 A',
      ),
      lampSpec({}, 'expect W2 temperature at most 60 °C', 'expect LAMP drop at most 3 %'),
    ],
  },
  *check(context) {
    for (const expectation of context.model.expectations) {
      const worst = worstOf(expectation, context);
      if (worst === undefined) continue;
      const { facts } = expectation;
      const { subject, what, bound } = wordsOf(expectation);
      const limit = facts.written('what', 'limit') ?? '';
      yield {
        message: `The ${what} of ${subject} is ${worst.said} in case ${worst.in.name}, but at ${bound} ${limit} is expected: ${mendOf(what, bound, worst.value)}.`,
        place: facts.place('what', 'limit'),
        subject,
        figures: { value: worst.value, limit: facts.number('what', 'limit') ?? 0, case: worst.in.name },
        related: worst.in.implied ? [] : [{ message: `${worst.in.name} is this case`, place: worst.in.namePlace }],
      };
    }
  },
};

/** Volt: what rounding leaves where nothing feeds. */
const none = 1e-6;

interface Outcome {
  readonly in: Case;
  readonly value: number;
  readonly said: string;
}

function wordsOf({ facts }: Expectation) {
  return {
    subject: facts.word('what', 'subject') ?? '',
    what: facts.word('what', 'what') ?? '',
    bound: facts.word('what', 'bound') ?? '',
  };
}

/** The case in which the expectation is missed by most; undefined where it holds, or where nothing is known. */
function worstOf(expectation: Expectation, { model, answers }: RuleContext): Outcome | undefined {
  const { facts } = expectation;
  const { subject, what, bound } = wordsOf(expectation);
  const limit = facts.number('what', 'limit');
  if (limit === undefined) return undefined;
  const named = (facts.fact('what')?.clause.values ?? []).flatMap((value) =>
    value.slot === 'case' ? [slotWord(value)] : [],
  );
  const unit = unitOf(expectation);
  const isTold = ({ port }: { readonly port: { readonly part: Part } }) =>
    !isAccepted(model, 'no-return', port.part.name);
  let worst: Outcome | undefined;
  for (const [index, answer] of answers.cases.entries()) {
    const one = model.cases[index];
    if (one === undefined || !answer.converged || (named.length > 0 && !named.includes(one.name))) continue;
    const value = figureOf(subject, what, unit, one, answer, { model, answers });
    const part = model.parts.get(subject);
    if (value === undefined || (named.length === 0 && what === 'voltage' && isIdle(part, answer))) continue;
    // Wiring that feeds it in no case, and what never pulls in, is told itself.
    if (what === 'voltage' && Math.abs(value) < none && part !== undefined && isNeverFed(part, { model, answers }))
      continue;
    // Without a wire there is no voltage, and one that could not be read, or is missing, is told of: a relay's coil may hang on it.
    const isMissing = model.problems.length > 0 || answers.miswirings.stranded.some(isTold);
    if (what === 'voltage' && Math.abs(value) < none && isMissing) continue;
    const short = bound === 'least' ? limit - value : value - limit;
    // What a solve leaves of rounding is no miss.
    if (short <= 1e-6 * Math.max(Math.abs(limit), 1)) continue;
    const before = worst === undefined ? -1 : bound === 'least' ? limit - worst.value : worst.value - limit;
    if (short > before) worst = { in: one, value, said: say(value, what, unit, model) };
  }
  return worst;
}

function unitOf({ facts }: Expectation): string {
  const atom = facts.slot('what', 'limit')?.atom;
  return atom?.kind === 'quantity' ? (atom.unit ?? '') : '';
}

/** A load that is off may well be without voltage. */
function isIdle(part: Part | undefined, answer: CaseAnswer): boolean {
  const draws = part?.kind.behaviour.is;
  if (part === undefined || (draws !== 'load' && draws !== 'socket' && draws !== 'inverter')) return false;
  return !(Math.abs(answer.partIn(part)?.amps ?? 0) > 1e-9);
}

function isNeverFed(part: Part, { model, answers }: Pick<RuleContext, 'model' | 'answers'>): boolean {
  const figures = answers.loads.get(part.name);
  if (figures !== undefined && figures.usualSource === undefined) return true;
  const relays = neverFedThrough(part, answers.network);
  return relays.some((name) => !isAccepted(model, 'coil-behind-own-contact', name));
}

/** In SI; undefined where nothing of the kind is worked out. */
function figureOf(
  subject: string,
  what: string,
  unit: string,
  one: Case,
  answer: CaseAnswer,
  { model, answers }: RuleContext,
): number | undefined {
  const named = model.parts.get(subject);
  const part = named === undefined ? undefined : answer.partIn(named);
  const cores = (model.runs.get(subject)?.cores ?? []).flatMap((core) => answer.coreIn(core) ?? []);
  const greatest = (of: (core: (typeof cores)[number]) => number) =>
    cores.length === 0 ? undefined : Math.max(...cores.map((core) => Math.abs(of(core))));
  switch (what) {
    case 'voltage':
      return part?.volts ?? answer.volts.get(subject);
    case 'current': {
      if (part?.amps !== undefined) return Math.abs(part.amps);
      if (cores.length > 0) return greatest(({ amps: through }) => through);
      const ends = (answers.network.at.get(subject) ?? []).flatMap((edge) =>
        edge.is === 'core' ? (answer.coreIn(edge.core) ?? []) : [],
      );
      const sum = ends.reduce((total, core) => total + (core.core.from?.id === subject ? core.amps : -core.amps), 0);
      return ends.length === 0 ? undefined : Math.abs(sum);
    }
    case 'drop': {
      const lost =
        part?.dropVolts ??
        (cores.length === 0 ? undefined : cores.reduce((sum, { dropVolts }) => sum + Math.abs(dropVolts), 0));
      if (lost === undefined || unit !== '%') return lost;
      return part?.dropPercent === undefined ? lost / answers.systemVolts : part.dropPercent / 100;
    }
    case 'temperature':
      return greatest(({ celsius }) => celsius);
    case 'charge':
      return one.chargeOf.get(subject) ?? (part?.part.kind.behaviour.is === 'battery' ? one.charge : undefined);
    default:
      return undefined;
  }
}

function say(value: number, what: string, unit: string, model: RuleContext['model']): string {
  if (unit === '%') return percent(value * 100);
  if (what === 'current') return amps(value);
  return what === 'temperature' ? temperature(value, model) : `${volts(Number(plainNumber(value, 3)))}`;
}

function mendOf(what: string, bound: string, value: number): string {
  if (what === 'voltage' && bound === 'least' && Math.abs(value) < none)
    return 'nothing feeds it there, so look for what is open before it in that case';
  return `${remedyOf(what, bound)}, or expect ${bound === 'least' ? 'less' : 'more'}`;
}

function remedyOf(what: string, bound: string): string {
  if (what === 'current') return bound === 'most' ? 'have less on at once' : 'look for what keeps it from flowing';
  if (what === 'temperature') return 'use a larger cable or a cooler way';
  if (what === 'charge') return 'charge more or use less before';
  return bound === 'least' || what === 'drop'
    ? 'use a larger or shorter cable, or a stronger source'
    : 'look for what raises it';
}
