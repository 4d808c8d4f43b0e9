/**
 * Panels one behind the other between the same two conductors, however they stand. One of them that looks the other way gives
 * nothing and takes a string's voltage down by what its bypass diodes lose; of a whole string that does, all are the wrong way round.
 */
import type { Part, Terminal } from '../model/model.ts';
import { groupBy } from './grouping.ts';
import type { Port, Source } from './ports.ts';

export interface AgainstString {
  /** The panel; of a whole string its outermost plus and minus, with the part of its plus. */
  readonly port: Port;
  /** What tells which side is which. */
  readonly against: Port;
  /** All panels of its string, in line from the believed plus; undefined where the whole string is the wrong way round. */
  readonly string: readonly Part[] | undefined;
}

/** A panel of a chain, and its end that looks to where the chain begins. */
interface Link {
  readonly panel: Source;
  readonly first: Terminal;
  readonly last: Terminal;
}

/** Panels that stand against their string where its ends reach something that is believed. `net` tells what is joined. */
export function againstTheirStrings(
  sources: readonly Source[],
  others: readonly Port[],
  believed: readonly Port[],
  net: (terminal: Terminal) => number,
): AgainstString[] {
  const panels = sources.filter(({ is }) => is === 'panel');
  if (panels.length < 2) return [];
  const chains = chainsOf(panels, new Set(others.flatMap(({ plus, minus }) => [net(plus), net(minus)])), net);
  return chains.flatMap((chain) => againstIn(chain, believed, net));
}

/** Chains of two panels and more; where two panels alone meet, and nothing else that feeds or draws, one goes on to the other. */
function chainsOf(
  panels: readonly Source[],
  taken: ReadonlySet<number>,
  net: (terminal: Terminal) => number,
): Link[][] {
  const links = panels.flatMap((panel): Link[] => [
    { panel, first: panel.plus, last: panel.minus },
    { panel, first: panel.minus, last: panel.plus },
  ]);
  const at = groupBy(links, ({ first }) => net(first));
  const next = ({ panel, last }: Link): Link | undefined => {
    const here = at.get(net(last)) ?? [];
    if (here.length !== 2 || taken.has(net(last))) return undefined;
    return here.find((other) => other.panel !== panel);
  };
  const chained = new Set<Source>();
  return links.flatMap((begin) => {
    const before = { panel: begin.panel, first: begin.last, last: begin.first };
    if (chained.has(begin.panel) || next(before) !== undefined) return [];
    const chain: Link[] = [];
    for (let link: Link | undefined = begin; link !== undefined && !chained.has(link.panel); link = next(link)) {
      chained.add(link.panel);
      chain.push(link);
    }
    return chain.length > 1 ? [chain] : [];
  });
}

function againstIn(
  chain: readonly Link[],
  believed: readonly Port[],
  net: (terminal: Terminal) => number,
): AgainstString[] {
  const [first, last] = [chain[0]?.first, chain.at(-1)?.last];
  if (first === undefined || last === undefined) return [];
  const [begin, end] = [net(first), net(last)];
  const isFrom = (one: number, other: number) => (port: Port) => net(port.plus) === one && net(port.minus) === other;
  const against = believed.find((port) => isFrom(begin, end)(port) || isFrom(end, begin)(port));
  if (against === undefined || begin === end) return [];
  const isPlusFirst = net(against.plus) === begin;
  const inLine = isPlusFirst ? chain : [...chain].reverse();
  const isWrong = ({ first: facing }: Link) => (facing.spec.polarity === '+') !== isPlusFirst;
  const wrong = inLine.filter(isWrong);
  if (wrong.length < inLine.length) {
    const string = inLine.map(({ panel }) => panel.part);
    return wrong.map(({ panel: { part, plus, minus } }) => ({ port: { part, plus, minus }, against, string }));
  }
  const [top, bottom] = [inLine.at(-1)?.panel, inLine[0]?.panel];
  if (top === undefined || bottom === undefined) return [];
  return [{ port: { part: top.part, plus: top.plus, minus: bottom.minus }, against, string: undefined }];
}
