/**
 * What the server does while nobody asks for anything: its tasks in turn, each once it has been quiet for as long as that task
 * waits. All end at every message, carry on when it has been quiet again, and make nothing known.
 */
import { breathe } from './guard.ts';

export interface QuietTask {
  /** So long nothing is heard before it begins or carries on, in milliseconds. */
  readonly after: number;
  /** Does a little; false when there is nothing more to be done at present. */
  step(): boolean;
}

/** How long it works before it rests, in milliseconds: a message waits no longer than this and the step that is being made. */
const slice = 1;

export class Quiet {
  private readonly tasks: readonly QuietTask[];
  private readonly failed = new Set<QuietTask>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts messages, so that work which one of them came before knows it. */
  private messages = 0;
  private isStarted = false;
  private isStopped = false;

  constructor(
    /** Those that wait less come first. */
    tasks: readonly QuietTask[],
    /** Whether something is being worked out that somebody waits for. */
    private readonly isBusy: () => boolean,
  ) {
    this.tasks = [...tasks].sort((a, b) => a.after - b.after);
  }

  /** Findings have been told: from now on whatever is quiet may be used. */
  start(): void {
    this.isStarted = !this.isStopped;
    this.heard();
  }

  /** Somebody asks for something: no more is done until it has been quiet again. */
  heard(): void {
    this.messages += 1;
    if (this.isStarted) this.wait(0, 0);
  }

  stop(): void {
    clearTimeout(this.timer);
    this.messages += 1;
    this.isStarted = false;
    this.isStopped = true;
  }

  /** Until it is the turn of a task; `quiet` for so many milliseconds already. */
  private wait(turn: number, quiet: number): void {
    clearTimeout(this.timer);
    const task = this.tasks[turn];
    if (task === undefined) return;
    this.timer = setTimeout(() => void this.work(task, turn), Math.max(0, task.after - quiet));
    // A process that has nothing else to do may end; a web worker's timers are numbers.
    if (typeof this.timer === 'object') this.timer.unref();
  }

  private async work(task: QuietTask, turn: number): Promise<void> {
    const { messages } = this;
    const began = performance.now();
    for (;;) {
      if (messages !== this.messages) return;
      if (this.isBusy()) return this.heard();
      if (!this.workForASlice(task)) break;
      await breathe();
    }
    this.wait(turn + 1, task.after + performance.now() - began);
  }

  /** False when there is nothing more to be done at present. */
  private workForASlice(task: QuietTask): boolean {
    const end = performance.now() + slice;
    try {
      while (!this.failed.has(task) && task.step()) if (performance.now() >= end) return true;
    } catch {
      // Nobody asked for it, so nobody misses it.
      this.failed.add(task);
    }
    return false;
  }
}
