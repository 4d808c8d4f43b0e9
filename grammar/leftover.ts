/** What no clause of a statement took, and where it stands. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import type { Failure } from './match.ts';
import type { Segment } from './segments.ts';
import type { ClauseNode } from './shaped.ts';
import type { Atom, StatementNode } from './tree.ts';

/** Atoms that no clause took. */
export interface Leftover {
  readonly atoms: readonly Atom[];
  /** Index of the first in its segment. */
  readonly from: number;
  /** Its places count from there. */
  readonly failure: Failure | undefined;
  readonly segment: Segment;
  /** The clause before them in the statement. */
  readonly previous: ClauseNode | undefined;
}

export interface Surroundings {
  readonly spec: CompiledSpec;
  readonly wrapper: CompiledSpec | undefined;
  readonly compiled: CompiledVocabulary;
  readonly clauses: readonly ClauseNode[];
  readonly node: StatementNode;
}
