/** Whether what else is wrong with a cable is left to the finding that it is too small for its device, which mends it as well. */
import type { Run } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { isTooSmallForDevice, type Verdict, worstCore } from './cable-verdict.ts';
import { tellerOf } from './returns-with-feed.ts';
import type { RuleContext } from './rule.ts';

/** It is not where that finding is accepted: then nobody is going to mend it. */
export function isToldAsTooSmall(run: Run, context: RuleContext): boolean {
  const worst = isTooSmallForDevice(run, context) ? worstCore(context.answers.runs.get(run) ?? [], context) : undefined;
  return worst !== undefined && isTold(worst, context);
}

export function isTold(verdict: Verdict, context: RuleContext): boolean {
  return !isAccepted(context.model, 'cable-too-small', tellerOf(verdict, context).name);
}
