/** What is joined to a terminal by conductors that a rule lets count. */
import type { Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';

/** The terminals reached from `start` over edges that `passes` allows, `start` first; a terminal that `stops` is reached but not passed. */
export function reach(
  start: Terminal,
  network: Network,
  passes: (edge: Edge) => boolean,
  stops: (terminal: Terminal) => boolean = () => false,
): Set<Terminal> {
  const seen = new Set([start]);
  for (const terminal of seen) {
    if (terminal !== start && stops(terminal)) continue;
    for (const edge of network.at.get(terminal.id) ?? [])
      if (passes(edge)) seen.add(edge.from === terminal ? edge.to : edge.from);
  }
  return seen;
}

/** Cores, bars and the body: what nothing opens. */
export function isSolid({ is }: Edge): boolean {
  return is !== 'contact';
}

/** The same, and what only a tool opens: fuses and shunts. */
export function isFixed(edge: Edge): boolean {
  return edge.is !== 'contact' || edge.contact.operated === 'fixed';
}
