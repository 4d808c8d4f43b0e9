/**
 * A circuit as two rows of numbers: what it joins, and its figures. From round to round, from case to case and from edit to
 * edit the same wiring is asked again with other figures, so that what the wiring alone decides is worked out once and hangs
 * on it (see `islandsOf` and `networkIn`).
 */
import type { Circuit } from './circuit.ts';

/** The sorts of elements, in the order in which they stand one after the other. */
export const sorts = ['resistors', 'links', 'emfs', 'limited', 'currents', 'powers', 'diodes'] as const;
export type Sort = (typeof sorts)[number];

/** How many figures an element of each sort has. They stand by sort, and then figure by figure: all volts, then all ohms. */
const figuresOf: Readonly<Record<Sort, number>> = {
  resistors: 1,
  links: 0,
  emfs: 2,
  limited: 3,
  currents: 1,
  powers: 1,
  diodes: 2,
};

export interface Topology {
  readonly nodeCount: number;
  /** The two nodes of each element, sort after sort. */
  readonly ends: Int32Array;
  readonly references: Int32Array;
  /** How many elements there are of each sort and of all, and where each sort begins among them. */
  readonly counts: Readonly<Record<Sort, number>>;
  readonly elements: number;
  readonly first: Readonly<Record<Sort, number>>;
  /** Where the figures of each sort begin, and how many there are. */
  readonly at: Readonly<Record<Sort, number>>;
  readonly figures: number;
  readonly digest: number;
}

/** Figures: resistors ohms; emfs volts, ohms; limited volts, ohms, mostAmps; currents amps; powers watts; diodes volts, ohms. */
export interface Flat {
  readonly topology: Topology;
  readonly figures: Float64Array;
}

export function flattened(circuit: Circuit): Flat {
  const { nodeCount, resistors, links, emfs, limited, currents, powers, diodes, references } = circuit;
  const counts = {
    resistors: resistors.length,
    links: links.length,
    emfs: emfs.length,
    limited: limited.length,
    currents: currents.length,
    powers: powers.length,
    diodes: diodes.length,
  };
  const ends = new Int32Array(2 * sorts.reduce((sum, sort) => sum + counts[sort], 0));
  let to = 0;
  for (const pairs of [resistors, links])
    for (const { a, b } of pairs) {
      ends[to++] = a;
      ends[to++] = b;
    }
  for (const ports of [emfs, limited, currents, powers])
    for (const { plus, minus } of ports) {
      ends[to++] = plus;
      ends[to++] = minus;
    }
  for (const { a, b } of diodes) {
    ends[to++] = a;
    ends[to++] = b;
  }
  const topology = known(nodeCount, counts, ends, Int32Array.from(references));
  const figures = new Float64Array(topology.figures);
  const { at } = topology;
  resistors.forEach(({ ohms }, i) => {
    figures[at.resistors + i] = ohms;
  });
  for (const [sources, from] of [
    [emfs, at.emfs],
    [limited, at.limited],
    [diodes, at.diodes],
  ] as const)
    sources.forEach(({ volts, ohms }, i) => {
      figures[from + i] = volts;
      figures[from + sources.length + i] = ohms;
    });
  limited.forEach(({ mostAmps }, i) => {
    figures[at.limited + 2 * limited.length + i] = mostAmps;
  });
  currents.forEach(({ amps }, i) => {
    figures[at.currents + i] = amps;
  });
  powers.forEach(({ watts }, i) => {
    figures[at.powers + i] = watts;
  });
  return { topology, figures };
}

/** The same circuit element by element. */
export function elementwise({ topology, figures }: Flat): Circuit {
  const { nodeCount, ends, references, counts, first, at } = topology;
  const each = <T>(sort: Sort, make: (one: number, other: number, figure: (which: number) => number) => T): T[] =>
    Array.from({ length: counts[sort] }, (_, i) => {
      const place = 2 * (first[sort] + i);
      const figure = (which: number) => figures[at[sort] + which * counts[sort] + i] as number;
      return make(ends[place] as number, ends[place + 1] as number, figure);
    });
  return {
    nodeCount,
    resistors: each('resistors', (a, b, figure) => ({ a, b, ohms: figure(0) })),
    links: each('links', (a, b) => ({ a, b })),
    emfs: each('emfs', (plus, minus, figure) => ({ plus, minus, volts: figure(0), ohms: figure(1) })),
    limited: each('limited', (plus, minus, figure) => ({
      plus,
      minus,
      volts: figure(0),
      ohms: figure(1),
      mostAmps: figure(2),
    })),
    currents: each('currents', (plus, minus, figure) => ({ plus, minus, amps: figure(0) })),
    powers: each('powers', (plus, minus, figure) => ({ plus, minus, watts: figure(0) })),
    diodes: each('diodes', (a, b, figure) => ({ a, b, volts: figure(0), ohms: figure(1) })),
    references: [...references],
  };
}

/** Topologies of late by their digest, the longest unasked first. */
const recent = new Map<number, Topology>();
/** Nodes and elements of all that are kept; what hangs on them has some 110 bytes for each. */
const mostKept = 500_000;
let kept = 0;

const weightOf = ({ nodeCount, elements }: Topology) => nodeCount + elements;

/**
 * A topology of these numbers: the one that is there already, if it is. The rows may be longer than what is meant of them, and
 * are the caller's to use again.
 */
export function known(
  nodeCount: number,
  counts: Topology['counts'],
  ends: Int32Array,
  references: Int32Array,
  referenceCount = references.length,
): Topology {
  const elements = sorts.reduce((sum, sort) => sum + counts[sort], 0);
  const made = (digest: number) =>
    topologyOf(nodeCount, counts, ends.slice(0, 2 * elements), references.slice(0, referenceCount), digest);
  // A huge one would push out all else, and is hardly asked for again.
  if (nodeCount + elements > mostKept / 2) return made(0);
  const digest = digestOf(nodeCount, counts, ends, 2 * elements, references, referenceCount);
  const found = recent.get(digest);
  if (found !== undefined) {
    recent.delete(digest);
    if (isOf(found, nodeCount, counts, ends, references, referenceCount)) {
      recent.set(digest, found);
      return found;
    }
    kept -= weightOf(found);
  }
  const topology = made(digest);
  recent.set(digest, topology);
  kept += weightOf(topology);
  for (const [oldest, one] of recent) {
    if (kept <= mostKept) break;
    recent.delete(oldest);
    kept -= weightOf(one);
  }
  return topology;
}

function topologyOf(
  nodeCount: number,
  counts: Topology['counts'],
  ends: Int32Array,
  references: Int32Array,
  digest: number,
): Topology {
  const first: Record<Sort, number> = { ...counts };
  const at: Record<Sort, number> = { ...counts };
  let [elements, figures] = [0, 0];
  for (const sort of sorts) {
    first[sort] = elements;
    at[sort] = figures;
    elements += counts[sort];
    figures += counts[sort] * figuresOf[sort];
  }
  return { nodeCount, ends, references, counts, elements, first, at, figures, digest };
}

export function sameTopology(one: Topology, { nodeCount, counts, ends, references }: Topology): boolean {
  return one.ends === ends || isOf(one, nodeCount, counts, ends, references, references.length);
}

function isOf(
  topology: Topology,
  nodeCount: number,
  counts: Topology['counts'],
  ends: Int32Array,
  references: Int32Array,
  referenceCount: number,
): boolean {
  return (
    topology.nodeCount === nodeCount &&
    sorts.every((sort) => topology.counts[sort] === counts[sort]) &&
    topology.references.length === referenceCount &&
    begins(topology.references, references) &&
    begins(topology.ends, ends)
  );
}

function begins(start: Int32Array, longer: Int32Array): boolean {
  for (let i = 0; i < start.length; i++) if (start[i] !== longer[i]) return false;
  return true;
}

function digestOf(
  nodeCount: number,
  counts: Topology['counts'],
  ends: Int32Array,
  endCount: number,
  references: Int32Array,
  referenceCount: number,
): number {
  let digest = Math.imul(nodeCount, 0x9e3779b1);
  for (const sort of sorts) digest = added(digest, counts[sort]);
  for (let i = 0; i < endCount; i++) digest = added(digest, ends[i] as number);
  for (let i = 0; i < referenceCount; i++) digest = added(digest, references[i] as number);
  return digest;
}

function added(digest: number, word: number): number {
  return Math.imul((digest << 5) ^ (digest >>> 27) ^ word, 0x85ebca6b);
}
