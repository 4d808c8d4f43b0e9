/** What leads from a part's plus to its minus, and what ends on a terminal. */
import type { Core, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import type { Port } from './ports.ts';

/** Edges from a port's plus to its minus, as few as there are; none where they are not joined. */
export function pathBetween(
  { plus, minus }: Pick<Port, 'plus' | 'minus'>,
  network: Network,
  may: (edge: Edge) => boolean,
): Edge[] {
  const by = new Map<Terminal, Edge | undefined>([[plus, undefined]]);
  for (const [terminal] of by) {
    if (terminal === minus) break;
    for (const edge of network.at.get(terminal.id) ?? []) {
      const next = edge.from === terminal ? edge.to : edge.from;
      if (may(edge) && !by.has(next)) by.set(next, edge);
    }
  }
  const path: Edge[] = [];
  for (let at = minus, edge = by.get(at); edge !== undefined; edge = by.get(at)) {
    path.unshift(edge);
    at = edge.from === at ? edge.to : edge.from;
  }
  return path;
}

/** Names of runs and parts on the way, in order. */
export function throughOf(path: readonly Edge[]): string[] {
  return [
    ...new Set(
      path.map((edge) => {
        if (edge.is === 'core') return edge.core.run.name;
        return edge.is === 'contact' ? edge.part.name : edge.from.part.name;
      }),
    ),
  ];
}

/** Cores that end on a terminal, with the place where that end is written. */
export function endsAt(terminal: Terminal, network: Network): { core: Core; place: NonNullable<Core['fromPlace']> }[] {
  return (network.at.get(terminal.id) ?? []).flatMap((edge) => {
    if (edge.is !== 'core') return [];
    const place = edge.core.from === terminal ? edge.core.fromPlace : edge.core.toPlace;
    return place === undefined ? [] : [{ core: edge.core, place }];
  });
}
