/**
 * Returns that are too small for the same reason as the feed of what they lead back from: the finding of the feed tells of
 * both, with what mends both.
 */
import type { CoreFigures } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import { isTooSmall, type Verdict, worstCore } from './cable-verdict.ts';
import { headOfRow } from './in-a-row.ts';
import type { RuleContext } from './rule.ts';
import { feedsByDevices, isWholeReturn, keyOf, leadsBackFrom, returnsByDevices, thinReturn } from './thin-returns.ts';

/** Whether a run is such a return. */
export function isToldWithFeed(verdict: Verdict, context: RuleContext): boolean {
  return feedOf(verdict, context) !== undefined;
}

/** The run whose finding tells of a cable that is too small. */
export function tellerOf(verdict: Verdict, context: RuleContext): Run {
  return feedOf(verdict, context) ?? headOfRow(verdict, context);
}

/** Of the feed that is told, what is told with it. */
export function returnsWithFeed(verdict: Verdict, context: RuleContext): Verdict[] {
  const { answers } = context;
  const { figures } = verdict;
  if (!isTooSmall(verdict) || figures.isReturn) return [];
  return (returnsByDevices(answers).get(keyOf(figures)) ?? []).flatMap((run) => {
    const own = worstCore(answers.runs.get(run) ?? [], context);
    const isElsewhere = own === undefined || thinReturn(run, context) !== undefined;
    return !isElsewhere && feedOf(own, context) === figures.core.run ? [own] : [];
  });
}

/** The feed that tells of a return: one beside it at what it feeds, else the first with the same loads on it, or held to as much. */
function feedOf(verdict: Verdict, context: RuleContext): Run | undefined {
  const { answers } = context;
  const { figures } = verdict;
  const back = answers.runs.get(figures.core.run) ?? [];
  if (!isTooSmall(verdict) || !isWholeReturn(back)) return undefined;
  const feeds = (feedsByDevices(answers).get(keyOf(figures)) ?? []).filter(
    (feed) =>
      leadsBackFrom(back, feed) ||
      back.every(({ loads }) => isSame(loads, feed.loads)) ||
      feed.protection.amps === figures.protection.amps,
  );
  const told = feeds.filter((feed) => {
    const own = worstCore(answers.runs.get(feed.core.run) ?? [], context);
    return own !== undefined && isTooSmall(own) && !own.figures.isReturn;
  });
  const feed = told.find((one) => leadsBackFrom(back, one)) ?? told[0];
  const own = worstCore(answers.runs.get(feed?.core.run as Run) ?? [], context);
  return own === undefined ? undefined : headOfRow(own, context);
}

function isSame(some: CoreFigures['loads'], others: CoreFigures['loads']): boolean {
  return some.length > 0 && some.length === others.length && some.every((load) => others.includes(load));
}
