/** Lists: grouped by a key, and searched where they ascend. */

/** Items by key, in order of first appearance. */
export function groupBy<K, T>(items: Iterable<T>, key: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const of = key(item);
    const group = groups.get(of);
    if (group === undefined) groups.set(of, [item]);
    else group.push(item);
  }
  return groups;
}

/** How many of an ascending list lie below a bound. */
export function countBelow(ascending: readonly number[], bound: number): number {
  let [low, high] = [0, ascending.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] ?? 0) < bound) low = middle + 1;
    else high = middle;
  }
  return low;
}
