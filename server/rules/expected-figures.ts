/** What an expectation says, and what is worked out for it, case by case. */
import type { CaseAnswer, CoreInCase } from '../answers/answers.ts';
import { slotWord } from '../model/facts.ts';
import type { Case, Expectation, Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { neverFedThrough } from './coil-behind-own-contact.ts';
import { isBehindReversedDiode } from './diode-reversed.ts';
import type { RuleContext } from './rule.ts';

/** What rounding leaves, in volt, where nothing feeds. */
export const noVolts = 1e-6;

export interface Expected {
  readonly subject: string;
  readonly what: string;
  readonly bound: string;
  /** Unit of the bound as it is written; empty where it has none. */
  readonly unit: string;
  /** Names of the cases it is for; none: every one. */
  readonly cases: readonly string[];
}

export function expectedBy({ facts }: Expectation): Expected {
  const atom = facts.slot('what', 'limit')?.atom;
  return {
    subject: facts.word('what', 'subject') ?? '',
    what: facts.word('what', 'what') ?? '',
    bound: facts.word('what', 'bound') ?? '',
    unit: atom?.kind === 'quantity' ? (atom.unit ?? '') : '',
    cases: (facts.fact('what')?.clause.values ?? []).flatMap((value) =>
      value.slot === 'case' ? (slotWord(value) ?? []) : [],
    ),
  };
}

export interface InCase {
  readonly one: Case;
  readonly answer: CaseAnswer;
}

/** The cases that it is for and that have an answer. */
export function answeredFor({ cases }: Expected, { model, answers }: RuleContext): InCase[] {
  return answers.cases.flatMap((answer, index) => {
    const one = model.cases[index];
    if (one === undefined || !answer.converged || (cases.length > 0 && !cases.includes(one.name))) return [];
    return [{ one, answer }];
  });
}

/** In SI; undefined where nothing of the kind is worked out. A voltage of a load that is off says nothing, unless the case is named. */
export function judgedIn(expected: Expected, { one, answer }: InCase, context: RuleContext): number | undefined {
  const { subject, what, cases } = expected;
  const value = figureOf(expected, one, answer, context);
  const part = context.model.parts.get(subject);
  return cases.length === 0 && what === 'voltage' && isIdle(part, answer) ? undefined : value;
}

/** A load that is off may well be without voltage. */
function isIdle(part: Part | undefined, answer: CaseAnswer): boolean {
  const draws = part?.kind.behaviour.is;
  if (part === undefined || (draws !== 'load' && draws !== 'socket' && draws !== 'inverter')) return false;
  return !(Math.abs(answer.partIn(part)?.amps ?? 0) > 1e-9);
}

/** Whether wiring that feeds it in no case, or what never pulls in, is told itself. */
export function isNeverFed(part: Part, { model, answers }: RuleContext): boolean {
  const figures = answers.loads.get(part.name);
  if (figures !== undefined && figures.usualSource === undefined) return true;
  if (isBehindReversedDiode(part, model, answers.network)) return true;
  const relays = neverFedThrough(part, answers.network);
  return relays.some((name) => !isAccepted(model, 'coil-behind-own-contact', name));
}

/** Whether a wire could not be read, or is missing, and that is told: a relay’s coil may hang on it. */
export function isWireMissing({ model, answers }: RuleContext): boolean {
  return (
    model.problems.length > 0 ||
    answers.miswirings.stranded.some(({ port }) => !isAccepted(model, 'no-return', port.part.name))
  );
}

function figureOf(
  { subject, what, unit }: Expected,
  one: Case,
  answer: CaseAnswer,
  { model, answers }: RuleContext,
): number | undefined {
  const named = model.parts.get(subject);
  const part = named === undefined ? undefined : answer.partIn(named);
  const cores = (model.runs.get(subject)?.cores ?? []).flatMap((core) => answer.coreIn(core) ?? []);
  const greatest = (of: (core: CoreInCase) => number) =>
    cores.length === 0 ? undefined : Math.max(...cores.map((core) => Math.abs(of(core))));
  switch (what) {
    case 'voltage':
      return part?.volts ?? answer.volts.get(subject);
    case 'current':
      if (part?.amps !== undefined) return Math.abs(part.amps);
      return cores.length > 0 ? greatest(({ amps: through }) => through) : ampsAt(subject, answer, { model, answers });
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
      return named?.kind.behaviour.is === 'battery' ? (one.chargeOf.get(subject) ?? one.charge) : undefined;
    default:
      return undefined;
  }
}

/** What its cables bring to a terminal. What they bring to a part of one node they take away again: of such, what goes through. */
function ampsAt(subject: string, answer: CaseAnswer, { model, answers }: RuleContext): number | undefined {
  let [away, towards, cables] = [0, 0, 0];
  for (const edge of answers.network.at.get(subject) ?? []) {
    const core = edge.is === 'core' ? answer.coreIn(edge.core) : undefined;
    if (core === undefined) continue;
    cables += 1;
    const out = core.core.from?.id === subject ? core.amps : -core.amps;
    if (out > 0) away += out;
    else towards -= out;
  }
  if (cables === 0) return undefined;
  const isNode = model.parts.get(subject)?.kind.oneNode === true;
  return isNode ? Math.max(away, towards) : Math.abs(away - towards);
}
