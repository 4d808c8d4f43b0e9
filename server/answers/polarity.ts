/** Which conductors lead to a plus and which to a minus, with every contact closed: for colours of words, never for findings. */

import type { Core, Part, Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';

export type Sign = '+' | '-';

export interface Polarities {
  /** Undefined for what is joined to neither, and for what is joined to both, as between panels in series. */
  of(terminal: Terminal): Sign | undefined;
  /** Of a conductor; a bond has none, though it leads to a minus: it carries no current but in a fault. */
  ofCore(core: Core): Sign | undefined;
}

export function polaritiesIn(network: Network, parts: readonly Part[]): Polarities {
  const terminals = parts.flatMap((part) => part.terminals);
  // Numbered here: a terminal's own number counts within what hangs together.
  const numbers = new Map(terminals.map(({ id }, number) => [id, number]));
  const nets = new UnionFind(terminals.length);
  const netOf = ({ id }: Terminal) => nets.find(numbers.get(id) ?? 0);
  for (const { from, to } of network.edges) nets.join(numbers.get(from.id) ?? 0, numbers.get(to.id) ?? 0);
  const signs = new Map<number, Sign | 'both'>();
  const mark = (marking: readonly Part[], settled: ReadonlyMap<number, unknown>) => {
    for (const terminal of marking.flatMap((part) => part.terminals)) {
      const { spec } = terminal;
      const net = netOf(terminal);
      if (spec.polarity === undefined || settled.has(net)) continue;
      const before = signs.get(net);
      signs.set(net, before === undefined || before === spec.polarity ? spec.polarity : 'both');
    }
  };
  const feeds = ({ kind: { family } }: Part) => family === 'source' || family === 'conversion';
  mark(parts.filter(feeds), new Map());
  // Where no source is joined yet, what the loads there have marked.
  mark(
    parts.filter((part) => !feeds(part)),
    new Map(signs),
  );
  const of = (terminal: Terminal) => {
    const sign = numbers.has(terminal.id) ? signs.get(netOf(terminal)) : undefined;
    return sign === 'both' ? undefined : sign;
  };
  return {
    of,
    ofCore({ colour, from, to }) {
      const ends = [from, to].flatMap((end) => end ?? []);
      const [sign] = ends.flatMap((end) => of(end) ?? []);
      const isBond = ends.some(({ spec }) => spec.name === 'case') || (colour === 'green/yellow' && sign === '-');
      return isBond ? undefined : sign;
    },
  };
}
