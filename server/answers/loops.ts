/** Loops of conductors: where what hangs on them comes in. */
import type { Wiring } from './wiring.ts';

/** For every node that hangs on a loop (by its number in the whole wiring), the node of the loop over which it does. */
export function loopEntries({ ways, whole }: Wiring, loop: number): ReadonlyMap<number, number> {
  const entry = new Map<number, number>();
  const neighbours = new Map<number, number[]>();
  const join = (from: number, to: number) => {
    const list = neighbours.get(from);
    if (list === undefined) neighbours.set(from, [to]);
    else list.push(to);
  };
  for (const { index, a, b } of ways) {
    if (whole.loop[index] === loop) {
      entry.set(a, a);
      entry.set(b, b);
    } else {
      join(a, b);
      join(b, a);
    }
  }
  // The map is walked while it grows.
  for (const [node, start] of entry)
    for (const to of neighbours.get(node) ?? []) if (!entry.has(to)) entry.set(to, start);
  return entry;
}
