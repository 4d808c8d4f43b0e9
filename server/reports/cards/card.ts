/**
 * The card of a part: its terminals as one stands before it with a screwdriver, the cores that go on them, and what a
 * continuity tester says. It is data without lengths; `draw-card.ts` draws it.
 */
import type { Polarity } from '../../kinds/kind.ts';

export interface CardCore {
  readonly run: string;
  /** Which core of the run, where that has several and its colour does not tell: `core 2`; else empty. */
  readonly core: string;
  /** `green/yellow`; undefined when unsaid. */
  readonly colour: string | undefined;
  /** For the screen: the insulation’s colour, then that of its stripe; none when unsaid. */
  readonly shades: readonly string[];
  /** `6 mm²`, `? mm²`, or that it is not said. */
  readonly size: string;
  readonly sign: Polarity | undefined;
  /** Terminal at its other end, `F1:out`, and the title of the part there. */
  readonly other: string;
  readonly otherTitle: string | undefined;
}

export interface CardTerminal {
  /** `Q1:1`. */
  readonly id: string;
  /** As marked on the part. */
  readonly name: string;
  readonly meaning: string;
  readonly cores: readonly CardCore[];
  /** Terminals that a bar joins it to. */
  readonly barsTo: readonly string[];
  /** Has neither core nor bar. */
  readonly empty: boolean;
}

export type CardSide = 'top' | 'bottom' | 'left' | 'right';

export interface CardSpot {
  readonly terminal: string;
  readonly side: CardSide;
  /** From the left or from the top, in steps of one terminal; halves where a row stands between the terminals of the other. */
  readonly place: number;
}

/** A way through the part. */
export interface CardWay {
  /** Pole or way number, from 1. */
  readonly pole: number;
  /** `pole 1`, `way 3`; empty where there is only one. */
  readonly label: string;
  readonly from: string;
  readonly to: string;
  readonly operated: 'fixed' | 'hand' | 'coil' | 'coil-rest' | 'diode' | 'position';
  readonly protects: boolean;
  /** Of a device in this way, such as `10 A`; empty when there is none or it is said for the whole part. */
  readonly rating: string;
  /** `one side`: something is on one of its terminals and nothing on the other. */
  readonly use: 'used' | 'one side' | 'unused';
}

export interface CardBar {
  readonly from: string;
  readonly to: string;
  /** `link`: a bar that is fitted; `inside`: joined inside by its making. */
  readonly is: 'link' | 'inside';
}

/** What a continuity tester tells in one position of the part. */
export interface BeepState {
  /** `ON`, `OFF`, `coil at rest`, … */
  readonly when: string;
  /** Terminals that beep with one another, with bars on and all cores off; in the order of the part. Those alone are left out. */
  readonly groups: readonly (readonly string[])[];
  /** What beeps besides while the cores are on: through other conductors, with every other switch closed. */
  readonly also: readonly { readonly from: string; readonly to: string; readonly over: string }[];
}

export interface Card {
  readonly part: string;
  readonly title: string | undefined;
  /** `isolator`. */
  readonly kindWord: string;
  readonly symbol: string;
  readonly ratings: readonly string[];
  /** `in ROOF-BOX, at ROOF`; empty when unsaid. */
  readonly where: string;
  readonly terminals: readonly CardTerminal[];
  readonly spots: readonly CardSpot[];
  /** Whether the part says itself how its terminals stand. */
  readonly faceStated: boolean;
  readonly ways: readonly CardWay[];
  readonly bars: readonly CardBar[];
  /** Terminals of a coil, if it has one. */
  readonly coil: { readonly from: string; readonly to: string } | undefined;
  readonly beeps: readonly BeepState[];
  /** What does not beep although it is joined, and what else to know while measuring. */
  readonly beepNotes: readonly string[];
  /** How far the drawing may be trusted, and what is amiss with its face. */
  readonly notes: readonly string[];
  readonly caution: string;
  /** All of it in words, for a screen reader. */
  readonly spoken: string;
}
