/** How many poles of a switch or breaker open one circuit one after another: those that interrupt one and the same loop. */
import type { ContactSpec } from '../kinds/kind.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { reach } from './reach.ts';

/** Poles one after another in one conductor, and what is joined to its two ends with the part itself open. */
interface Chain {
  readonly poles: readonly ContactSpec[];
  readonly ends: readonly [Net, Net];
}

type Net = ReadonlySet<Terminal>;

export interface CircuitOfPoles {
  /** Where it begins, on the part. */
  readonly start: Terminal;
  /** In its plus and its minus together. */
  readonly poles: number;
}

/**
 * The circuits that a part opens, by what is wired. Poles beside one another count once, and those in the returns of other
 * circuits not at all; of a part that opens one circuit alone every return is its own.
 */
export function circuitsOfPoles(
  part: Part,
  wired: readonly ContactSpec[],
  isReturn: (pole: number) => boolean,
  network: Network,
): CircuitOfPoles[] {
  const terminal = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
  const nets: Net[] = [];
  const joined = (start: Terminal) => reach(start, network, (edge) => edge.is !== 'contact' || edge.part !== part);
  const netOf = (name: string): Net => {
    const start = terminal(name);
    const known = nets.find((net) => start !== undefined && net.has(start));
    if (known !== undefined || start === undefined) return known ?? new Set();
    const net = joined(start);
    nets.push(net);
    return net;
  };
  const chains = (poles: readonly ContactSpec[]) => distinct(inRows(poles, netOf));
  const feeds = chains(wired.filter(({ pole }) => !isReturn(pole)));
  const returns = chains(wired.filter(({ pole }) => isReturn(pole)));
  const isSole = feeds.length < 2;
  return feeds.flatMap((feed) => {
    const start = terminal(feed.poles[0]?.from ?? '');
    const own = returns.filter((back) => isSole || isOfOneLoop(feed, back, (net) => backsOf(net, nets, joined)));
    const poles = [feed, ...own].reduce((sum, chain) => sum + chain.poles.length, 0);
    return start === undefined ? [] : [{ start, poles }];
  });
}

/** Poles between which nothing feeds or draws are in one row. */
function inRows(poles: readonly ContactSpec[], netOf: (name: string) => Net): Chain[] {
  let rows: Chain[] = poles.map((pole) => ({ poles: [pole], ends: [netOf(pole.from), netOf(pole.to)] }));
  for (let i = 0; i < rows.length; i += 1) {
    const one = rows[i];
    const next = one === undefined ? undefined : rows.slice(i + 1).find((other) => meet(one, other) !== undefined);
    if (one === undefined || next === undefined) continue;
    const ends = meet(one, next);
    if (ends === undefined) continue;
    const joined: Chain = { poles: [...one.poles, ...next.poles], ends };
    rows = [...rows.slice(0, i), joined, ...rows.slice(i + 1).filter((other) => other !== next)];
    i -= 1;
  }
  return rows;
}

/** The outer ends of two rows with nothing but a conductor between them. */
function meet({ ends: [a, b] }: Chain, { ends: [c, d] }: Chain): [Net, Net] | undefined {
  const isBetween = (one: Net, other: Net) => one === other && ![...one].some(isPort);
  if (isBetween(b, c)) return [a, d];
  if (isBetween(a, d)) return [c, b];
  if (isBetween(b, d)) return [a, c];
  return isBetween(a, c) ? [b, d] : undefined;
}

function isPort({ part }: Terminal): boolean {
  return part.kind.behaviour.is !== 'none';
}

/** Rows beside one another open nothing more. */
function distinct(chains: readonly Chain[]): Chain[] {
  return chains.filter(({ ends: [a, b] }, i) => {
    const first = chains.findIndex(({ ends: [c, d] }) => (a === c && b === d) || (a === d && b === c));
    return first === i;
  });
}

/** Whether what is fed through the one comes back through the other, on the side of the source and on that of the load. */
function isOfOneLoop({ ends: [a, b] }: Chain, { ends: [c, d] }: Chain, backs: (net: Net) => ReadonlySet<Net>): boolean {
  const [backOfA, backOfB] = [backs(a), backs(b)];
  return (backOfA.has(c) && backOfB.has(d)) || (backOfA.has(d) && backOfB.has(c));
}

/** Where the minus of each part lies that has its plus here; of batteries and panels in series also that of the last. */
function backsOf(net: Net, nets: readonly Net[], joined: (start: Terminal) => Net): ReadonlySet<Net> {
  const found = new Set<Net>();
  const pluses = new Set([...net].filter(({ spec }) => spec.polarity === '+'));
  for (const plus of pluses)
    for (const minus of plus.part.terminals) {
      if (minus.spec.polarity !== '-' || minus.spec.side !== plus.spec.side) continue;
      const back = nets.find((other) => other.has(minus));
      if (back !== undefined) found.add(back);
      else if (inSeries.has(plus.part.kind.behaviour.is))
        for (const one of joined(minus))
          if (one.spec.polarity === '+' && inSeries.has(one.part.kind.behaviour.is)) pluses.add(one);
    }
  return found;
}

const inSeries = new Set(['battery', 'panel']);
