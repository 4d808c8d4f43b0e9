/**
 * Warming up. V8 compiles a function well only after it was called often, and the first hundred edits cost several times what
 * the later ones do. So while nobody asks for anything the server works at something of its own, and makes nothing known of it.
 * It ends at every message, carries on when it has been quiet again, and is over for good after so much work.
 */
import { breathe } from './guard.ts';

/** What is done while it is quiet: it may rest at every step, and has no end of its own. */
export type Rounds = Iterator<unknown, unknown, void>;

export interface WarmUpLimits {
  /** So long nothing is heard before it begins or carries on, in milliseconds. */
  readonly quiet: number;
  /** How long it works before it rests, in milliseconds: a message waits no longer than this and the step that is being made. */
  readonly slice: number;
  /** How long it works in all, in milliseconds. */
  readonly most: number;
}

export const usualLimits: WarmUpLimits = { quiet: 50, slice: 1, most: 2500 };

export class WarmUp {
  private rounds: Rounds | undefined;
  private worked = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts messages, so that work which one of them came before knows it. */
  private messages = 0;
  private isOver = false;

  constructor(
    private readonly begin: () => Rounds,
    /** Whether something is being worked out that somebody waits for. */
    private readonly isBusy: () => boolean,
    private readonly limits: WarmUpLimits = usualLimits,
  ) {}

  /** The first findings have been told: from now on whatever is quiet may be used. */
  start(): void {
    if (!this.isOver) this.rounds ??= this.begin();
    this.heard();
  }

  /** Somebody asks for something: no more is done until it has been quiet again. */
  heard(): void {
    this.messages += 1;
    if (this.rounds === undefined || this.isOver) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.work(), this.limits.quiet);
    // A process that has nothing else to do may end; a web worker's timers are numbers.
    if (typeof this.timer === 'object') this.timer.unref();
  }

  stop(): void {
    clearTimeout(this.timer);
    this.isOver = true;
    this.rounds = undefined;
  }

  private async work(): Promise<void> {
    const { messages } = this;
    while (messages === this.messages && !this.isOver) {
      if (this.isBusy()) {
        this.heard();
        return;
      }
      if (!this.workForASlice()) this.stop();
      await breathe();
    }
  }

  /** False when there is nothing more to be done: enough was, or it could not be. */
  private workForASlice(): boolean {
    const { rounds } = this;
    const { slice, most } = this.limits;
    const began = performance.now();
    try {
      let worked = 0;
      while (worked < slice) {
        if (rounds?.next().done !== false) return false;
        worked = performance.now() - began;
      }
      this.worked += worked;
      return this.worked < most;
    } catch {
      // Nobody asked for it, so nobody misses it.
      return false;
    }
  }
}
