/** What the page of a picture and the extension around it say to each other. */
import type {
  CardAnswer,
  CardParams,
  ExportFormat,
  FiguresParams,
  PictureChange,
  SentFigures,
  TraceAnswer,
  TraceParams,
  WholePicture,
} from '../../server/session/picture-protocol.ts';

/** What the page may ask for, and what it is answered with; `uri` is added on the way. */
export interface Questions {
  readonly figures: { readonly params: Omit<FiguresParams, 'uri'>; readonly answer: SentFigures | null };
  readonly trace: { readonly params: Omit<TraceParams, 'uri'>; readonly answer: TraceAnswer };
  readonly card: { readonly params: Omit<CardParams, 'uri'>; readonly answer: CardAnswer | null };
}

export type Question = keyof Questions;

export type ToPage =
  | { readonly say: 'whole'; readonly picture: WholePicture; readonly file: string; readonly follows: boolean }
  | { readonly say: 'change'; readonly change: PictureChange }
  /** `failed` where the server could not answer. */
  | { readonly say: 'answer'; readonly id: number; readonly answer: unknown; readonly failed?: boolean }
  /** What stands at the cursor. */
  | { readonly say: 'show'; readonly elements: readonly string[] }
  | { readonly say: 'case'; readonly name: string }
  /** The server was started anew: ask for the whole again. */
  | { readonly say: 'again' }
  | { readonly say: 'trouble'; readonly message: string };

export type FromPage =
  /** It is up, or has lost count of the changes, and wants the whole. */
  | { readonly say: 'ready'; readonly view: SavedView }
  | {
      readonly say: 'ask';
      readonly id: number;
      readonly what: Question;
      readonly params: Omit<FiguresParams, 'uri'> | Omit<TraceParams, 'uri'> | Omit<CardParams, 'uri'>;
    }
  /** Show the words of an element, or go there to type. */
  | { readonly say: 'reveal'; readonly element: string; readonly focus: boolean }
  | { readonly say: 'place'; readonly uri: string; readonly line: number; readonly character: number }
  | { readonly say: 'follow'; readonly follow: boolean }
  | { readonly say: 'export'; readonly format: ExportFormat; readonly view: SavedView };

/** What a page keeps over a reload. */
export interface SavedView {
  /** The spec it shows. */
  readonly uri: string;
  readonly caseName: string;
  readonly shade: Shade;
  /** The load that is traced; empty for none. */
  readonly load: string;
  /** Whether the element at the cursor is shown; undefined until someone chooses: then the setting counts. */
  readonly follow: boolean | undefined;
  readonly places: boolean;
  readonly asItStands: boolean;
  readonly pane: boolean;
  readonly chosen: string;
  /** Undefined while all of it is shown, whatever the size of the window. */
  readonly window: { readonly x: number; readonly y: number; readonly scale: number } | undefined;
}

export type Shade = 'none' | 'capacity' | 'drop';

export function newView(uri: string): SavedView {
  return {
    uri,
    caseName: '',
    shade: 'capacity',
    load: '',
    follow: undefined,
    places: false,
    asItStands: false,
    pane: true,
    chosen: '',
    window: undefined,
  };
}

const shades: readonly unknown[] = ['none', 'capacity', 'drop'];

/** Whatever was kept, by this version or another: what cannot be read is as in a new one. */
export function readView(kept: unknown, uri: string): SavedView {
  const fresh = newView(uri);
  if (typeof kept !== 'object' || kept === null) return fresh;
  const from = kept as Partial<Record<keyof SavedView, unknown>>;
  const text = (value: unknown, otherwise: string) => (typeof value === 'string' ? value : otherwise);
  const flag = (value: unknown, otherwise: boolean) => (typeof value === 'boolean' ? value : otherwise);
  return {
    uri: text(from.uri, uri),
    caseName: text(from.caseName, fresh.caseName),
    shade: shades.includes(from.shade) ? (from.shade as Shade) : fresh.shade,
    load: text(from.load, fresh.load),
    follow: typeof from.follow === 'boolean' ? from.follow : undefined,
    places: flag(from.places, fresh.places),
    asItStands: flag(from.asItStands, fresh.asItStands),
    pane: flag(from.pane, fresh.pane),
    chosen: text(from.chosen, fresh.chosen),
    window: readWindow(from.window),
  };
}

function readWindow(kept: unknown): SavedView['window'] {
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { x, y, scale } = kept as Readonly<Record<string, unknown>>;
  const isFigure = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
  return isFigure(x) && isFigure(y) && isFigure(scale) && scale > 0 ? { x, y, scale } : undefined;
}
