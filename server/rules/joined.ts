/** What hangs together with every contact closed: worked out once for a layout, since many rules ask. */
import { keptWith } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { reach } from './reach.ts';

const joinedIn = keptWith((_: Layout) => new Map<Terminal, ReadonlySet<Terminal>>());

/** The terminals that conductors and contacts join to one; all of them get the same set. */
export function joinedTo(terminal: Terminal, network: Network): ReadonlySet<Terminal> {
  const known = joinedIn(network.layout);
  const before = known.get(terminal);
  if (before !== undefined) return before;
  const joined = reach(terminal, network, () => true);
  for (const one of joined) known.set(one, joined);
  return joined;
}

const partsOf = keptWith(
  (joined: ReadonlySet<Terminal>): ReadonlySet<Part> => new Set([...joined].map(({ part }) => part)),
);

/** The parts of these terminals. */
export function partsJoinedTo(terminal: Terminal, network: Network): ReadonlySet<Part> {
  return partsOf(joinedTo(terminal, network));
}
