/** Analyses that take as long as a test wants, in steps as the real one, and tell what became of them. */
import { type Analysis, analyseInSteps } from '../../server/analysis.ts';
import type { Analyse } from '../../server/session/analyses.ts';

export interface Slowly {
  readonly analyse: Analyse;
  /** What happened, in order: `begun`, `named`, `whole` or `left`, each with the first line of the text. */
  readonly told: string[];
}

/**
 * The real analysis with pauses: so many milliseconds are worked away in steps of five before the names are known, and so
 * many after. The answers come only then, as from a spec of tens of thousands of lines.
 */
export function slowly(milliseconds: { readonly named: number; readonly whole: number }): Slowly {
  const told: string[] = [];
  function* analyse(...given: Parameters<Analyse>): Generator<Analysis | undefined, Analysis, void> {
    const [uri, source] = given;
    const read = source.read(uri);
    const first = 'text' in read ? (String(read.text).split('\n')[0] ?? '') : '';
    let ended = 'left';
    told.push(`begun ${first}`);
    try {
      yield* busy(milliseconds.named);
      const steps = analyseInSteps(...given);
      for (;;) {
        const step = steps.next();
        if (step.done === true) {
          ended = 'whole';
          return step.value;
        }
        if (step.value === undefined) continue;
        told.push(`named ${first}`);
        yield step.value;
        yield* busy(milliseconds.whole);
      }
    } finally {
      told.push(`${ended} ${first}`);
    }
  }
  return { analyse, told };
}

function* busy(milliseconds: number): Generator<undefined> {
  const step = 5;
  for (let worked = 0; worked < milliseconds; worked += step) {
    const end = performance.now() + step;
    while (performance.now() < end);
    yield;
  }
}
