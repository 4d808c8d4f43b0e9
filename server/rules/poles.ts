/** Which pole of its supply a conductor belongs to. */
import { sourcesOf } from '../answers/ports.ts';
import type { Core, Terminal } from '../model/model.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { RuleContext } from './rule.ts';

export type Pole = 'plus' | 'minus';

/**
 * The pole of a core, with every contact closed. Undefined for what no source reaches, and for what is plus of one source and
 * minus of another: a link between batteries or panels in series.
 */
export function polesOf({ model, answers }: RuleContext): (core: Core) => Pole | undefined {
  const nodes = new UnionFind(model.terminals.size);
  for (const { from, to } of answers.network.edges) nodes.join(from.index, to.index);
  const poles = new Map<number, Set<Pole>>();
  const add = (terminal: Terminal, pole: Pole) => {
    const node = nodes.find(terminal.index);
    const known = poles.get(node);
    if (known === undefined) poles.set(node, new Set([pole]));
    else known.add(pole);
  };
  for (const { plus, minus } of sourcesOf(model)) {
    add(plus, 'plus');
    add(minus, 'minus');
  }
  return ({ from, to }) => {
    const end = from ?? to;
    const [pole, ...others] = end === undefined ? [] : [...(poles.get(nodes.find(end.index)) ?? [])];
    return others.length > 0 ? undefined : pole;
  };
}
