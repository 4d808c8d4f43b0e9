/**
 * The panel side: strings found from the wiring, and what every core and contact there must carry. The design current is the
 * sum over parallel strings of the largest short-circuit current in each, from data, whatever the sun of a case.
 */
import type { Model, Part, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { liesBeyond, type Topology } from './topology.ts';

export interface PanelString {
  readonly panels: readonly Part[];
  /** Terminal where its current comes out, and where it goes back in. */
  readonly plus: Terminal;
  readonly minus: Terminal;
  readonly shortCircuitAmps: number;
  readonly powerWatts: number;
  readonly vmp: number;
  readonly imp: number;
  /** Connected parts joined inside the string, between panel and panel. */
  readonly joints: ReadonlySet<number>;
}

/** Panels in series where a connected part holds one panel's plus, one other's minus, and nothing else that feeds or takes. */
export function stringsOf(model: Model, topology: Topology): PanelString[] {
  const panels = [...model.parts.values()].filter(({ kind }) => kind.word === 'panel');
  const end = (panel: Part, sign: '+' | '-') => model.terminals.get(`${panel.name}:${sign}`) as Terminal;
  const partOf = (terminal: Terminal) => topology.part[topology.of(terminal)] ?? -1;
  const pluses = new Map<number, Part[]>();
  const minuses = new Map<number, Part[]>();
  const push = (map: Map<number, Part[]>, key: number, panel: Part) => map.set(key, [...(map.get(key) ?? []), panel]);
  for (const panel of panels) {
    push(pluses, partOf(end(panel, '+')), panel);
    push(minuses, partOf(end(panel, '-')), panel);
  }
  const others = new Set<number>();
  for (const part of model.parts.values()) {
    if (part.kind.word === 'panel' || part.kind.oneNode || part.kind.behaviour.is === 'none') continue;
    for (const terminal of part.terminals) if (terminal.spec.polarity !== undefined) others.add(partOf(terminal));
  }
  const nextOf = new Map<Part, Part>();
  const previousOf = new Map<Part, Part>();
  for (const [joint, [a, ...more]] of pluses) {
    const [b, ...rest] = minuses.get(joint) ?? [];
    if (a === undefined || b === undefined || a === b || more.length > 0 || rest.length > 0 || others.has(joint)) continue;
    nextOf.set(a, b);
    previousOf.set(b, a);
  }
  const strings: PanelString[] = [];
  for (const first of panels) {
    if (previousOf.has(first)) continue;
    const members = [first];
    for (let next = nextOf.get(first); next !== undefined && !members.includes(next); next = nextOf.get(next)) members.push(next);
    const last = members.at(-1) ?? first;
    const number = (panel: Part, clause: string) => panel.facts.number(clause) ?? 0;
    strings.push({
      panels: members,
      plus: end(last, '+'),
      minus: end(first, '-'),
      shortCircuitAmps: Math.max(...members.map((panel) => number(panel, 'isc'))),
      powerWatts: members.reduce((sum, panel) => sum + number(panel, 'power'), 0),
      vmp: members.reduce((sum, panel) => sum + number(panel, 'vmp'), 0),
      imp: Math.min(...members.map((panel) => number(panel, 'imp'))),
      joints: new Set(members.slice(0, -1).map((panel) => partOf(end(panel, '+')))),
    });
  }
  return strings;
}

/** Connected parts that belong to panels alone: no battery, alternator or output feeds them. */
export function panelParts(model: Model, topology: Topology, strings: readonly PanelString[]): Set<number> {
  const parts = new Set<number>();
  for (const { plus, minus, joints } of strings) {
    for (const terminal of [plus, minus]) parts.add(topology.part[topology.of(terminal)] ?? -1);
    for (const joint of joints) parts.add(joint);
  }
  for (const part of model.parts.values()) {
    const word = part.kind.word;
    for (const terminal of part.terminals) {
      const feeds =
        ((word === 'battery' || word === 'alternator') && terminal.spec.polarity !== undefined) ||
        ((word === 'controller' || word === 'charger' || word === 'converter') && terminal.spec.side !== 'pv' && terminal.spec.polarity !== undefined);
      if (feeds) parts.delete(topology.part[topology.of(terminal)] ?? -1);
    }
  }
  return parts;
}

/** Sum of the short-circuit currents of the strings whose current passes an edge on the panel side. */
export function shortCircuitThrough(edge: Edge, network: Network, topology: Topology, strings: readonly PanelString[]): number {
  const part = topology.part[topology.of(edge.from)] ?? -1;
  let [near, beyond, all] = [0, 0, 0];
  let loop = false;
  for (const string of strings) {
    for (const terminal of [string.plus, string.minus]) {
      if (topology.part[topology.of(terminal)] !== part) continue;
      const side = liesBeyond(topology, edge, terminal);
      all += string.shortCircuitAmps;
      if (side === undefined) loop = true;
      else if (side) beyond += string.shortCircuitAmps;
      else near += string.shortCircuitAmps;
    }
    if (string.joints.has(part)) all = Math.max(all, string.shortCircuitAmps);
  }
  if (loop || network.edges[edge.index] === undefined) return all;
  if (near === 0 && beyond === 0) return all;
  // What all strings together bring flows to where it is taken; between two groups of strings the larger group counts,
  // unless the current is taken beyond, where the near ones' must pass.
  const taken = takenBeyond(edge, topology);
  if (taken === undefined) return Math.max(near, beyond);
  return taken ? near : beyond;
}

/** Where the panels' current is taken (a controller's or charger's pv terminals): true beyond the edge, false before it. */
function takenBeyond(edge: Edge, topology: Topology): boolean | undefined {
  const part = topology.part[topology.of(edge.from)];
  let result: boolean | undefined;
  topology.terminals.forEach((terminal, node) => {
    if (topology.part[node] !== part || terminal.spec.side !== 'pv') return;
    const side = liesBeyond(topology, edge, terminal);
    if (side !== undefined) result = result ?? side;
  });
  return result;
}
