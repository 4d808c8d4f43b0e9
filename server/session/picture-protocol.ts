/**
 * What the server and a view say to each other about the picture of a spec. The client and its page import this file too.
 *
 * A view opens a picture and is given the whole of it; from then on it is told of changes. Each has a number: a change is from
 * one number to the next, and a view that has another asks for the whole again.
 */
import type { Location, Position } from 'vscode-languageserver';
import type {
  CoreFigure,
  Drawing,
  DrawnElement,
  DrawnMark,
  PartFigure,
  Patch,
  PictureFigures,
} from '../reports/picture/scene.ts';
import type { Trace } from '../reports/picture/trace.ts';

/** Client to server: shows a picture, or shows it in another way. Answered with the whole, or null where there is no such file. */
export const openPictureRequest = 'ampscribe/picture/open';
/** Client to server: it is shown no longer. */
export const closePictureNotification = 'ampscribe/picture/close';
/** Server to client: what changed. */
export const pictureChangedNotification = 'ampscribe/picture/changed';
/** Client to server, each answered with null where there is nothing to answer. */
export const pictureFiguresRequest = 'ampscribe/picture/figures';
export const pictureTraceRequest = 'ampscribe/picture/trace';
export const pictureCardRequest = 'ampscribe/picture/card';
export const pictureSourceRequest = 'ampscribe/picture/source';
export const pictureElementsRequest = 'ampscribe/picture/elements';
export const pictureExportRequest = 'ampscribe/picture/export';
/** Server to client: a task for the process that draws, for a server that cannot start one itself. */
export const draftRequest = 'ampscribe/picture/draft';

export interface PictureParams {
  /** The spec, as the client writes its address. */
  readonly uri: string;
}

export interface OpenPictureParams extends PictureParams {
  /** Places as regions. */
  readonly places?: boolean;
  /** Drawn as far as it can be read, although something is written half way. */
  readonly asItStands?: boolean;
}

/** A finding on the drawing. Where it is written is asked for, since that moves with every line above. */
export type SentMark = Omit<DrawnMark, 'source'>;

export type SentPatch =
  | Exclude<Patch, { readonly does: 'marks' }>
  | { readonly does: 'marks'; readonly marks: readonly SentMark[] };

/** What a view shows beside the drawing. */
export interface PictureFacts {
  readonly title: string;
  readonly cases: readonly { readonly name: string; readonly title: string | undefined }[];
  /** What draws current and can be traced. */
  readonly loads: readonly { readonly name: string; readonly title: string | undefined }[];
  /** Cores that are in no drawing, and why: `W5 BU: spare`. */
  readonly undrawn: readonly string[];
  /** Parts that have a card. */
  readonly cards: readonly string[];
  /** Set while something is written half way and the drawing is the last one that could be read whole. */
  readonly held: { readonly message: string; readonly uri: string; readonly at: Position } | undefined;
}

export interface WholePicture {
  readonly uri: string;
  readonly number: number;
  readonly size: Drawing['size'];
  readonly elements: readonly DrawnElement[];
  readonly marks: readonly SentMark[];
  readonly facts: PictureFacts;
}

export interface PictureChange {
  readonly uri: string;
  /** The picture that the patches begin from, and the one they lead to: the same where the drawing did not change. */
  readonly from: number;
  readonly to: number;
  readonly patches: readonly SentPatch[];
  readonly facts: PictureFacts;
}

export interface FiguresParams extends PictureParams {
  readonly caseName: string;
}

/** `PictureFigures` as JSON has it. */
export interface SentFigures {
  readonly caseName: string;
  readonly trouble: string | undefined;
  readonly cores: readonly (readonly [string, CoreFigure])[];
  readonly terminals: readonly (readonly [string, number])[];
  readonly parts: readonly (readonly [string, PartFigure])[];
  readonly contacts: readonly (readonly [string, { readonly closed: boolean; readonly amps: number }])[];
}

export interface TraceParams extends FiguresParams {
  readonly load: string;
}
export type TraceAnswer = Trace | null;

export interface CardParams extends PictureParams {
  readonly part: string;
}
export interface CardAnswer {
  /** The drawing, with no style of its own. */
  readonly svg: string;
  /** The same in words. */
  readonly spoken: string;
}

export interface SourceParams extends PictureParams {
  /** Id of an element, of a mark, of a terminal or of a cable. */
  readonly element: string;
}
export type SourceAnswer = Location | null;

export interface ElementsParams extends PictureParams {
  /** The file the cursor is in: the spec or one it uses. */
  readonly file: string;
  readonly position: Position;
}

export type ExportFormat = 'svg' | 'png' | 'pdf';

export interface ExportParams extends PictureParams {
  readonly format: ExportFormat;
  /** Empty for none. */
  readonly caseName: string;
  readonly shade: 'none' | 'capacity' | 'drop';
}
/** Bytes in base64, or why there are none. */
export type ExportAnswer = { readonly base64: string } | { readonly trouble: string } | null;

export function sentFigures({ caseName, trouble, cores, terminals, parts, contacts }: PictureFigures): SentFigures {
  return {
    caseName,
    trouble,
    cores: [...cores],
    terminals: [...terminals],
    parts: [...parts],
    contacts: [...contacts],
  };
}

export function figuresFrom({ caseName, trouble, cores, terminals, parts, contacts }: SentFigures): PictureFigures {
  return {
    caseName,
    trouble,
    cores: new Map(cores),
    terminals: new Map(terminals),
    parts: new Map(parts),
    contacts: new Map(contacts),
  };
}
