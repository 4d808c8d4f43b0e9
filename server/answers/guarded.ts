/** The answers of a spec, whatever happens while they are worked out. */
import type { Model } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { problem } from '../model/place.ts';
import type { Steps } from '../model/steps.ts';
import type { SolvedBefore } from '../physics/solved-before.ts';
import type { Answers } from './answers.ts';
import { noAnswers } from './no-answers.ts';
import { workOutInSteps } from './work-out.ts';

/** What throws while the electrics are worked out must not hide what reading found. */
export function* workOutGuarded(
  model: Model,
  network: Network,
  before: SolvedBefore,
): Steps<{ readonly model: Model; readonly answers: Answers }> {
  try {
    return { model, answers: yield* workOutInSteps(model, network, before) };
  } catch (error) {
    // For the report; the words of the program are no help to a fitter.
    const why = error instanceof Error ? error.message : String(error);
    const failed = problem(
      'answers-failed',
      { uri: model.files[0]?.uri ?? '', span: { start: 0, end: 0 } },
      'The currents and voltages of this spec could not be worked out, so nothing that rests on them was checked; the rest was. Undo the last change to see whether that brought it on, and please report it with the spec.',
      { figures: { error: why } },
    );
    return { model: { ...model, problems: [failed, ...model.problems] }, answers: noAnswers(model, network) };
  }
}
