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

export interface SymbolInput {
  readonly part: PicturePart;
  /** By terminal name. */
  readonly ends: ReadonlyMap<string, readonly CoreEnd[]>;
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
  readonly width: number;
  readonly height: number;
  readonly ports: readonly PlannedPort[];
  /** Of a bar, where cores may come in: below this, and above the height less `foot`. */
  readonly head: number;
  readonly foot: number;
  /** From the part's upper left corner; `at` tells how high each core came in. */
  finish(at: ReadonlyMap<string, number>, height: number): Finished;
}

export type SymbolMaker = (input: SymbolInput) => SymbolPlan;
