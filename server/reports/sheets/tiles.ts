/** How a drawing is laid over pages: as few as let its letters be read, and each overlapping the next. */
import type { Field } from './frame.ts';
import { fieldOf } from './frame.ts';
import { type Page, type Paper, pageOf } from './paper.ts';
import type { Whole } from './sheet.ts';

/** The smallest letters of a diagram are 8 high, which at this scale is 4.5 points: the least that is read in print. */
const leastScale = 0.75;
const mostScale = 1.15;
/** What two pages show both, on paper: most parts are no larger, so that each is whole on one of them. */
export const overlap = 72;
const mostAlong = 12;

export interface Tile {
  readonly column: number;
  readonly row: number;
  /** What of the drawing it shows, in the drawing’s own lengths. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Tiling {
  readonly page: Page;
  readonly field: Field;
  readonly scale: number;
  readonly columns: number;
  readonly rows: number;
  /** Those with something on them, row by row. */
  readonly tiles: readonly Tile[];
}

interface Choice {
  readonly page: Page;
  readonly columns: number;
  readonly rows: number;
  readonly scale: number;
}

export function tilingOf(whole: Whole, paper: Paper): Tiling {
  const { page, columns, rows, scale } = best(whole, paper);
  const field = fieldOf(page);
  const step = { x: (field.width - overlap) / scale, y: (field.height - overlap) / scale };
  // What is left over stands on all sides alike.
  const aside = {
    x: (length(field.width, columns) / scale - whole.width) / 2,
    y: (length(field.height, rows) / scale - whole.height) / 2,
  };
  const all = Array.from({ length: columns * rows }, (_, index): Tile => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return {
      column,
      row,
      x: column * step.x - aside.x,
      y: row * step.y - aside.y,
      width: field.width / scale,
      height: field.height / scale,
    };
  });
  const used = all.filter(({ x, y, width, height }) => whole.occupied?.(x, y, width, height) ?? true);
  return { page, field, scale, columns, rows, tiles: used.length === 0 ? all.slice(0, 1) : used };
}

/** Of so many pages in a row. */
const length = (one: number, pages: number) => one * pages - overlap * (pages - 1);

function best(whole: Whole, paper: Paper): Choice {
  const choices = (['across', 'upright'] as const).flatMap((lies) => {
    const page = pageOf(paper, lies);
    const field = fieldOf(page);
    const scaleFor = (columns: number, rows: number) =>
      Math.min(mostScale, length(field.width, columns) / whole.width, length(field.height, rows) / whole.height);
    return Array.from({ length: mostAlong * mostAlong }, (_, index): Choice => {
      const [columns, rows] = [(index % mostAlong) + 1, Math.floor(index / mostAlong) + 1];
      return { page, columns, rows, scale: scaleFor(columns, rows) };
    });
  });
  const readable = choices.filter(({ scale }) => scale >= leastScale);
  // A drawing that no number of pages holds at that size is smaller than one would like.
  const among = readable.length > 0 ? readable : choices;
  const better = (a: Choice, b: Choice) =>
    readable.length > 0
      ? a.columns * a.rows - b.columns * b.rows || b.scale - a.scale
      : b.scale - a.scale || a.columns * a.rows - b.columns * b.rows;
  return [...among].sort(better)[0] as Choice;
}
