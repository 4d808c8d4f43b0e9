/** Which part of the drawing is in the window, and how large. Pure: sizes in, a place out. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A point of the drawing stands at `x + scale × its x` in the window, and so with y. */
export interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export interface Rect extends Size {
  readonly x: number;
  readonly y: number;
}

export const smallest = 0.05;
export const largest = 8;
/** Small drawings are not blown up. */
const largestFit = 1.5;
const margin = 12;
/** Of the window, that stays round what is brought into it. */
const surround = 0.12;

/** All of the drawing, in the middle. */
export function fitted(drawing: Size, window: Size): View {
  const room = { width: Math.max(1, window.width - 2 * margin), height: Math.max(1, window.height - 2 * margin) };
  const wanted = Math.min(room.width / Math.max(1, drawing.width), room.height / Math.max(1, drawing.height));
  const scale = within(wanted, smallest, largestFit);
  return {
    x: (window.width - scale * drawing.width) / 2,
    y: (window.height - scale * drawing.height) / 2,
    scale,
  };
}

/** Larger or smaller by a factor; the point of the window under `at` stays where it is. */
export function zoom(view: View, by: number, at: { readonly x: number; readonly y: number }): View {
  const scale = within(view.scale * by, smallest, largest);
  const grown = scale / view.scale;
  return { x: at.x - grown * (at.x - view.x), y: at.y - grown * (at.y - view.y), scale };
}

export function pan(view: View, dx: number, dy: number): View {
  return { ...view, x: view.x + dx, y: view.y + dy };
}

/** Moved as little as it takes to see a piece of the drawing; the same where it is in sight. */
export function inSight(view: View, piece: Rect, window: Size): View {
  const x = moved(view.x + view.scale * piece.x, view.scale * piece.width, window.width);
  const y = moved(view.y + view.scale * piece.y, view.scale * piece.height, window.height);
  return x === 0 && y === 0 ? view : pan(view, x, y);
}

function moved(start: number, length: number, window: number): number {
  const edge = window * surround;
  // What is longer than the window shows its middle.
  if (length > window - 2 * edge)
    return start > edge || start + length < window - edge ? (window - length) / 2 - start : 0;
  if (start < 0) return edge - start;
  return start + length > window ? window - edge - (start + length) : 0;
}

/** At least a corner of the drawing stays in the window, or one could lose it. */
export function kept(view: View, drawing: Size, window: Size): View {
  const least = 40;
  return {
    x: within(view.x, least - view.scale * drawing.width, window.width - least),
    y: within(view.y, least - view.scale * drawing.height, window.height - least),
    scale: view.scale,
  };
}

/** The smallest that holds all of several; undefined for none. */
export function around(pieces: readonly Rect[]): Rect | undefined {
  if (pieces.length === 0) return undefined;
  const x = Math.min(...pieces.map((piece) => piece.x));
  const y = Math.min(...pieces.map((piece) => piece.y));
  return {
    x,
    y,
    width: Math.max(...pieces.map((piece) => piece.x + piece.width)) - x,
    height: Math.max(...pieces.map((piece) => piece.y + piece.height)) - y,
  };
}

function within(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(Math.max(least, most), value));
}
