/** From a battery's terminal to the first device on every way out of it: lengths, and which cores lie there. */
import type { Core, Part, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import type { UnfusedLength } from './answers.ts';
import type { Draw, Source } from './supplies.ts';
import { liesBeyond, type Topology } from './topology.ts';

export interface FirstDevices {
  readonly lengths: readonly UnfusedLength[];
  /** Cores on the way to a first device, with the devices that end it; they count as protected by those. */
  readonly before: ReadonlyMap<Core, readonly { readonly part: Part; readonly pole: number; readonly edge: Edge }[]>;
}

export function firstDevices(network: Network, topology: Topology, sources: readonly Source[], draws: readonly Draw[]): FirstDevices {
  const lengths: UnfusedLength[] = [];
  const before = new Map<Core, { part: Part; pole: number; edge: Edge }[]>();
  for (const { part: battery, plus, limitAmps } of sources) {
    if (limitAmps !== undefined) continue;
    const { reached, ends } = walk(network, plus);
    const unfusedDraws = draws.filter((draw) => reached.has(draw.plus.id) && !draw.cranking);
    for (const { edge, terminal } of ends) {
      if (edge.is !== 'contact') continue;
      const way = reached.get(terminal.id);
      if (way === undefined) continue;
      lengths.push({ battery, device: edge.part, cores: way.cores, metres: way.metres });
    }
    for (const edge of network.edges) {
      if (edge.is !== 'core' || !reached.has(edge.from.id) || !reached.has(edge.to.id)) continue;
      // Beyond the core, as seen from the battery, must lie a device and no load that has none.
      const away = (terminal: Terminal) => {
        const [there, here] = [liesBeyond(topology, edge, terminal), liesBeyond(topology, edge, plus)];
        return there === undefined || here === undefined ? undefined : there !== here;
      };
      if (unfusedDraws.some(({ plus: end }) => away(end) !== false)) continue;
      const devices = ends.filter(({ terminal }) => away(terminal) !== false).flatMap((end) => (end.edge.is === 'contact' ? [{ part: end.edge.part, pole: end.edge.contact.pole, edge: end.edge }] : []));
      if (devices.length > 0) before.set(edge.core, [...(before.get(edge.core) ?? []), ...devices.filter(({ edge: e }) => !before.get(edge.core)?.some((known) => known.edge === e))]);
    }
  }
  return { lengths, before };
}

/** Shortest ways from a terminal without crossing a device, and the devices met. */
function walk(network: Network, start: Terminal) {
  const reached = new Map<string, { metres: number; cores: readonly Core[] }>([[start.id, { metres: 0, cores: [] }]]);
  const queue: { terminal: Terminal; metres: number }[] = [{ terminal: start, metres: 0 }];
  const ends: { edge: Edge; terminal: Terminal }[] = [];
  const met = new Set<Edge>();
  while (queue.length > 0) {
    queue.sort((a, b) => a.metres - b.metres);
    const { terminal, metres } = queue.shift() as { terminal: Terminal; metres: number };
    const here = reached.get(terminal.id);
    if (here === undefined || metres > here.metres) continue;
    for (const edge of network.at.get(terminal.id) ?? []) {
      if (edge.is === 'contact' && edge.contact.protects) {
        if (!met.has(edge)) ends.push({ edge, terminal });
        met.add(edge);
        continue;
      }
      const next = edge.from === terminal ? edge.to : edge.from;
      const length = metres + (edge.is === 'core' ? (edge.core.run.lengthMetres ?? 0) : 0);
      const known = reached.get(next.id);
      if (known !== undefined && known.metres <= length) continue;
      reached.set(next.id, { metres: length, cores: edge.is === 'core' ? [...here.cores, edge.core] : here.cores });
      queue.push({ terminal: next, metres: length });
    }
  }
  return { reached, ends };
}
