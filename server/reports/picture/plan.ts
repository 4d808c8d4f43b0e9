/** What a symbol settles before anything is placed: its size, and on which side and how high each core comes in. */
import type { DrawnText, PicturePart, Shape, Side } from './scene.ts';

export type Wing = 'left' | 'right';

/** One end of a core at a part. */
export interface CoreEnd {
  /** `core:W1/0#from`. */
  readonly key: string;
  /** The side its other end lies on. */
  readonly wants: Wing;
}

/** How a symbol was drawn before: what of it stays where it is. */
export interface Pinned {
  readonly bodyWidth: number;
  readonly bodyHeight: number;
  wing(terminal: string): Wing | undefined;
  /** Of its lead, below the upper edge of the body. */
  level(terminal: string): number | undefined;
}

export interface SymbolInput {
  readonly part: PicturePart;
  /** By terminal name. */
  readonly ends: ReadonlyMap<string, readonly CoreEnd[]>;
  readonly pinned?: Pinned;
}

export interface PlannedPort {
  readonly key: string;
  readonly terminal: string;
  readonly wing: Wing;
  /** Undefined on a bar: the layout says how high. */
  readonly y: number | undefined;
}

export interface FinishedTerminal {
  readonly name: string;
  readonly side: Side;
  readonly x: number;
  /** Of its lead. */
  readonly level: number;
  /** Cores end between these. */
  readonly top: number;
  readonly bottom: number;
}

export interface Finished {
  readonly shapes: readonly Shape[];
  readonly texts: readonly DrawnText[];
  readonly terminals: readonly FinishedTerminal[];
}

export interface SymbolPlan {
  /** With the words above it, which may be wider than the body. */
  readonly width: number;
  readonly height: number;
  readonly ports: readonly PlannedPort[];
  readonly isBar: boolean;
  /** Height of the words above the body, and of what stands below the last core of a bar. */
  readonly head: number;
  readonly foot: number;
  /** Where the body begins, and how wide it is. */
  readonly bodyLeft: number;
  readonly bodyWidth: number;
  /** From the part's upper left corner; `at` tells how high each core came in. */
  finish(at: ReadonlyMap<string, number>): Finished;
}

export type SymbolMaker = (input: SymbolInput) => SymbolPlan;
