/**
 * Cables in line with one another, joined by splices, plugs and switches with no branch between: too small for the same device
 * they have one cause and one mend, and the first of them tells of all.
 */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import { groupBy } from '../answers/grouping.ts';
import { keptWith } from '../model/lazily.ts';
import type { Run } from '../model/model.ts';
import { isTooSmall, type Verdict, worstCore } from './cable-verdict.ts';
import type { RuleContext } from './rule.ts';
import { keyOf } from './thin-returns.ts';

/** The run of a row that tells of all: that which bears least, of alike ones the first by name; itself where nothing goes on from it. */
export function headOfRow(verdict: Verdict, context: RuleContext): Run {
  const all = [verdict, ...rowOf(verdict, context)];
  const head = all.reduce((first, one) =>
    one.permitted < first.permitted || (one.permitted === first.permitted && nameOf(one) < nameOf(first)) ? one : first,
  );
  return head.figures.core.run;
}

const nameOf = ({ figures }: Verdict): string => figures.core.run.name;

/** What is too small with it in the same row, itself left out. */
export function rowOf(verdict: Verdict, context: RuleContext): readonly Verdict[] {
  const { answers } = context;
  const { core } = verdict.figures;
  if (!isTooSmall(verdict)) return [];
  const key = keyOf(verdict.figures);
  const tail = answers.tailOf(core);
  // On both sides of their device, too.
  const beyond = (coresByDevices(answers).get(key) ?? []).filter(({ core: other }) => {
    const own = answers.tailOf(other);
    return tail !== undefined && own?.part === tail.part && own.pole === tail.pole;
  });
  const runs = new Set([...(tail?.cores ?? []), ...beyond.map((one) => one.core)].map(({ run }) => run));
  runs.delete(core.run);
  return [...runs].flatMap((run) => {
    const own = worstCore(answers.runs.get(run) ?? [], context);
    return own !== undefined && isTooSmall(own) && own.by === verdict.by && keyOf(own.figures) === key ? [own] : [];
  });
}

const coresByDevices = keptWith(
  ({ cores }: Answers): ReadonlyMap<string, readonly CoreFigures[]> => groupBy([...cores.values()], keyOf),
);
