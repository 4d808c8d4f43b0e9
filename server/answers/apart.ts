/** Systems of one spec that nothing joins, converters included: what happens in one does nothing in another. */
import type { Terminal } from '../model/model.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Installation } from './installation.ts';

/** Tells a terminal's system by a number; with every contact closed. */
export function systemsOf({ model, network, wiring }: Installation): (terminal: Terminal) => number {
  const joined = new UnionFind(wiring.terminals.length);
  for (const { from, to } of network.edges) joined.join(from.index, to.index);
  for (const { terminals } of model.parts.values())
    for (const { index } of terminals) joined.join(index, terminals[0]?.index ?? index);
  return ({ index }) => joined.find(index);
}
