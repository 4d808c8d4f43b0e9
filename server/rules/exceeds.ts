/** Whether a figure is above its limit; what a solve leaves of rounding is no excess. */

/** Part of the limit: a hundred times what the solver may be wrong by, and far below what any instrument shows. */
const rounding = 1e-6;

export function exceeds(figure: number, limit: number): boolean {
  return figure > limit * (1 + rounding);
}
