/**
 * The typed tree of a spec: what the text says, with exact places, before any meaning.
 *
 * Every span inside a statement is relative to that statement's first character, so that a statement's node stays the
 * same object when lines above it change. `PlacedStatement.offset` says where it stands now.
 */
import type { TextInBlocks } from './text-in-blocks.ts';

/** Half-open range of UTF-16 offsets. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

interface AtomBase {
  readonly span: Span;
  /** The exact source text of the atom. */
  readonly text: string;
  /** White space, comments and line ends (blank or comment lines) between the atom before and this one. */
  readonly leading: string;
}

/** A keyword, name, colour, code, anything that is letters. `value` is the text in NFC. */
export interface WordAtom extends AtomBase {
  readonly kind: 'word';
  readonly value: string;
}

/** `Q1:1`, `B1:+`, `U1:pv-`. `terminal` is empty while it is still being typed (`Q1:`). */
export interface TerminalAtom extends AtomBase {
  readonly kind: 'terminal';
  readonly part: string;
  readonly terminal: string;
  readonly partSpan: Span;
  readonly terminalSpan: Span;
}

/** A number or `?` with its unit. `unit` is the canonical symbol (see units.ts). `value` is in the written unit. */
export interface QuantityAtom extends AtomBase {
  readonly kind: 'quantity';
  /** Number as written, in the written unit; undefined for a blank (`? A`). AWG: 10, 0 for 1/0, -1 for 2/0, -2, -3. */
  readonly value: number | undefined;
  readonly unit: string;
  /** SI value: A, V, W, J, C (coulomb), Ω, m², m, °C, 1 (ratio), s, N·m, kg, A²s, degree; gauge number for AWG. */
  readonly si: number | undefined;
  readonly dimension: Dimension;
  readonly numberSpan: Span;
  readonly unitSpan: Span;
}

/** A number without a unit: a pole count, a terminal number, or a mistake. */
export interface NumberAtom extends AtomBase {
  readonly kind: 'number';
  readonly value: number;
}

/** `2 x` in front of a size. */
export interface TimesAtom extends AtomBase {
  readonly kind: 'times';
  readonly value: number;
}

export interface TextAtom extends AtomBase {
  readonly kind: 'text';
  readonly value: string;
  readonly closed: boolean;
}

/** `1-3`. */
export interface RangeAtom extends AtomBase {
  readonly kind: 'range';
  readonly from: number;
  readonly to: number;
}

export interface DateAtom extends AtomBase {
  readonly kind: 'date';
  readonly value: string;
}

export interface ClockAtom extends AtomBase {
  readonly kind: 'clock';
  readonly value: string;
}

/** `?` with no unit behind it. */
export interface BlankAtom extends AtomBase {
  readonly kind: 'blank';
}

export interface CommaAtom extends AtomBase {
  readonly kind: 'comma';
}

/** The line end before a continuation line; its span is the line end character(s), the indent is leading of the next. */
export interface LineAtom extends AtomBase {
  readonly kind: 'line';
}

export interface EqualsAtom extends AtomBase {
  readonly kind: 'equals';
}

/** Characters that mean nothing here. */
export interface JunkAtom extends AtomBase {
  readonly kind: 'junk';
}

export type Atom =
  | WordAtom
  | TerminalAtom
  | QuantityAtom
  | NumberAtom
  | TimesAtom
  | TextAtom
  | RangeAtom
  | DateAtom
  | ClockAtom
  | BlankAtom
  | CommaAtom
  | LineAtom
  | EqualsAtom
  | JunkAtom;

export type Dimension =
  | 'current'
  | 'voltage'
  | 'power'
  | 'energy'
  | 'charge'
  | 'resistance'
  | 'area'
  | 'gauge'
  | 'length'
  | 'temperature'
  | 'ratio'
  | 'relative-drift'
  | 'voltage-drift'
  | 'current-drift'
  | 'time'
  | 'torque'
  | 'mass'
  | 'let-through'
  | 'daily-time'
  | 'angle';

/**
 * Something wrong with the language itself, found while reading (lexing, shaping clauses, resolving names).
 * Spans are relative to the statement. The rules layer turns it into a finding with the page of the same slug.
 */
export interface Problem {
  readonly slug: string;
  readonly span: Span;
  /** One sentence in plain words: what, why, what to do. */
  readonly message: string;
  readonly figures?: Readonly<Record<string, number | string | boolean>>;
  readonly fixes?: readonly ProblemFix[];
  readonly related?: readonly { readonly message: string; readonly uri?: string; readonly absolute: Span }[];
}

export interface ProblemFix {
  readonly title: string;
  readonly safe: boolean;
  readonly edits: readonly { readonly span: Span; readonly newText: string }[];
}

/** One statement, standing alone; immutable and cached by its text. */
export interface StatementNode {
  readonly text: string;
  /** First word (`run`, `fuse`, …), known or not. Undefined when the statement does not begin with a word. */
  readonly keyword: WordAtom | undefined;
  /** Names declared by the head (`panel P1 and P2`). Empty for statements without a name. */
  readonly names: readonly WordAtom[];
  readonly title: TextAtom | undefined;
  /** What follows the head. Never contains keyword, names, `and` between names, or title. */
  readonly body: readonly Atom[];
  /** All atoms in order, head included: concatenating leading + text, then `trailing`, gives `text` back. */
  readonly atoms: readonly Atom[];
  readonly trailing: string;
  readonly comments: readonly CommentNode[];
  readonly problems: readonly Problem[];
}

export interface CommentNode {
  readonly span: Span;
  readonly text: string;
}

/** A statement where it stands in the document. */
export interface PlacedStatement {
  readonly kind: 'statement';
  readonly node: StatementNode;
  readonly offset: number;
  /** Line of the first character, from 0. */
  readonly line: number;
  /** Comment lines directly above, without their `#`, joined by line ends: the statement's notes. */
  readonly notes: string;
}

/** Blank and comment lines between statements. */
export interface Gap {
  readonly kind: 'gap';
  readonly text: string;
  readonly offset: number;
  readonly line: number;
}

export interface SpecTree {
  readonly text: TextInBlocks;
  readonly items: readonly (PlacedStatement | Gap)[];
  readonly statements: readonly PlacedStatement[];
}
