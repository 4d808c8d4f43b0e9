/** What is made for another voltage than that of what feeds it: no cable, fuse or fuller battery is any help then. */
import type { Answers, CaseAnswer } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { exceeds } from './exceeds.ts';
import type { RuleContext } from './rule.ts';
import { isCrossed } from './working-voltages.ts';

/**
 * What wants this many times what its source gives, or bears that much less, is for another voltage: a battery rises and falls by a
 * third of itself at most (common practice, no source).
 */
export const otherVoltage = 1.4;

/** At the terminals of what takes current, or at its input, in the case in which it has least or most. */
export interface SeenVolts {
  readonly volts: number;
  /** On the way from what feeds it. */
  readonly lost: number;
  readonly caseName: string;
}

/** In every case in which it takes something. */
export function voltsSeen(part: Part, cases: readonly CaseAnswer[]): SeenVolts[] {
  return cases.flatMap((one): SeenVolts[] => {
    const own = one.converged ? one.partIn(part) : undefined;
    const here = part.kind.behaviour.is === 'converter' ? own?.input : own;
    if (here?.volts === undefined || !((here.amps ?? 0) > 1e-9)) return [];
    return [{ volts: here.volts, lost: here.dropVolts ?? 0, caseName: one.name }];
  });
}

/** Where it has least. */
export function leastSeen(part: Part, { cases }: Pick<Answers, 'cases'>): SeenVolts | undefined {
  return voltsSeen(part, cases).reduce<SeenVolts | undefined>(
    (least, one) => (least === undefined || one.volts < least.volts ? one : least),
    undefined,
  );
}

/** Whether even what feeds it gives far less than it works at. */
export function wantsHigher(lowest: number, { volts, lost }: SeenVolts): boolean {
  return volts > 0 && exceeds(lowest, otherVoltage * (volts + lost));
}

/** Whether that is told of a part, and not accepted: then what else comes of its voltage is not. */
export function isToldAsForHigher(part: Part, { model, answers }: RuleContext): boolean {
  const lowest = part.facts.number('lowest');
  if (lowest === undefined || part.facts.says('cranking') || isCrossed(part)) return false;
  const slug = part.kind.word === 'inverter' ? 'inverter-input-drop' : 'load-below-lowest-voltage';
  const least = isAccepted(model, slug, part.name) ? undefined : leastSeen(part, answers);
  return least !== undefined && wantsHigher(lowest, least);
}

/** `12 V` of what feeds a part, where that says it. */
export function nominalOf(source: Part | undefined): number | undefined {
  return source?.facts.number('voltage');
}
