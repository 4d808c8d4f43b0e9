/** On which sides of a conductor or contact something feeds, every contact being closed. */
import { countBelow, groupBy } from './grouping.ts';
import type { Source } from './ports.ts';
import type { Way, Wiring } from './wiring.ts';

/** By the ends of a way that alone joins its two sides. */
export interface FedSides {
  readonly a: boolean;
  readonly b: boolean;
}

/** Undefined for a way on a loop, which has no sides. */
export function fedSidesIn(sources: readonly Source[], wiring: Wiring): (way: Way) => FedSides | undefined {
  const { preorder, part, far } = wiring.whole;
  const at = (node: number) => preorder[node] ?? -1;
  const nodes = sources.flatMap(({ plus, minus }) => [wiring.node(plus), wiring.node(minus)]);
  nodes.sort((one, other) => at(one) - at(other));
  const ends = new Map([...groupBy(nodes, (node) => part[node] ?? -1)].map(([own, list]) => [own, list.map(at)]));
  return ({ index, a, b }) => {
    const span = far[index];
    if (span === undefined || a === b) return undefined;
    const here = ends.get(part[a] ?? -1) ?? [];
    const count = countBelow(here, span.to) - countBelow(here, span.from);
    const isFar = at(a) >= span.from && at(a) < span.to;
    return { a: (isFar ? count : here.length - count) > 0, b: (isFar ? here.length - count : count) > 0 };
  };
}
