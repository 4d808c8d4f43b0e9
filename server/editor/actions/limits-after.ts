/** Which set of limits an action makes hold, where none is stated and it follows from how most sizes are written. */
import type { Analysis } from '../../analysis.ts';
import type { ConductorSize, Run } from '../../model/model.ts';
import type { LimitSet } from '../../physics/limits/limit-set.ts';
import { limitSet } from '../../physics/limits/sets.ts';

/** `sizesOf` has the sizes that stand there for a run then; undefined where the set stays as it is. */
export function limitsAfter(
  { model, answers }: Analysis,
  sizesOf: (run: Run) => readonly ConductorSize[],
): LimitSet | undefined {
  if (answers.limitsStated) return undefined;
  const sizes = [...model.runs.values()].flatMap(sizesOf);
  const after = limitSet(undefined, sizes.filter(({ system }) => system === 'awg').length * 2 > sizes.length);
  return after.id === answers.limits.id ? undefined : after;
}

/** What a title says of it where a run is written down twice. */
export function limitsTold(analysis: Analysis, twice: Run): string {
  const limits = limitsAfter(analysis, (run) =>
    run.size === undefined ? [] : run === twice ? [run.size, run.size] : [run.size],
  );
  return limits === undefined ? '' : `; the limits are then those of ${limits.title}`;
}
