/**
 * What a wiring diagram is made of, from the electrical content to the finished drawing. Four steps, each in its own file:
 *
 *   pictureOf(analysis)              `picture-of.ts`  what is to be drawn, with no geometry
 *   layOut(graph, engine, previous)  `lay-out.ts`     where it stands
 *   drawSvg(drawing, look)           `draw-svg.ts`    as text; `drawElement` for one element of it
 *   patchesBetween(before, after)    `patches.ts`     what a view has to change
 *
 * and beside them `figuresOf(analysis, caseName)` in `figures.ts`, which no geometry depends on.
 *
 * Ids: `part:Q1`, `terminal:Q1:1`, `cable:W46`, `core:W46/0` (its index in the run), `enclosure:BOX`, `place:GARAGE`,
 * `passage:W46/0@BOX`. They follow from names alone. Lengths are in the drawing's own unit, of which a small letter is 9
 * high; x goes right and y down.
 *
 * Elements hold nothing that moves when text above them changes, so that one of which nothing changed is the same object
 * in the next drawing; where an element is written is told by `sources`, and what was found about it by `marks`.
 */
import type { Analysis } from '../../analysis.ts';
import type { Family, Polarity } from '../../kinds/kind.ts';
import type { Severity } from '../../rules/rule.ts';
import type { LayoutEngine } from './engine.ts';

export type { LayoutEngine } from './engine.ts';

/** Where an element is written: of a part or cable its statement, of a core its own words. Offsets in that file's text. */
export interface SourceRange {
  readonly uri: string;
  readonly start: number;
  readonly end: number;
  /** Of the name alone, for a cursor to land on. */
  readonly nameStart: number;
  readonly nameEnd: number;
}

export interface PictureOptions {
  /** Places as regions round what stands at them. */
  readonly places?: boolean;
  /** Only these parts, by name, with the cables between them and what those lead to. */
  readonly only?: readonly string[];
}

// ---- What is to be drawn -------------------------------------------------------------------------------------------

export interface PictureTerminal {
  /** `Q1:1`, or `NEG` for a part with one node. */
  readonly id: string;
  /** As written after the colon; empty for a part with one node. */
  readonly name: string;
  readonly polarity: Polarity | undefined;
  readonly meaning: string;
}

export interface PictureContact {
  readonly from: string;
  readonly to: string;
  readonly pole: number;
  readonly operated: 'fixed' | 'hand' | 'coil' | 'coil-rest' | 'diode' | 'position';
  readonly protects: boolean;
  /** `10 A`, `? A`, or nothing. */
  readonly rating: string;
}

export interface PicturePart {
  readonly name: string;
  readonly title: string | undefined;
  readonly kindWord: string;
  readonly family: Family;
  readonly symbol: string;
  /** What a fitter wants to read beside it, a line each: `12.8 V, 150 Ah`. */
  readonly ratings: readonly string[];
  readonly terminals: readonly PictureTerminal[];
  readonly contacts: readonly PictureContact[];
  /** Solid bars between its terminals, by terminal name. */
  readonly links: readonly (readonly [string, string])[];
  /** Terminals as one looks at it, if it says so. */
  readonly face: { readonly top: readonly string[]; readonly bottom: readonly string[] } | undefined;
  /** One node: busbar, splice, block, chassis. */
  readonly oneNode: boolean;
  /** Id of the group it stands in. */
  readonly group: string | undefined;
  /** Its place among the parts of the spec, from 0: tells a renamed part from a new one. */
  readonly ordinal: number;
}

export interface PicturePassage {
  readonly enclosure: string;
  readonly how: 'gland' | 'grommet' | 'conduit' | 'entry' | 'open' | 'unstated';
  /** `E4`, `M20`; empty when neither is said. */
  readonly label: string;
}

export interface PictureCore {
  /** `core:W46/0`. */
  readonly id: string;
  readonly run: string;
  readonly index: number;
  readonly colourWord: string | undefined;
  /** Letter code of IEC 60757: `RD`, `GNYE`; empty when unsaid. */
  readonly colourCode: string;
  /** The insulation's colour, then that of its stripe; none when unsaid. */
  readonly colours: readonly string[];
  readonly polarity: Polarity | undefined;
  /** How heavy its line is: thin below 6 mm², heavy from 25 mm² (or the gauges nearest). */
  readonly weight: 1 | 2 | 3;
  /** Terminal ids, in the order they are written. */
  readonly from: string;
  readonly to: string;
  /** `W46 RD`, and `2 × 2.5 mm² 3.2 m`. */
  readonly label: readonly [string, string];
  readonly passages: readonly PicturePassage[];
}

export interface PictureCable {
  /** `cable:W46`. */
  readonly id: string;
  readonly name: string;
  readonly title: string | undefined;
  /** `2.5 mm²`, `? mm²`; empty when unsaid. */
  readonly size: string;
  readonly length: string;
  readonly cores: readonly string[];
  /** Cores that cannot be drawn, as `BU: spare` or `core 2: one end is not known`. */
  readonly undrawn: readonly string[];
  readonly ordinal: number;
}

export interface PictureGroup {
  /** `enclosure:BOX` or `place:GARAGE`. */
  readonly id: string;
  readonly is: 'enclosure' | 'place';
  readonly name: string;
  readonly title: string | undefined;
  /** `plastic, IP65`; `40 °C`. */
  readonly note: string;
  /** The group it stands in. */
  readonly parent: string | undefined;
  readonly ordinal: number;
}

export interface PictureMark {
  /** Of the finding: `mark:<slug>:<count>:<element>`. */
  readonly id: string;
  /** Id of the part, terminal, core, cable or enclosure it is put on. */
  readonly element: string;
  readonly severity: Severity;
  readonly slug: string;
  readonly message: string;
  readonly source: SourceRange;
}

export interface PictureGraph {
  readonly title: string;
  readonly parts: readonly PicturePart[];
  readonly cores: readonly PictureCore[];
  readonly cables: readonly PictureCable[];
  readonly groups: readonly PictureGroup[];
  readonly marks: readonly PictureMark[];
  /** By element id. */
  readonly sources: ReadonlyMap<string, SourceRange>;
}

export type PictureOf = (analysis: Analysis, options?: PictureOptions) => PictureGraph;

// ---- The finished drawing ------------------------------------------------------------------------------------------

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

export type TextRole = 'name' | 'title' | 'rating' | 'terminal' | 'sign' | 'cable' | 'group' | 'gland' | 'symbol';

export interface DrawnText {
  readonly role: TextRole;
  readonly text: string;
  /** On the base line, where `anchor` says. */
  readonly at: Point;
  readonly anchor: 'start' | 'middle' | 'end';
  /** The room it has; the letters fit into it in any usual typeface. */
  readonly box: Box;
}

/** A blade, drawn only while the contact stands so. */
export interface Stands {
  /** Of its part's contacts. */
  readonly pole: number;
  readonly closed: boolean;
  /** Whether it stands so at rest: a switch open, a coil with no current. */
  readonly atRest: boolean;
}

/** Strokes of a symbol: `ink` is the theme's line colour, `paper` its ground. */
export type Shape =
  | {
      readonly is: 'line';
      readonly points: readonly Point[];
      readonly stroke: Stroke;
      readonly closed?: true;
      readonly stands?: Stands;
    }
  | { readonly is: 'rect'; readonly box: Box; readonly radius?: number; readonly stroke: Stroke; readonly fill: Fill }
  | {
      readonly is: 'circle';
      readonly at: Point;
      readonly radius: number;
      readonly stroke: Stroke;
      readonly fill: Fill;
    };
export type Stroke = 'ink' | 'fine' | 'heavy' | 'dashed' | 'none';
export type Fill = 'none' | 'paper' | 'ink';

export type Side = 'left' | 'right' | 'top' | 'bottom';

export interface DrawnTerminal {
  /** `terminal:Q1:1`. */
  readonly id: string;
  /** `Q1:1`, as in the figures. */
  readonly terminal: string;
  readonly name: string;
  readonly polarity: Polarity | undefined;
  readonly meaning: string;
  readonly side: Side;
  /** How high its lead in the symbol is. */
  readonly level: number;
  /** Cores end between `point` and `end`: the same point unless several cores stand side by side on it. */
  readonly point: Point;
  readonly end: Point;
}

export interface DrawnPart {
  readonly is: 'part';
  readonly id: string;
  readonly name: string;
  readonly title: string | undefined;
  readonly kindWord: string;
  readonly family: Family;
  readonly symbol: string;
  /** Everything of it, texts included: nothing else is drawn in here. */
  readonly box: Box;
  /** The symbol without the words above it. */
  readonly body: Box;
  readonly terminals: readonly DrawnTerminal[];
  readonly shapes: readonly Shape[];
  readonly texts: readonly DrawnText[];
  /** Id of the group it stands in. */
  readonly group: string | undefined;
  /** For a screen reader: `isolator Q1, Roof isolator, 4 poles, 25 A`. */
  readonly spoken: string;
}

export interface DrawnCore {
  readonly is: 'core';
  readonly id: string;
  readonly run: string;
  readonly cable: string;
  readonly index: number;
  /** From the end that is written first to the other; every piece is level or upright. */
  readonly points: readonly Point[];
  readonly from: string;
  readonly to: string;
  readonly colourWord: string | undefined;
  readonly colours: readonly string[];
  readonly polarity: Polarity | undefined;
  readonly weight: 1 | 2 | 3;
  readonly label: { readonly box: Box; readonly lines: readonly DrawnText[] };
  /** `+` and `−` where there is room along it, so that polarity is told without colour. */
  readonly signs: readonly DrawnText[];
  readonly spoken: string;
}

export interface DrawnPassage {
  readonly is: 'passage';
  readonly id: string;
  readonly core: string;
  readonly enclosure: string;
  readonly how: PicturePassage['how'];
  readonly point: Point;
  readonly side: Side;
  /** `E4`, `M20`; empty when neither is said. */
  readonly label: string;
  /** The label where there is room for it. */
  readonly text: DrawnText | undefined;
}

export interface DrawnGroup {
  readonly is: 'enclosure' | 'place';
  readonly id: string;
  readonly name: string;
  readonly title: string | undefined;
  /** The walls. */
  readonly box: Box;
  readonly texts: readonly DrawnText[];
  readonly parent: string | undefined;
  readonly spoken: string;
}

/** What is drawn, in the order of drawing: places, enclosures, cores, passages, parts. */
export type DrawnElement = DrawnGroup | DrawnCore | DrawnPassage | DrawnPart;

export interface DrawnMark {
  readonly is: 'mark';
  readonly id: string;
  readonly element: string;
  readonly at: Point;
  readonly severity: Severity;
  readonly slug: string;
  readonly message: string;
  readonly source: SourceRange;
}

export interface Drawing {
  readonly title: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly elements: ReadonlyMap<string, DrawnElement>;
  readonly cables: ReadonlyMap<string, PictureCable>;
  readonly marks: readonly DrawnMark[];
  readonly sources: ReadonlyMap<string, SourceRange>;
  readonly graph: PictureGraph;
  /**
   * How it came about: laid out whole and why, or kept from the one before; how many parts of that moved; and how many changes
   * have been fitted in since it was last laid out whole.
   */
  readonly made: {
    readonly how: 'whole' | 'kept';
    readonly why: string;
    readonly moved: number;
    readonly fitted: number;
  };
}

/** Without `previous` the whole is laid out; with it what did not change stays as it is, and is the same object. */
export type LayOut = (graph: PictureGraph, engine: LayoutEngine, previous?: Drawing) => Promise<Drawing>;

// ---- Figures of a case ---------------------------------------------------------------------------------------------

export interface CoreFigure {
  /** Positive from the end written first. */
  readonly amps: number;
  readonly assumed: boolean;
  readonly dropVolts: number;
  /** Of the nominal voltage, in percent. */
  readonly dropPercent: number;
  readonly celsius: number;
  readonly capacityAmps: number | undefined;
  /** |amps| of its capacity; undefined while the capacity is not known. */
  readonly share: number | undefined;
}

export interface PartFigure {
  readonly volts: number | undefined;
  readonly amps: number | undefined;
  readonly watts: number | undefined;
  readonly dropVolts: number | undefined;
  readonly dropPercent: number | undefined;
  /** A relay whose coil pulls; undefined of anything else. */
  readonly energised: boolean | undefined;
}

export interface PictureFigures {
  readonly caseName: string;
  /** Why the case, or some of it, has no answer; what has none is left out below. */
  readonly trouble: string | undefined;
  /** By `core:…`. */
  readonly cores: ReadonlyMap<string, CoreFigure>;
  /** Volts by `terminal:…`. */
  readonly terminals: ReadonlyMap<string, number>;
  /** By `part:…`. */
  readonly parts: ReadonlyMap<string, PartFigure>;
  /** Closed or not and its current, by `PART/pole`. */
  readonly contacts: ReadonlyMap<string, { readonly closed: boolean; readonly amps: number }>;
}

/** Undefined when the spec has no such case. */
export type FiguresOf = (analysis: Analysis, caseName: string) => PictureFigures | undefined;

// ---- As text -------------------------------------------------------------------------------------------------------

export interface Look {
  /** `variables` leaves the colours to the page (custom properties); the others write them out, as for a file. */
  readonly colours: 'variables' | 'light' | 'dark' | 'contrast' | 'print';
  /** Figures written at cores and terminals. */
  readonly figures?: PictureFigures;
  /** What cables are shaded by. */
  readonly shade?: 'capacity' | 'drop';
  /** Marks of findings. */
  readonly marks?: boolean;
  /** Without the style sheet, for a page that has put `styleSheet(look)` under its own policy. */
  readonly withoutStyle?: boolean;
}

export type DrawSvg = (drawing: Drawing, look: Look) => string;

/** Changes from one drawing to the next; apply them in order. */
export type Patch =
  | { readonly does: 'remove'; readonly id: string }
  | { readonly does: 'put'; readonly id: string; readonly element: DrawnElement }
  | { readonly does: 'marks'; readonly marks: readonly DrawnMark[] }
  | { readonly does: 'size'; readonly size: Drawing['size'] };

export type PatchesBetween = (before: Drawing, after: Drawing) => readonly Patch[];
