/**
 * A circuit taken apart into islands: what no element joins has nothing to do with each other. Each is a circuit of its own
 * with its own numbers, so that it stays the same whatever is changed in the others.
 */
import type { Circuit } from './circuit.ts';
import { UnionFind } from './union-find.ts';

/** An island, and what its nodes and elements are in the whole. */
export interface Island {
  readonly circuit: Circuit;
  readonly nodes: Int32Array;
  readonly resistors: Int32Array;
  readonly links: Int32Array;
  readonly emfs: Int32Array;
  readonly limited: Int32Array;
  readonly currents: Int32Array;
  readonly powers: Int32Array;
  readonly diodes: Int32Array;
}

/** Undefined for a circuit that is one island. Draws between two islands belong to none: nothing flows in them. */
export function islandsOf(circuit: Circuit): Island[] | undefined {
  const { nodeCount } = circuit;
  const joined = new UnionFind(nodeCount);
  for (const { a, b } of circuit.resistors) joined.join(a, b);
  for (const { a, b } of circuit.links) joined.join(a, b);
  for (const { a, b } of circuit.diodes) joined.join(a, b);
  for (const { plus, minus } of circuit.emfs) joined.join(plus, minus);
  for (const { plus, minus } of circuit.limited) joined.join(plus, minus);
  /** Island of each node by its root; a node that has no element is in none. */
  const islandAt = new Int32Array(nodeCount).fill(-1);
  let count = 0;
  const used = (node: number) => {
    const root = joined.find(node);
    if (islandAt[root] === -1) islandAt[root] = count++;
  };
  for (const { a } of circuit.resistors) used(a);
  for (const { a } of circuit.links) used(a);
  for (const { a } of circuit.diodes) used(a);
  for (const { plus } of circuit.emfs) used(plus);
  for (const { plus } of circuit.limited) used(plus);
  if (count <= 1) return undefined;
  const islandOf = (node: number) => islandAt[joined.find(node)] as number;
  const local = new Int32Array(nodeCount);
  const nodes: number[][] = Array.from({ length: count }, () => []);
  for (let node = 0; node < nodeCount; node++) {
    const own = nodes[islandOf(node)];
    if (own !== undefined) local[node] = own.push(node) - 1;
  }
  const at = (node: number) => local[node] as number;
  const shared = <T>(all: readonly T[], of: (one: T) => number) => {
    const split: number[][] = Array.from({ length: count }, () => []);
    all.forEach((one, i) => {
      split[of(one)]?.push(i);
    });
    return split;
  };
  const pairs = <T extends { readonly a: number; readonly b: number }>(all: readonly T[]) => ({
    all: all.map((one) => ({ ...one, a: at(one.a), b: at(one.b) })),
    split: shared(all, ({ a }) => islandOf(a)),
  });
  const ports = <T extends { readonly plus: number; readonly minus: number }>(all: readonly T[]) => ({
    all: all.map((one) => ({ ...one, plus: at(one.plus), minus: at(one.minus) })),
    split: shared(all, ({ plus, minus }) => (islandOf(plus) === islandOf(minus) ? islandOf(plus) : -1)),
  });
  const kinds = {
    resistors: pairs(circuit.resistors),
    links: pairs(circuit.links),
    emfs: ports(circuit.emfs),
    limited: ports(circuit.limited),
    currents: ports(circuit.currents),
    powers: ports(circuit.powers),
    diodes: pairs(circuit.diodes),
  };
  const references = shared(circuit.references, islandOf);
  const picked = <T>({ all, split }: { all: readonly T[]; split: readonly number[][] }, island: number) =>
    (split[island] ?? []).map((i) => all[i] as T);
  const indices = ({ split }: { split: readonly number[][] }, island: number) => Int32Array.from(split[island] ?? []);
  return nodes.map((own, i) => ({
    circuit: {
      nodeCount: own.length,
      resistors: picked(kinds.resistors, i),
      links: picked(kinds.links, i),
      emfs: picked(kinds.emfs, i),
      limited: picked(kinds.limited, i),
      currents: picked(kinds.currents, i),
      powers: picked(kinds.powers, i),
      diodes: picked(kinds.diodes, i),
      references: (references[i] ?? []).map((k) => at(circuit.references[k] as number)),
    },
    nodes: Int32Array.from(own),
    resistors: indices(kinds.resistors, i),
    links: indices(kinds.links, i),
    emfs: indices(kinds.emfs, i),
    limited: indices(kinds.limited, i),
    currents: indices(kinds.currents, i),
    powers: indices(kinds.powers, i),
    diodes: indices(kinds.diodes, i),
  }));
}

/** The circuit of an island with the figures of a whole that has the same elements between the same nodes. */
export function withFigures({ circuit, ...at }: Island, whole: Circuit): Circuit {
  return {
    nodeCount: circuit.nodeCount,
    resistors: circuit.resistors.map(({ a, b }, i) => ({ a, b, ohms: from(whole.resistors, at.resistors, i).ohms })),
    links: circuit.links,
    emfs: circuit.emfs.map(({ plus, minus }, i) => {
      const { volts, ohms } = from(whole.emfs, at.emfs, i);
      return { plus, minus, volts, ohms };
    }),
    limited: circuit.limited.map(({ plus, minus }, i) => {
      const { volts, ohms, mostAmps } = from(whole.limited, at.limited, i);
      return { plus, minus, volts, ohms, mostAmps };
    }),
    currents: circuit.currents.map(({ plus, minus }, i) => {
      return { plus, minus, amps: from(whole.currents, at.currents, i).amps };
    }),
    powers: circuit.powers.map(({ plus, minus }, i) => {
      return { plus, minus, watts: from(whole.powers, at.powers, i).watts };
    }),
    diodes: circuit.diodes.map(({ a, b }, i) => {
      const { volts, ohms } = from(whole.diodes, at.diodes, i);
      return { a, b, volts, ohms };
    }),
    references: circuit.references,
  };
}

function from<T>(all: readonly T[], places: Int32Array, i: number): T {
  return all[places[i] as number] as T;
}
