/**
 * Warming up. V8 compiles a function well only after it was called often, and the first hundred edits cost several times what
 * the later ones do. So while nobody asks for anything the server works at something of its own. It is over for good after so
 * much work.
 */
import type { QuietTask } from './quiet.ts';

/** What is done while it is quiet: it may rest at every step, and has no end of its own. */
export type Rounds = Iterator<unknown, unknown, void>;

export interface WarmUpLimits {
  /** So long nothing is heard before it begins or carries on, in milliseconds: longer than between two keys. */
  readonly quiet: number;
  /** How long it works in all, in milliseconds. */
  readonly most: number;
}

export const usualLimits: WarmUpLimits = { quiet: 250, most: 2500 };

export class WarmUp implements QuietTask {
  readonly after: number;
  private rounds: Rounds | undefined;
  private worked = 0;

  constructor(
    private readonly begin: () => Rounds,
    private readonly limits: WarmUpLimits = usualLimits,
  ) {
    this.after = limits.quiet;
  }

  step(): boolean {
    if (this.worked >= this.limits.most) return false;
    const began = performance.now();
    this.rounds ??= this.begin();
    const isOver = this.rounds.next().done === true;
    this.worked = isOver ? Number.POSITIVE_INFINITY : this.worked + performance.now() - began;
    // What was worked at is let go of.
    if (this.worked >= this.limits.most) this.rounds = undefined;
    return this.rounds !== undefined;
  }
}
