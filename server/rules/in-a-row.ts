/**
 * Cables in line with one another, joined by splices, plugs and switches with no branch between: too small for the same device
 * they have one cause and one mend, and the first of them tells of all.
 */
import type { Run } from '../model/model.ts';
import { isTooSmall, type Verdict, worstCore } from './cable-verdict.ts';
import type { RuleContext } from './rule.ts';
import { keyOf } from './thin-returns.ts';

/** The run of a row that tells of all, by the order of the spec: itself where nothing goes on from it. */
export function headOfRow(verdict: Verdict, context: RuleContext): Run {
  const { run } = verdict.figures.core;
  const all = rowOf(verdict, context);
  if (all.length === 0) return run;
  const runs = new Set([run, ...all.map(({ figures }) => figures.core.run)]);
  for (const one of context.answers.runs.keys()) if (runs.has(one)) return one;
  return run;
}

/** What is too small with it in the same row, itself left out. */
export function rowOf(verdict: Verdict, context: RuleContext): readonly Verdict[] {
  const { answers } = context;
  const { core } = verdict.figures;
  if (!isTooSmall(verdict)) return [];
  const key = keyOf(verdict.figures);
  const runs = new Set((answers.tailOf(core)?.cores ?? []).map(({ run }) => run));
  runs.delete(core.run);
  return [...runs].flatMap((run) => {
    const own = worstCore(answers.runs.get(run) ?? [], context);
    return own !== undefined && isTooSmall(own) && own.by === verdict.by && keyOf(own.figures) === key ? [own] : [];
  });
}
