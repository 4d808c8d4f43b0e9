/** Contacts as a case has them: switches as said, relays by their coil, selectors by their positions. */
import type { Case, Part, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import { positionsOf } from '../model/selector-positions.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Installation } from './installation.ts';

/** What settles by itself while a case is worked out. */
export interface Settling {
  /** Relays whose coil pulls. */
  readonly energised: ReadonlySet<Part>;
  /** Of those whose coil does not, the ones that let go when their contact took away what it needs. */
  readonly dropped: ReadonlySet<Part>;
  /** Chargers and converters whose input nothing feeds. */
  readonly unfed: ReadonlySet<Part>;
}

/** Whether the same relays pull and the same inputs are fed; that one let go counts only when it may pull again. */
export function isSameSettling(one: Settling, other: Settling): boolean {
  return sameSet(one.energised, other.energised) && sameSet(one.unfed, other.unfed);
}

function sameSet<T>(one: ReadonlySet<T>, other: ReadonlySet<T>): boolean {
  if (one.size !== other.size) return false;
  for (const item of one) if (!other.has(item)) return false;
  return true;
}

export interface Connections {
  /** By edge index. */
  readonly closed: readonly boolean[];
  /** Whether two terminals are joined by conductors and closed contacts, without crossing loads or sources. */
  joined(a: Terminal, b: Terminal): boolean;
  /** A number for all that is joined to a terminal. */
  nodeOf(terminal: Terminal): number;
}

export function connectionsIn(installation: Installation, stated: Case, { energised }: Settling): Connections {
  const { network, wiring } = installation;
  const closed = network.edges.map((edge) => edge.is !== 'contact' || isClosed(edge, stated, energised));
  const sets = new UnionFind(wiring.terminals.length);
  for (const edge of network.edges) if (closed[edge.index]) sets.join(edge.from.index, edge.to.index);
  for (const { part, from, to, is } of wiring.inner)
    if (is === 'common' || stated.on.get(part.name) !== false) sets.join(from.index, to.index);
  const nodeOf = ({ index }: Terminal) => sets.find(index);
  return { closed, joined: (a, b) => nodeOf(a) === nodeOf(b), nodeOf };
}

/** Whether a hand switch or selector is closed in a case; a relay stands as with no current in its coil. */
export function standsClosed(edge: ContactEdge, stated: Case): boolean {
  return isClosed(edge, stated, new Set());
}

function isClosed({ part, contact }: ContactEdge, stated: Case, energised: ReadonlySet<Part>): boolean {
  switch (contact.operated) {
    case 'coil':
      return energised.has(part);
    case 'coil-rest':
      return !energised.has(part);
    case 'position':
      return (stated.on.get(part.name) ?? true) && joinedIn(stated, part).includes(contact.from);
    default:
      // Anything that a case says is off is open: a switch, a breaker, a fuse that was taken out.
      return stated.on.get(part.name) ?? true;
  }
}

/** Supplies that a selector joins in a case; one that has no such position stands as if nothing were said. */
function joinedIn({ positions }: Case, part: Part): readonly string[] {
  const said = positions.get(part.name);
  const position = said === undefined ? undefined : positionsOf(part).find(({ name }) => name === said);
  return position?.joins ?? closedPositions(part);
}

/**
 * Supplies that a selector is turned to where a case does not say which: both where it has that position or does not say
 * its positions, else the first it has, because one that cannot join both never does.
 */
export function closedPositions(part: Part): readonly string[] {
  return selectorPositions(part)[0] ?? [];
}

/** The supplies that are joined in each position of a selector but off, those in which most are joined first; at least one. */
export function selectorPositions(part: Part): readonly (readonly string[])[] {
  const joining = positionsOf(part).flatMap(({ joins }) => (joins.length === 0 ? [] : [joins]));
  return joining.length === 0 ? [['1']] : joining;
}

/** Part of a coil's rated voltage at which a relay surely picks up (common practice, no source). */
export const pickUpShare = 0.7;

/**
 * Voltage at its coil from which on a relay is energised. Between what it opens below and closes above it is taken to be
 * closed still, as on the way from a full battery; once it has let go only the higher closes it again.
 */
export function pickUpVolts(part: Part, dropped: boolean): number | undefined {
  const rated = part.facts.number('coil', 'voltage');
  const opens = part.facts.number('opens-below');
  const closes = part.facts.number('closes-above');
  const needed = dropped ? (closes ?? opens) : (opens ?? closes);
  return needed ?? (rated === undefined ? undefined : pickUpShare * rated);
}
