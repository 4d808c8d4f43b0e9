/** The network: terminals joined by cores, bars, contacts and the vehicle's body. */
import { islandsOf } from './islands.ts';
import type { Model, Part, Terminal } from './model.ts';
import type { Edge, Network } from './network.ts';

type WithoutIndex<T> = T extends Edge ? Omit<T, 'index'> : never;

export function buildNetwork(model: Model): Network {
  const edges: Edge[] = [];
  const add = (edge: WithoutIndex<Edge>) => {
    edges.push({ index: edges.length, ...edge } as Edge);
  };
  for (const run of model.runs.values())
    for (const core of run.cores)
      if (core.from !== undefined && core.to !== undefined) add({ is: 'core', core, from: core.from, to: core.to });
  for (const bar of model.bars) add({ is: 'bar', bar, from: bar.from, to: bar.to });
  for (const part of model.parts.values()) {
    const ohms = contactOhms(part);
    for (const contact of part.contacts) {
      const from = model.terminals.get(`${part.name}:${contact.from}`);
      const to = model.terminals.get(`${part.name}:${contact.to}`);
      if (from !== undefined && to !== undefined) add({ is: 'contact', part, contact, ohms, from, to });
    }
    if (part.kind.oneNode) {
      const [own, ...studs] = part.terminals;
      // Numbered studs are the same node as the part's name.
      for (const stud of studs) if (own !== undefined) add({ is: 'body', ohms: 0, from: own, to: stud });
    }
  }
  for (const { from, to, ohms } of bodyOf(model)) add({ is: 'body', from, to, ohms });
  const at = new Map<string, Edge[]>();
  for (const edge of edges) {
    for (const end of edge.from === edge.to ? [edge.from] : [edge.from, edge.to]) {
      const list = at.get(end.id);
      if (list) list.push(edge);
      else at.set(end.id, [edge]);
    }
  }
  return { edges, at, ...islandsOf(model, edges) };
}

/** Stated resistance of each way through a part, in ohm; a shunt's follows from its rating, 50 mV at 150 A. */
function contactOhms({ kind, facts }: Part): number {
  const stated = facts.number('contacts');
  if (stated !== undefined) return Math.max(0, stated);
  if (kind.word !== 'shunt') return 0;
  const [amps, volts] = [facts.number('rating'), facts.number('voltage')];
  return amps !== undefined && volts !== undefined && amps > 0 && volts > 0 ? volts / amps : 0;
}

/** Above this many bonding points, all with a resistance of their own, the best of them stands in for the body itself. */
const mostInMesh = 40;

/**
 * All bonding points are one body, each with the resistance it states between itself and the body. The body is no terminal:
 * a point without resistance is the body; where every point has some, the star is turned into the mesh that behaves alike
 * at its points (star-mesh transformation: Rij = Ri Rj Σ 1/Rk).
 */
function bodyOf(model: Model): { readonly from: Terminal; readonly to: Terminal; readonly ohms: number }[] {
  const points = [...model.parts.values()].flatMap(({ kind, facts, terminals }) => {
    const terminal = terminals[0];
    return kind.word === 'chassis' && terminal !== undefined
      ? [{ terminal, ohms: Math.max(0, facts.number('body') ?? 0) }]
      : [];
  });
  const best = points.reduce((least, { ohms }, index) => (ohms < (points[least]?.ohms ?? 0) ? index : least), 0);
  const hub = points[best];
  if (hub === undefined) return [];
  if (hub.ohms === 0 || points.length > mostInMesh)
    return points
      .filter((point) => point !== hub)
      .map(({ terminal, ohms }) => ({ from: hub.terminal, to: terminal, ohms: hub.ohms + ohms }));
  const conductance = points.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
  return points.flatMap((a, i) =>
    points.slice(i + 1).map((b) => ({ from: a.terminal, to: b.terminal, ohms: a.ohms * b.ohms * conductance })),
  );
}
