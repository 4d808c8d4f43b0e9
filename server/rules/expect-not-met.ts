/** What the spec says must hold, and does not. */
import { plainNumber } from '../../grammar/units.ts';
import type { Case, Expectation } from '../model/model.ts';
import { isToldDead } from './dead-in-case.ts';
import {
  answeredFor,
  expectedBy,
  type InCase,
  isNeverFed,
  isWireMissing,
  judgedIn,
  noVolts,
} from './expected-figures.ts';
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
    see: [
      'dead-in-case',
      'expect-unchecked',
      'drop-over-limit',
      'load-below-lowest-voltage',
      'blank-unfilled',
      'reading-outside-expectation',
    ],
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
      const { subject, what, bound } = expectedBy(expectation);
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

interface Outcome {
  readonly in: Case;
  readonly value: number;
  readonly said: string;
}

/** The case in which the expectation is missed by most; undefined where it holds, or where nothing is known. */
function worstOf(expectation: Expectation, context: RuleContext): Outcome | undefined {
  const expected = expectedBy(expectation);
  const { subject, what, bound, unit } = expected;
  const limit = expectation.facts.number('what', 'limit');
  if (limit === undefined) return undefined;
  let worst: Outcome | undefined;
  for (const inCase of answeredFor(expected, context)) {
    const value = judgedIn(expected, inCase, context);
    if (value === undefined) continue;
    // Why nothing feeds it is told itself.
    if (what === 'voltage' && Math.abs(value) < noVolts && isDeadElsewhere(subject, inCase, context)) continue;
    const short = bound === 'least' ? limit - value : value - limit;
    // What a solve leaves of rounding is no miss.
    if (short <= 1e-6 * Math.max(Math.abs(limit), 1)) continue;
    const before = worst === undefined ? -1 : bound === 'least' ? limit - worst.value : worst.value - limit;
    if (short > before) worst = { in: inCase.one, value, said: say(value, what, unit, context.model) };
  }
  return worst;
}

function isDeadElsewhere(subject: string, inCase: InCase, context: RuleContext): boolean {
  const part = context.model.parts.get(subject);
  if (isWireMissing(context)) return true;
  return part !== undefined && (isNeverFed(part, context) || isToldDead(part, inCase, context));
}

function say(value: number, what: string, unit: string, model: RuleContext['model']): string {
  if (unit === '%') return percent(value * 100);
  if (what === 'current') return amps(value);
  return what === 'temperature' ? temperature(value, model) : `${volts(Number(plainNumber(value, 3)))}`;
}

function mendOf(what: string, bound: string, value: number): string {
  if (what === 'voltage' && bound === 'least' && Math.abs(value) < noVolts)
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
