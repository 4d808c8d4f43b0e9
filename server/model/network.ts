/**
 * The network of a spec: terminals joined by cores, bars and contacts. Case-independent; a case opens and closes contacts.
 */
import type { ContactSpec } from '../kinds/kind.ts';
import type { Bar, Core, Part, Terminal } from './model.ts';

interface EdgeBase {
  /** Terminal ids. */
  readonly from: Terminal;
  readonly to: Terminal;
  /** Index in `Network.edges`. */
  readonly index: number;
}

export interface CoreEdge extends EdgeBase {
  readonly is: 'core';
  readonly core: Core;
}

export interface BarEdge extends EdgeBase {
  readonly is: 'bar';
  readonly bar: Bar;
}

export interface ContactEdge extends EdgeBase {
  readonly is: 'contact';
  readonly part: Part;
  readonly contact: ContactSpec;
  /** Stated contact resistance in ohm; 0 when unsaid. */
  readonly ohms: number;
}

/** All `chassis` parts are one body; stated resistance between them or 0. */
export interface BodyEdge extends EdgeBase {
  readonly is: 'body';
  readonly ohms: number;
}

export type Edge = CoreEdge | BarEdge | ContactEdge | BodyEdge;

/** What an edge joins: of a core no more than its ends. */
export type Joint = Omit<CoreEdge, 'core'> | BarEdge | ContactEdge | BodyEdge;

/**
 * How a spec is joined, whatever its cables are. While nothing of it changes it is the same object at every edit, so that
 * what follows from it alone can hang on it.
 */
export interface Layout {
  readonly parts: readonly Part[];
  /** By their index. */
  readonly terminals: readonly Terminal[];
  /** By the edge's index: cores first, then bars, contacts, bodies. */
  readonly joints: readonly Joint[];
  readonly islands: readonly Island[];
  /** By terminal id; of a terminal that several islands share, the first of them. */
  readonly islandOf: ReadonlyMap<string, number>;
}

/**
 * A connected part of the network with all contacts closed, split at conversion parts whose sides share at most one node
 * (see islands.ts). A node that several islands share, such as a common negative, is listed in each of them; every edge is
 * in exactly one.
 */
export interface Island {
  readonly id: number;
  readonly terminals: readonly Terminal[];
  readonly parts: readonly Part[];
  readonly joints: readonly Joint[];
}

export interface Network {
  readonly layout: Layout;
  readonly edges: readonly Edge[];
  /** Edges at a terminal, by terminal id. */
  readonly at: ReadonlyMap<string, readonly Edge[]>;
}
