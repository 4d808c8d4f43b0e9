/** A drawing on pages: whole on one, or in tiles that say which page each side goes on on. */
import { element, text, written, type Xml } from '../xml.ts';
import { framed, line, margin, type PageWords } from './frame.ts';
import type { Numbering, Sheet, SheetFacts, Whole } from './sheet.ts';
import { overlap, type Tile, type Tiling } from './tiles.ts';

export function diagramSheets(
  whole: Whole,
  tiling: Tiling,
  facts: SheetFacts,
  shows: string,
  { first, of }: Numbering,
): Sheet[] {
  const numbers = new Map(tiling.tiles.map((tile, index) => [key(tile.column, tile.row), first + index]));
  return tiling.tiles.map((tile, index) => {
    const words: PageWords = { facts, shows: placeWords(shows, tile, tiling), number: first + index, of };
    return framed(tiling.page, words, [window(whole, tile, tiling), ...neighbours(tile, tiling, numbers)]);
  });
}

const key = (column: number, row: number) => `${column} ${row}`;

/** Row and column, where there is more than one page. */
function placeWords(shows: string, { column, row }: Tile, { columns, rows }: Tiling): string {
  return columns * rows === 1 ? shows : `${shows}, row ${row + 1} column ${column + 1}`;
}

function window(whole: Whole, { x, y, width, height }: Tile, { field }: Tiling): Xml {
  const box = [x, y, width, height].map((value) => Math.round(value * 100) / 100).join(' ');
  return element(
    'svg',
    { x: field.x, y: field.y, width: field.width, height: field.height, viewBox: box },
    element('title', {}, text('The drawing as far as this page shows it')),
    written(whole.svg),
  );
}

/** Where the next page begins to show the same, and which page it is. */
function neighbours({ column, row }: Tile, { field, page }: Tiling, numbers: ReadonlyMap<string, number>): Xml[] {
  const right = field.x + field.width;
  const bottom = field.y + field.height;
  const middle = { x: field.x + field.width / 2, y: field.y + field.height / 2 };
  const mark = (number: number | undefined, lines: readonly Xml[], x: number, y: number, arrow: string) =>
    number === undefined ? [] : [...lines, ...reference(x, y, arrow, number)];
  const to = (columns: number, rows: number) => numbers.get(key(column + columns, row + rows));
  const half = margin / 2;
  return [
    ...mark(to(-1, 0), upright(field.x + overlap, field.y, bottom), half, middle.y, '←'),
    ...mark(to(1, 0), upright(right - overlap, field.y, bottom), page.width - half, middle.y, '→'),
    ...mark(to(0, -1), level(field.y + overlap, field.x, right), middle.x, half, '↑'),
    ...mark(to(0, 1), level(bottom - overlap, field.x, right), middle.x, page.height - half, '↓'),
  ];
}

const tick = 14;

/** Short marks at both ends, so that nothing of the drawing is struck through. */
function upright(x: number, top: number, bottom: number): Xml[] {
  return [line(x, top, x, top + tick), line(x, bottom - tick, x, bottom)];
}

function level(y: number, left: number, right: number): Xml[] {
  return [line(left, y, left + tick, y), line(right - tick, y, right, y)];
}

/** In the margin, beside where the drawing goes on. */
function reference(x: number, y: number, arrow: string, number: number): Xml[] {
  const line = (words: string, size: number, down: number) =>
    element('text', { x, y: y + down, 'font-size': size, 'font-weight': 'bold', 'text-anchor': 'middle' }, text(words));
  return [line(arrow, 15, -2), line(`page ${number}`, 9, 11)];
}
