/**
 * Looking ahead. Much of what a person asks for is worked out when it is first asked for, and where an edit changed something
 * the first question waits for that. So soon after findings are told, and before somebody can have pointed at anything, the
 * server asks itself.
 */
import type { Analysis } from '../analysis.ts';
import type { QuietTask } from './quiet.ts';

/** Shorter than from one key to the next, so that it is done before the next edit, and not while keys are held down. */
const usualQuiet = 60;

type Answers = Analysis['answers'];

export class LookAhead implements QuietTask {
  private readonly seen = new WeakSet<Answers>();

  constructor(
    /** Those that are open, as they were worked out last. */
    private readonly analyses: () => Iterable<Analysis>,
    private readonly ask: (analysis: Analysis, answers: Answers) => unknown,
    readonly after = usualQuiet,
  ) {}

  step(): boolean {
    for (const analysis of this.analyses())
      for (const { answers } of analysis.pieces) {
        if (this.seen.has(answers)) continue;
        this.seen.add(answers);
        this.ask(analysis, answers);
        return true;
      }
    return false;
  }
}
