/** When a fuse operates at a current, read from gates between which it may: straight lines in time and current, both logarithmic. */
import type { Gate } from '../tables/fuse-gates.ts';

export interface OperatingTime {
  /** Second; Infinity where it does not operate. */
  readonly least: number;
  /** Second; Infinity where it need not operate. */
  readonly most: number;
}

/**
 * Beyond the last gate the heat that melts the wire stays the same, because none has time to leave it: I²t is constant.
 * Below the first the fuse need not operate; at its rating and below it does not.
 */
export function operatingTime(gates: readonly Gate[], multiple: number): OperatingTime {
  const sorted = [...gates].sort((a, b) => a.multiple - b.multiple);
  if (!(multiple > 1)) return { least: Number.POSITIVE_INFINITY, most: Number.POSITIVE_INFINITY };
  return {
    least: along(
      sorted.map((gate) => [gate.multiple, gate.least] as const),
      multiple,
    ),
    most: along(
      sorted.flatMap((gate) => (gate.most === undefined ? [] : [[gate.multiple, gate.most] as const])),
      multiple,
    ),
  };
}

function along(points: readonly (readonly [multiple: number, seconds: number])[], multiple: number): number {
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined || multiple < first[0] * (1 - 1e-12)) return Number.POSITIVE_INFINITY;
  if (multiple >= last[0]) return last[1] * (last[0] / multiple) ** 2;
  let [low, seconds] = first;
  for (const [high, next] of points) {
    if (multiple <= high) {
      if (high <= low || !(seconds > 0) || !(next > 0)) return next;
      const part = Math.log(multiple / low) / Math.log(high / low);
      return seconds * (next / seconds) ** part;
    }
    [low, seconds] = [high, next];
  }
  return seconds;
}
