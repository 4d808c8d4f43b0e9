/** When to work again while somebody types: after a short quiet, and now and then although there is none. */

/** Milliseconds without a key press, and the longest that one waits while keys are pressed. */
export const quiet = 100;
export const longest = 400;

/** Calls `work` one at a time. A change that comes while it works is worked on next. */
export class Refresher {
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** When the first change came that nothing was done about. */
  private since: number | undefined;
  private isWorking = false;
  private isStopped = false;

  constructor(
    private readonly work: () => Promise<void>,
    private readonly now: () => number = () => performance.now(),
  ) {}

  changed(): void {
    if (this.isStopped) return;
    this.since ??= this.now();
    if (this.isWorking) return;
    clearTimeout(this.timer);
    const left = this.since + longest - this.now();
    this.timer = setTimeout(() => void this.begin(), Math.max(0, Math.min(quiet, left)));
  }

  stop(): void {
    this.isStopped = true;
    clearTimeout(this.timer);
  }

  private async begin(): Promise<void> {
    this.isWorking = true;
    this.since = undefined;
    try {
      await this.work();
    } finally {
      this.isWorking = false;
      if (this.since !== undefined) this.changed();
    }
  }
}
