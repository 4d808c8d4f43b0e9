/** What the pieces of the build share while a model is made. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Beyond } from './beyond.ts';
import type { Declarations } from './declarations.ts';
import type { ReadStatements } from './files.ts';
import type { KeptModel } from './kept.ts';
import type { Lookups, Meanings } from './lookups.ts';
import type { Fact, Location, NameUse, Part, PlacedProblem, Run, Stock, Terminal } from './model.ts';
import type { Names } from './names.ts';

/** What a statement says with its stock. */
export interface Said {
  readonly facts: readonly Fact[];
  /** False where something of it could not be read, so that what seems missing may well be there. */
  readonly sure: boolean;
}

export interface Builder {
  readonly read: ReadStatements;
  readonly declarations: Declarations;
  readonly names: Names;
  readonly problems: PlacedProblem[];
  readonly uses: NameUse[];
  readonly beyond: Beyond;
  readonly kept: KeptModel;
  readonly lookups: Lookups;
  readonly stocks: Meanings<Stock>;
  readonly parts: Meanings<Part>;
  readonly locations: Meanings<Location>;
  readonly runs: Map<string, Run>;
  readonly terminals: Meanings<Terminal>;
  /** Stock of which something could not be read. */
  readonly unsureStock: Set<string>;
  /** Parts whose terminals are not known for certain: nothing is said of a terminal they seem not to have. */
  readonly unsureParts: Set<string>;
  /** By statement: several names in one head say the same. */
  readonly said: Map<ShapedPlaced, Said>;
}
