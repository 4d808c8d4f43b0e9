/** What a piece of a spec must know of the rest of it when the piece is built by itself. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Declaration } from './declarations.ts';

export interface Beyond {
  /** Statements that every piece reads and one of them tells of: their uses of names and what is wrong with them. */
  readonly toldElsewhere: ReadonlySet<ShapedPlaced>;
  /** A cable is laid somewhere in the spec: it is no list of parts. */
  readonly isLaid: boolean;
  /** A file that the spec uses is not there. */
  readonly isIncomplete: boolean;
  /** The names of the rest mean something here: so for the piece that tells of what is common. */
  readonly seesAll: boolean;
  /** What the rest declares by a name; `seemingly` where a broken statement seems to. */
  declared(name: string): Declaration | 'seemingly' | undefined;
  /** All that the rest declares. Who asks depends on the whole spec. */
  declarations(): readonly Declaration[];
  /** Every name that is written in a head anywhere. Who asks depends on the whole spec. */
  written(): ReadonlySet<string>;
}

/** A spec that is built as a whole has nothing beyond it. */
export const nothingBeyond: Beyond = {
  toldElsewhere: new Set(),
  isLaid: false,
  isIncomplete: false,
  seesAll: false,
  declared: () => undefined,
  declarations: () => [],
  written: () => new Set(),
};
