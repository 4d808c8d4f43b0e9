/** What hovers are about to need. */
import type { Analysis } from '../../analysis.ts';
import type { Answers } from '../../answers/answers.ts';
import { runHover } from './run.ts';

/**
 * Works out what the first hover over a run would work out for all that hangs together with it: what flows while loads start,
 * and the ways that faults are fed by. `answers` are those of a piece of the spec.
 */
export function lookAhead(analysis: Analysis, answers: Answers): void {
  const runs = [...answers.runs.keys()];
  const feelsStarts = runs.find(({ cores }) => cores.some((core) => answers.directions.ofCore(core).starts.length > 0));
  const one = feelsStarts ?? runs[0];
  if (one !== undefined) runHover(analysis, one);
}
