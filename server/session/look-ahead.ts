/**
 * Looking ahead. Much of what a person asks for is worked out when it is first asked for, and where an edit changed something
 * the first question waits for that. So soon after findings are told, and before somebody can have pointed at anything, the
 * server asks itself.
 */
import type { Analysis } from '../analysis.ts';
import type { QuietTask } from './quiet.ts';

type Piece = Analysis['pieces'][number];

/** Shorter than from one key to the next, so that it is done before the next edit, and not while keys are held down. */
const usualQuiet = 60;

export class LookAhead implements QuietTask {
  private readonly seen = new WeakSet<Piece>();

  constructor(
    /** Those that are open, as they were worked out last. */
    private readonly analyses: () => Iterable<Analysis>,
    private readonly ask: (analysis: Analysis, piece: Piece) => unknown,
    readonly after = usualQuiet,
  ) {}

  step(): boolean {
    for (const analysis of this.analyses())
      for (const piece of analysis.pieces) {
        if (this.seen.has(piece)) continue;
        this.seen.add(piece);
        this.ask(analysis, piece);
        return true;
      }
    return false;
  }
}
