/**
 * Long work in steps: at each `yield` it may rest, so that what a person asks meanwhile is answered first, or end for good
 * when its text is no longer the newest. So whatever is kept from one working out to the next must be true at every step.
 */
export type Steps<Result, Known = undefined> = Generator<Known | undefined, Result, void>;

/** All steps without a rest. */
export function atOnce<Result>(steps: Steps<Result, unknown>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
