/** What hangs together with every contact closed: worked out once for a network, since many rules ask. */
import type { Part, Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { reach } from './reach.ts';

const joinedIn = new WeakMap<Network, Map<Terminal, ReadonlySet<Terminal>>>();

/** The terminals that conductors and contacts join to one; all of them get the same set. */
export function joinedTo(terminal: Terminal, network: Network): ReadonlySet<Terminal> {
  let known = joinedIn.get(network);
  if (known === undefined) {
    known = new Map();
    joinedIn.set(network, known);
  }
  const before = known.get(terminal);
  if (before !== undefined) return before;
  const joined = reach(terminal, network, () => true);
  for (const one of joined) known.set(one, joined);
  return joined;
}

const partsOf = new WeakMap<ReadonlySet<Terminal>, ReadonlySet<Part>>();

/** The parts of these terminals; for a set that `joinedTo` gave. */
export function partsJoinedTo(terminal: Terminal, network: Network): ReadonlySet<Part> {
  const joined = joinedTo(terminal, network);
  let parts = partsOf.get(joined);
  if (parts === undefined) {
    parts = new Set([...joined].map(({ part }) => part));
    partsOf.set(joined, parts);
  }
  return parts;
}
