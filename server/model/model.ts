/**
 * The model: what a spec says, as parts, runs, cores, places and cases with facts in SI. It is built from the tree of one
 * file and the trees of the files it uses; it is immutable and knows no physics.
 */

import type { ShapedTree } from '../../grammar/parse.ts';
import type { ClauseNode, ShapedPlaced, SlotValue } from '../../grammar/shaped.ts';
import type { TextInBlocks } from '../../grammar/text-in-blocks.ts';
import type { Span } from '../../grammar/tree.ts';
import type { ContactSpec, KindSpec, PartFacts, TerminalSpec } from '../kinds/kind.ts';
import type { UnitsWritten } from './units-written.ts';
import type { UseIndex } from './use-index.ts';

/** A place in a file. `span` is absolute in that file. */
export interface Place {
  readonly uri: string;
  readonly span: Span;
}

/** What one file of the spec says. */
export interface SaidInFile {
  readonly uri: string;
  readonly statements: readonly ShapedPlaced[];
}

/** The same as it was read. */
export interface SpecFile extends SaidInFile {
  readonly text: TextInBlocks;
  readonly tree: ShapedTree;
}

/** A statement with the file it stands in; how everything in the model finds its way back to the text. */
export interface Origin {
  readonly file: Pick<SaidInFile, 'uri'>;
  readonly statement: ShapedPlaced;
}

/** A clause in force for a part or run: its own, or taken from its stock. */
export interface Fact {
  readonly clause: ClauseNode;
  readonly origin: Origin;
  /** Name of the stock it was taken from; undefined when said by the statement itself. */
  readonly fromStock: string | undefined;
}

/** Facts of a part, run, case … with the way back to the words. */
export interface Facts extends PartFacts {
  /** All clauses in force, in order; a stock clause that the statement overrides is left out. */
  readonly facts: readonly Fact[];
  fact(clauseId: string): Fact | undefined;
  /** Facts of every use of a repeatable clause, with their own places. */
  each(clauseId: string): readonly Facts[];
  all(clauseId: string): readonly Fact[];
  /** Where a clause (or one slot of it) stands, for findings; falls back to the statement's name, then keyword. */
  place(clauseId: string, slot?: string): Place;
  slot(clauseId: string, slot?: string): SlotValue | undefined;
  /** True when the clause is said with a blank (`? A`). */
  isBlank(clauseId: string, slot?: string): boolean;
  /** The text of a slot as the user wrote it (`6mm2`), for messages; undefined when unsaid. */
  written(clauseId: string, slot?: string): string | undefined;
}

export interface Named {
  readonly name: string;
  readonly title: string | undefined;
  readonly origin: Origin;
  /** Where the name is declared. */
  readonly namePlace: Place;
}

export interface Part extends Named {
  readonly kind: KindSpec;
  readonly facts: Facts;
  readonly terminals: readonly Terminal[];
  readonly contacts: readonly ContactSpec[];
  /** Enclosure the part stands in (`in BOX`), and the place it is at: its own `at`, else its enclosure's, and so on up. */
  readonly enclosure: Part | undefined;
  readonly location: Location | undefined;
}

export interface Terminal {
  /** `Q1:1`, or `NEG` for a part with one node. Unique in the spec. */
  readonly id: string;
  readonly part: Part;
  readonly spec: TerminalSpec;
  /** Its place among all terminals of the spec, from 0. */
  readonly index: number;
}

/** A `place`: temperatures in °C. */
export interface Location extends Named {
  readonly facts: Facts;
  readonly celsius: number | undefined;
  readonly outdoors: boolean;
  readonly engineSpace: boolean;
}

export interface Stock extends Named {
  readonly kindWord: string;
  readonly facts: Facts;
}

export interface Core {
  readonly run: Run;
  /** From 0. */
  readonly index: number;
  /** How the answers and messages name it: its colour when unique in the run, else `core N`. */
  readonly label: string;
  readonly colour: string | undefined;
  readonly spare: boolean;
  /** Terminal ids; undefined where missing or unknown (then a problem says so). */
  readonly from: Terminal | undefined;
  readonly to: Terminal | undefined;
  /** Where the core, its colour, and its ends are written. */
  readonly place: Place;
  readonly colourPlace: Place | undefined;
  readonly fromPlace: Place | undefined;
  readonly toPlace: Place | undefined;
}

export type ConductorSize =
  | { readonly system: 'mm2'; readonly areaMm2: number; readonly written: string }
  /** gauge: 10, 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0 */
  | { readonly system: 'awg'; readonly gauge: number; readonly written: string };

/** A wall the run passes. */
export interface Passage {
  readonly enclosure: Part | undefined;
  readonly how: 'gland' | 'grommet' | 'conduit' | 'entry' | 'open' | 'unstated';
  /** `M20`, or millimetres. */
  readonly size: string | undefined;
  readonly entry: Part | undefined;
  readonly place: Place;
  /** Where the way through is said (`open`, `by gland M20`); the clause itself when unstated. */
  readonly howPlace: Place;
}

export interface Along {
  readonly location: Location | undefined;
  readonly lengthMetres: number | undefined;
  readonly place: Place;
}

export interface Run extends Named {
  readonly facts: Facts;
  /** Undefined when unsaid or blank; `sizeBlank` tells a `?`. */
  readonly size: ConductorSize | undefined;
  readonly sizeBlank: boolean;
  readonly sizePlace: Place;
  readonly lengthMetres: number | undefined;
  readonly cores: readonly Core[];
  readonly passages: readonly Passage[];
  readonly along: readonly Along[];
  /** IEC 60228 class 1, 2, 5 or 6; undefined when unsaid (5 is assumed). AWG: 'solid' or 'stranded'. */
  readonly conductorClass: number | undefined;
  readonly solid: boolean;
  readonly tinned: boolean;
  readonly material: 'copper' | 'aluminium';
  readonly insulationCelsius: number | undefined;
  readonly insulationVolts: number | undefined;
  /** How many other cables it says lie against it; of runs it names, how many. */
  readonly bunchedWith: number;
  /** Names of runs that it says lie against it. */
  readonly bunchedRuns: readonly string[];
  readonly inConduit: boolean;
  readonly outerDiameterMm: number | undefined;
}

export interface Bar {
  readonly part: Part;
  readonly from: Terminal;
  readonly to: Terminal;
  readonly origin: Origin;
  readonly place: Place;
}

/** What a case says; SI. Anything unsaid takes the stated default of the conventions. */
export interface Case extends Named {
  readonly implied: boolean;
  readonly sun: number | undefined;
  readonly charge: number | undefined;
  readonly chargeOf: ReadonlyMap<string, number>;
  readonly voltsOf: ReadonlyMap<string, number>;
  readonly on: ReadonlyMap<string, boolean>;
  /** Positions of selectors, by their names, as they are said. */
  readonly positions: ReadonlyMap<string, string>;
  readonly allLoads: boolean | undefined;
  readonly allSources: boolean | undefined;
  readonly ambientCelsius: number | undefined;
  readonly conductorsCelsius: number | undefined;
}

export interface Expectation {
  readonly origin: Origin;
  readonly facts: Facts;
}

/** What a meter showed, and what was on then. */
export interface Reading {
  readonly origin: Origin;
  readonly facts: Facts;
  readonly conditions: Case;
}

export interface Allowance {
  readonly origin: Origin;
  readonly slug: string;
  readonly slugPlace: Place;
  /** Undefined: the whole file. */
  readonly subject: string | undefined;
  readonly reason: string | undefined;
}

export interface SystemFacts {
  readonly origin: Origin | undefined;
  readonly facts: Facts | undefined;
  readonly title: string | undefined;
  readonly nominalVolts: number | undefined;
  readonly ambientCelsius: number | undefined;
  readonly coldestCelsius: number | undefined;
  readonly hottestCelsius: number | undefined;
  /** Id of the set of limits named, if any. */
  readonly limits: string | undefined;
}

/** Something wrong with the language found while reading or resolving names, at an absolute place. */
export interface PlacedProblem {
  readonly slug: string;
  readonly place: Place;
  readonly message: string;
  readonly subject: string | undefined;
  readonly figures: Readonly<Record<string, number | string | boolean>>;
  readonly fixes: readonly {
    readonly title: string;
    readonly safe: boolean;
    readonly edits: readonly { readonly place: Place; readonly newText: string }[];
  }[];
  readonly related: readonly { readonly message: string; readonly place: Place }[];
}

export interface Model extends UseIndex {
  /** The file itself first, then those it uses in order of first use. Without their texts, which a model outlives. */
  readonly files: readonly SaidInFile[];
  readonly system: SystemFacts;
  /** A cable is laid; otherwise the spec is a list of parts, of which nothing needs to be joined yet. */
  readonly isLaid: boolean;
  /** How many sizes are stated, and how many of them as gauges. */
  readonly sizes: { readonly stated: number; readonly gauges: number };
  /** Counted when first asked for. */
  unitsWritten(): UnitsWritten;
  readonly parts: ReadonlyMap<string, Part>;
  readonly runs: ReadonlyMap<string, Run>;
  readonly stocks: ReadonlyMap<string, Stock>;
  readonly locations: ReadonlyMap<string, Location>;
  /** Cases of the spec; the four implied ones when it states none. */
  readonly cases: readonly Case[];
  readonly expectations: readonly Expectation[];
  readonly readings: readonly Reading[];
  readonly allowances: readonly Allowance[];
  readonly bars: readonly Bar[];
  readonly terminals: ReadonlyMap<string, Terminal>;
  /** Every use of every name: where it stands and what it means. For references, rename, tests; who asks of few looks them up. */
  readonly uses: readonly NameUse[];
  readonly problems: readonly PlacedProblem[];
}

export interface NameUse {
  readonly place: Place;
  readonly name: string;
  readonly target: 'part' | 'run' | 'place' | 'stock' | 'case' | 'terminal' | 'file';
  readonly declaration: boolean;
}
