/**
 * The conductors of a spec as a graph, with every contact closed. What cannot carry a device or a rating of its own (bars,
 * the vehicle's body, a conductor shared inside a converter) is merged into one node, and linked poles are one way: so an
 * isolator with poles in parallel parts its circuit like one with a single pole.
 */

import { lazily } from '../model/lazily.ts';
import type { Core, Part, Terminal } from '../model/model.ts';
import type { Joint, Layout, Network } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import { groupBy } from './grouping.ts';
import { type Separation, separate } from './separation.ts';

export type WayEdge = Extract<Joint, { readonly is: 'core' | 'contact' }>;

/** One core, or one contact with those that are linked in parallel to it. */
export interface Way {
  readonly index: number;
  /** Nodes, of the first edge's `from` and `to`. */
  readonly a: number;
  readonly b: number;
  readonly edges: readonly WayEdge[];
  /** An overcurrent protective device. */
  readonly device: boolean;
  /** Lets current pass from a to b only. */
  readonly oneWay: boolean;
}

/** A way inside a part that is no contact: a shared conductor, or a controller's load output on its battery side. */
export interface InnerWay {
  readonly part: Part;
  readonly from: Terminal;
  readonly to: Terminal;
  readonly is: 'common' | 'load-output';
}

export type InnerStep = Pick<InnerWay, 'from' | 'to'>;

export interface Wiring {
  /** By their index. */
  readonly terminals: readonly Terminal[];
  /**
   * Number of a terminal in a circuit: bars and bonds without resistance make one node of those they join, so that linked
   * poles share alike. The numbers are those of terminals, with gaps.
   */
  circuitNode(terminal: Terminal): number;
  readonly nodeCount: number;
  node(terminal: Terminal): number;
  readonly ways: readonly Way[];
  /** Way of an edge by the edge's index; undefined for bars and the body. */
  readonly wayOf: readonly (Way | undefined)[];
  readonly inner: readonly InnerWay[];
  /** Inner ways at a terminal, each from there. */
  innerAt(terminal: Terminal): readonly InnerStep[];
  /** Number of all that conductors, contacts and inner ways join to a terminal. */
  net(terminal: Terminal): number;
  /** Over all ways. */
  readonly whole: Separation;
  /** Over ways that are no device and no diode: a zone is what one fault reaches without passing a device. */
  readonly zones: Separation;
}

export function wiringOf({ parts, terminals, joints }: Layout): Wiring {
  const inner = innerWays(parts);
  const merged = new UnionFind(terminals.length);
  for (const { is, from, to } of joints) if (is === 'bar' || is === 'body') merged.join(from.index, to.index);
  const solid = new UnionFind(terminals.length);
  for (const joint of joints)
    if (joint.is === 'bar' || (joint.is === 'body' && joint.ohms === 0)) solid.join(joint.from.index, joint.to.index);
  for (const { is, from, to } of inner) {
    if (is === 'common') solid.join(from.index, to.index);
    // The minus of a load output is the battery's; its plus is held apart, because the output limits its own current.
    if (is === 'common' || from.spec.polarity === '-') merged.join(from.index, to.index);
  }
  const nodes = new Int32Array(terminals.length);
  const numbers = new Map<number, number>();
  terminals.forEach((_, i) => {
    const root = merged.find(i);
    const known = numbers.get(root) ?? numbers.size;
    numbers.set(root, known);
    nodes[i] = known;
  });
  const node = ({ index }: Terminal) => nodes[index] as number;
  const circuitNodes = Int32Array.from(nodes, (_, i) => solid.find(i));
  const { ways, wayOf } = waysOf(joints, node);
  const innerAt = groupBy(
    inner.flatMap(({ from, to }): InnerStep[] => [
      { from, to },
      { from: to, to: from },
    ]),
    ({ from }) => from,
  );
  const nets = lazily(() => {
    const joined = new UnionFind(terminals.length);
    for (const { from, to } of joints) joined.join(from.index, to.index);
    for (const { from, to } of inner) joined.join(from.index, to.index);
    return joined;
  });
  return {
    terminals,
    circuitNode: ({ index }) => circuitNodes[index] as number,
    nodeCount: numbers.size,
    node,
    ways,
    wayOf,
    inner,
    innerAt: (terminal) => innerAt.get(terminal) ?? [],
    net: ({ index }) => nets().find(index),
    whole: separate(numbers.size, ways),
    zones: separate(numbers.size, ways, { counts: (i) => ways[i]?.device === false && ways[i]?.oneWay === false }),
  };
}

/** Shared conductors of conversion parts, as far as they say `common`; and load outputs of controllers. */
function innerWays(parts: readonly Part[]): InnerWay[] {
  const inner: InnerWay[] = [];
  for (const part of parts) {
    if (part.kind.behaviour.is !== 'converter') continue;
    const poles = (sign: '+' | '-') =>
      part.terminals.filter(({ spec }) => spec.polarity === sign && spec.side !== undefined);
    if (part.facts.word('common') === 'common') {
      const [first, ...others] = poles(part.facts.word('common', 'pole') === 'positive' ? '+' : '-');
      if (first !== undefined) for (const to of others) inner.push({ part, from: first, to, is: 'common' });
    }
    for (const sign of ['+', '-'] as const) {
      const [from, to] = ['bat', 'load'].map((side) => poles(sign).find(({ spec }) => spec.side === side));
      if (from !== undefined && to !== undefined) inner.push({ part, from, to, is: 'load-output' });
    }
  }
  return inner;
}

function waysOf(joints: readonly Joint[], node: (terminal: Terminal) => number): Pick<Wiring, 'ways' | 'wayOf'> {
  const ways: (Way & { edges: WayEdge[] })[] = [];
  const wayOf: (Way | undefined)[] = joints.map(() => undefined);
  const groups = new Map<string, Way & { edges: WayEdge[] }>();
  for (const joint of joints) {
    if (joint.is !== 'core' && joint.is !== 'contact') continue;
    const a = node(joint.from);
    const b = node(joint.to);
    const oneWay = joint.is === 'contact' && joint.contact.operated === 'diode';
    // Contacts of one part between the same two nodes are linked on both sides.
    const group =
      joint.is === 'contact' && !oneWay ? `${joint.part.name} ${Math.min(a, b)} ${Math.max(a, b)}` : undefined;
    const linked = group === undefined ? undefined : groups.get(group);
    if (linked !== undefined) {
      linked.edges.push(joint);
      wayOf[joint.index] = linked;
      continue;
    }
    const way = {
      index: ways.length,
      a,
      b,
      edges: [joint],
      device: joint.is === 'contact' && joint.contact.protects,
      oneWay,
    };
    ways.push(way);
    wayOf[joint.index] = way;
    if (group !== undefined) groups.set(group, way);
  }
  return { ways, wayOf };
}

/** Cores of a way in a network of that layout. */
export function coresOf({ edges }: Way, network: Network): Core[] {
  return edges.flatMap(({ index }) => {
    const edge = network.edges[index];
    return edge?.is === 'core' ? [edge.core] : [];
  });
}
