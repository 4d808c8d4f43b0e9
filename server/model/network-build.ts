/** The network: terminals joined by cores, bars, contacts and the vehicle's body; islands, split at conversion parts. */
import { UnionFind } from '../physics/union-find.ts';
import type { Model, Part, Terminal } from './model.ts';
import type { Edge, Island, Network } from './network.ts';

type Distribute<T> = T extends Edge ? Omit<T, 'index'> : never;

export function buildNetwork(model: Model): Network {
  const edges: Edge[] = [];
  const add = (edge: Distribute<Edge>) => {
    edges.push({ ...edge, index: edges.length } as Edge);
  };
  for (const run of model.runs.values())
    for (const core of run.cores)
      if (core.from !== undefined && core.to !== undefined) add({ is: 'core', core, from: core.from, to: core.to });
  for (const bar of model.bars) add({ is: 'bar', bar, from: bar.from, to: bar.to });
  let body: Terminal | undefined;
  let bodyOhms = 0;
  for (const part of model.parts.values()) {
    const ohms = Math.max(0, part.facts.number('contacts') ?? shuntOhms(part));
    for (const contact of part.contacts) {
      const from = model.terminals.get(`${part.name}:${contact.from}`);
      const to = model.terminals.get(`${part.name}:${contact.to}`);
      if (from !== undefined && to !== undefined) add({ is: 'contact', part, contact, ohms, from, to });
    }
    if (part.kind.oneNode) {
      const [own, ...studs] = part.terminals;
      // Numbered studs are the same node as the part's name.
      for (const stud of studs) if (own !== undefined) add({ is: 'body', ohms: 0, from: own, to: stud });
      if (part.kind.word === 'chassis' && own !== undefined) {
        const here = Math.max(0, part.facts.number('body') ?? 0);
        if (body !== undefined) add({ is: 'body', ohms: bodyOhms + here, from: body, to: own });
        else {
          body = own;
          bodyOhms = here;
        }
      }
    }
  }
  const at = new Map<string, Edge[]>();
  for (const edge of edges) {
    for (const end of [edge.from, edge.to]) {
      const list = at.get(end.id);
      if (list) list.push(edge);
      else at.set(end.id, [edge]);
    }
  }
  const { islands, islandOf } = islandsOf(model, edges);
  return { edges, at, islands, islandOf };
}

/** A shunt's resistance follows from its rating: 50 mV at 150 A. */
function shuntOhms(part: Part): number {
  if (part.kind.word !== 'shunt') return 0;
  const [amps, volts] = [part.facts.number('rating'), part.facts.number('voltage')];
  return amps !== undefined && volts !== undefined && amps > 0 && volts > 0 ? volts / amps : 0;
}

function islandsOf(model: Model, edges: readonly Edge[]): { islands: Island[]; islandOf: Map<string, number> } {
  const terminals = [...model.terminals.values()];
  const index = new Map(terminals.map((terminal, i) => [terminal.id, i]));
  const sets = new UnionFind(terminals.length);
  const of = (terminal: Terminal) => index.get(terminal.id) ?? 0;
  for (const { from, to } of edges) sets.join(of(from), of(to));
  // A load joins its two conductors; so does a source. A conversion part joins each of its sides, and its sides to each
  // other only where they share both nodes, so that a common negative does not make one island of all.
  for (const part of model.parts.values()) {
    if (part.terminals.length === 0 || part.kind.oneNode) continue;
    const sides = new Map<string, Terminal[]>();
    for (const terminal of part.terminals) {
      const side = part.kind.behaviour.is === 'converter' ? (terminal.spec.side ?? '') : '';
      sides.set(side, [...(sides.get(side) ?? []), terminal]);
    }
    // Contacts are edges already; only what draws or feeds between plus and minus joins here.
    if (part.contacts.length > 0 || part.kind.behaviour.is === 'none') continue;
    for (const side of sides.values()) {
      const poles = side.filter(({ spec }) => spec.polarity !== undefined);
      const joined = poles.length > 0 ? poles : side;
      // The negative is shared by many; joining by the positive alone keeps supplies apart.
      for (let i = 1; i < joined.length; i++) {
        const [first, other] = [joined[0], joined[i]];
        if (first !== undefined && other !== undefined && part.kind.behaviour.is !== 'converter')
          sets.join(of(first), of(other));
      }
    }
  }
  const numbers = new Map<number, number>();
  const islandOf = new Map<string, number>();
  const members: Terminal[][] = [];
  for (const terminal of terminals) {
    const root = sets.find(of(terminal));
    let id = numbers.get(root);
    if (id === undefined) {
      id = members.length;
      numbers.set(root, id);
      members.push([]);
    }
    members[id]?.push(terminal);
    islandOf.set(terminal.id, id);
  }
  const islandEdges: Edge[][] = members.map(() => []);
  for (const edge of edges) islandEdges[islandOf.get(edge.from.id) ?? 0]?.push(edge);
  const islands = members.map((list, id): Island => {
    const parts = [...new Set(list.map(({ part }) => part))];
    return { id, terminals: list, parts, edges: islandEdges[id] ?? [] };
  });
  return { islands, islandOf };
}
