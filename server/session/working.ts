/**
 * One working out of a spec, from its texts as they are when it begins. It rests every few milliseconds, so that whatever
 * a person asks meanwhile is answered first, and ends without an answer when one of its texts is no longer the newest.
 */
import type { Analysis } from '../analysis.ts';
import { breathe } from './guard.ts';

/** How long it works before it rests, in milliseconds: half a frame of a screen. */
const slice = 8;

export type AnalysisSteps = Iterator<Analysis | undefined, Analysis, void>;

export class Working<Kept> {
  /** The analysis as soon as its names are known; undefined when newer texts came first. */
  readonly named: Promise<Analysis | undefined>;
  readonly whole: Promise<Kept | undefined>;
  /** Time that was worked, without the rests, in milliseconds. */
  milliseconds = 0;
  private tellNamed: (analysis: Analysis | undefined) => void = () => {};

  /**
   * `begin` reads the texts and gives the steps, `isNewest` tells whether they are still what is asked for, and `keep` makes
   * of the analysis what is handed out.
   */
  constructor(
    private readonly begin: () => Promise<AnalysisSteps>,
    readonly isNewest: () => boolean,
    private readonly keep: (analysis: Analysis) => Kept,
  ) {
    const named = new Promise<Analysis | undefined>((resolve) => {
      this.tellNamed = resolve;
    });
    this.whole = this.work();
    // What throws before the names are known throws for whoever waits for them.
    this.named = Promise.race([named, this.whole.then(() => named)]);
    // Nobody need be waiting when it fails: whoever asks is told.
    this.whole.catch(() => undefined);
    this.named.catch(() => undefined);
  }

  private async work(): Promise<Kept | undefined> {
    // Whatever waits in the queue, a newer edit above all, is let in before the work begins.
    await breathe();
    const steps = await this.begin();
    for (;;) {
      if (!this.isNewest()) {
        steps.return?.();
        this.tellNamed(undefined);
        return undefined;
      }
      const known = this.workForASlice(steps);
      if (known.done === true) {
        this.tellNamed(known.value);
        return this.keep(known.value);
      }
      if (known.value !== undefined) this.tellNamed(known.value);
      await breathe();
    }
  }

  /** Works until something is known that others wait for, or for as long as nobody notices. */
  private workForASlice(steps: AnalysisSteps): IteratorResult<Analysis | undefined, Analysis> {
    const began = performance.now();
    for (;;) {
      const step = steps.next();
      const worked = performance.now() - began;
      if (step.done !== true && step.value === undefined && worked < slice) continue;
      this.milliseconds += worked;
      return step;
    }
  }
}
