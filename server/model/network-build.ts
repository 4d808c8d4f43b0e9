/** The network: terminals joined by cores, bars, contacts and the vehicle's body. */
import { islandsOf } from './islands.ts';
import { KeptModel } from './kept.ts';
import { lazily } from './lazily.ts';
import type { Core, Model, Part, Terminal } from './model.ts';
import type { Edge, Joint, Layout, Network } from './network.ts';

export function buildNetwork(model: Model, kept = new KeptModel()): Network {
  const cores = [...model.runs.values()].flatMap((run) => run.cores.filter(isJoined));
  const layout = kept.layout(cores, model, () => layoutOf(cores, model));
  const before = kept.networkOf(layout);
  const edges = layout.joints.map((joint, index): Edge => {
    if (joint.is !== 'core') return joint;
    const core = cores[index] as JoinedCore;
    const known = before?.edges[index];
    return known?.is === 'core' && known.core === core ? known : { core, ...joint };
  });
  const network = { layout, edges, at: before === undefined ? edgesAt(edges) : changedAt(before, edges) };
  kept.keepNetwork(network);
  return network;
}

function edgesAt(edges: readonly Edge[]): Network['at'] {
  const at = new Map<string, Edge[]>();
  for (const edge of edges) {
    for (const end of edge.from === edge.to ? [edge.from] : [edge.from, edge.to]) {
      const list = at.get(end.id);
      if (list) list.push(edge);
      else at.set(end.id, [edge]);
    }
  }
  return at;
}

/** The same as before, but for edges that are others now. */
function changedAt(before: Network, edges: readonly Edge[]): Network['at'] {
  const others = edges.filter((edge, index) => edge !== before.edges[index]);
  if (others.length === 0) return before.at;
  const at = new Map(before.at);
  for (const edge of others)
    for (const { id } of [edge.from, edge.to])
      at.set(id, at.get(id)?.map((one) => (one.index === edge.index ? edge : one)) ?? []);
  return at;
}

/** A core with both its ends. */
export type JoinedCore = Core & { readonly from: Terminal; readonly to: Terminal };

function isJoined(core: Core): core is JoinedCore {
  return core.from !== undefined && core.to !== undefined;
}

type WithoutIndex<T> = T extends Joint ? Omit<T, 'index'> : never;

function layoutOf(cores: readonly JoinedCore[], model: Model): Layout {
  const parts = [...model.parts.values()];
  const terminals = [...model.terminals.values()];
  const joints: Joint[] = [];
  const add = (joint: WithoutIndex<Joint>) => {
    joints.push({ index: joints.length, ...joint } as Joint);
  };
  for (const { from, to } of cores) add({ is: 'core', from, to });
  for (const bar of model.bars) add({ is: 'bar', bar, from: bar.from, to: bar.to });
  for (const part of parts) {
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
  for (const { from, to, ohms } of bodyOf(parts)) add({ is: 'body', from, to, ohms });
  const split = lazily(() => islandsOf(parts, terminals, joints));
  return {
    parts,
    terminals,
    joints,
    get islands() {
      return split().islands;
    },
    get islandOf() {
      return split().islandOf;
    },
  };
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
function bodyOf(parts: readonly Part[]): { readonly from: Terminal; readonly to: Terminal; readonly ohms: number }[] {
  const points = parts.flatMap(({ kind, facts, terminals }) => {
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
