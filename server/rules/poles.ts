/** Which pole of its supply a conductor belongs to. */
import { sourcesOf } from '../answers/ports.ts';
import { keptWith } from '../model/lazily.ts';
import type { Core, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { RuleContext } from './rule.ts';

export type Pole = 'plus' | 'minus';

/**
 * The pole of a core, with every contact closed. Undefined for what no source reaches, and for what is plus of one source and
 * minus of another: a link between batteries or panels in series.
 */
export function polesOf({ answers }: RuleContext): (core: Core) => Pole | undefined {
  const poleOf = polesIn(answers.network.layout);
  return ({ from, to }) => poleOf(from ?? to);
}

/** The same of what is joined to a terminal. */
export function poleAt(terminal: Terminal, { answers }: RuleContext): Pole | undefined {
  return polesIn(answers.network.layout)(terminal);
}

const [plusBit, minusBit] = [1, 2];

const polesIn = keptWith(({ parts, terminals, joints }: Layout) => {
  const nodes = new UnionFind(terminals.length);
  for (const { from, to } of joints) nodes.join(from.index, to.index);
  const poles = new Uint8Array(terminals.length);
  const add = ({ index }: Terminal, bit: number) => {
    const node = nodes.find(index);
    poles[node] = (poles[node] ?? 0) | bit;
  };
  for (const { plus, minus } of sourcesOf(parts)) {
    add(plus, plusBit);
    add(minus, minusBit);
  }
  return (end: Terminal | undefined): Pole | undefined => {
    const bits = end === undefined ? 0 : poles[nodes.find(end.index)];
    return bits === plusBit ? 'plus' : bits === minusBit ? 'minus' : undefined;
  };
});
