/** Systems of one spec that nothing joins, converters included: what happens in one does nothing in another. */
import { keptWith } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';

/** Tells a terminal's system by a number; with every contact closed. */
export const systemsOf = keptWith(({ parts, terminals, joints }: Layout): ((terminal: Terminal) => number) => {
  const joined = new UnionFind(terminals.length);
  for (const { from, to } of joints) joined.join(from.index, to.index);
  for (const { terminals: own } of parts) for (const { index } of own) joined.join(index, own[0]?.index ?? index);
  return ({ index }) => joined.find(index);
});
