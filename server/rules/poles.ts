/** Which pole of its supply a conductor belongs to. */
import { sourcesOf } from '../answers/ports.ts';
import type { Core, Model, Terminal } from '../model/model.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { RuleContext } from './rule.ts';

export type Pole = 'plus' | 'minus';

/**
 * The pole of a core, with every contact closed. Undefined for what no source reaches, and for what is plus of one source and
 * minus of another: a link between batteries or panels in series.
 */
export function polesOf(context: RuleContext): (core: Core) => Pole | undefined {
  let known = found.get(context.model);
  if (known === undefined) {
    known = findPoles(context);
    found.set(context.model, known);
  }
  return known;
}

/** Several rules ask for the same. */
const found = new WeakMap<Model, (core: Core) => Pole | undefined>();

function findPoles({ model, answers }: RuleContext): (core: Core) => Pole | undefined {
  const nodes = new UnionFind(model.terminals.size);
  for (const { from, to } of answers.network.edges) nodes.join(from.index, to.index);
  const [plusBit, minusBit] = [1, 2];
  const poles = new Uint8Array(model.terminals.size);
  const add = ({ index }: Terminal, bit: number) => {
    const node = nodes.find(index);
    poles[node] = (poles[node] ?? 0) | bit;
  };
  for (const { plus, minus } of sourcesOf(model.parts.values())) {
    add(plus, plusBit);
    add(minus, minusBit);
  }
  return ({ from, to }) => {
    const end = from ?? to;
    const bits = end === undefined ? 0 : poles[nodes.find(end.index)];
    return bits === plusBit ? 'plus' : bits === minusBit ? 'minus' : undefined;
  };
}
