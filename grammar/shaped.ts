/** What shaping a statement's flat body by its vocabulary gives: clauses with their values. Spans are statement-relative. */
import type { Atom, PlacedStatement, Problem, Span, StatementNode } from './tree.ts';
import type { ClauseSpec, StatementSpec } from './vocabulary.ts';

/** One value taken by a slot of a clause's form. */
export interface SlotValue {
  readonly slot: string;
  /** The form type that took it (`current`, `name<place>`, `end`, `colour`, or `=` for an enumeration). */
  readonly type: string;
  readonly atom: Atom;
  readonly span: Span;
}

export interface ClauseNode {
  readonly spec: ClauseSpec;
  readonly span: Span;
  readonly values: readonly SlotValue[];
  /** Number of the comma- or line-separated segment it stands in, and of its line within the statement, from 0. */
  readonly segment: number;
  readonly line: number;
}

/** A segment, or the rest of one, that no clause of this statement matched. */
export interface UnknownSegment {
  readonly span: Span;
  readonly atoms: readonly Atom[];
  /** The clause that matched furthest, and the atom where it stopped, if any literal of it matched. */
  readonly nearest: ClauseSpec | undefined;
}

/** A statement with its clauses; immutable and cached with its node. For `stock`, `spec` is that of the stocked kind. */
export interface ShapedStatement {
  readonly node: StatementNode;
  /** Undefined when the first word is no statement or kind. */
  readonly spec: StatementSpec | undefined;
  /** For `stock NAME kind …`: the stock statement's own spec. */
  readonly wrapper: StatementSpec | undefined;
  readonly clauses: readonly ClauseNode[];
  readonly unknown: readonly UnknownSegment[];
  /** Lexical, syntax and shape problems, in order of place. */
  readonly problems: readonly Problem[];
}

export interface ShapedPlaced extends PlacedStatement {
  readonly shaped: ShapedStatement;
}
