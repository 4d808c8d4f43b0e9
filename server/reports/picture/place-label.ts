/** Room for a core's label along it: over its longest level piece, else beside it. */
import { labelBox } from './label.ts';
import { type Piece, piecesOf } from './polyline.ts';
import type { Box, Point } from './scene.ts';

/** Upper left corner of its box; undefined when there is no room near. */
export function placeLabel(
  label: readonly [string, string],
  points: readonly Point[],
  isFree: (box: Box) => boolean,
): Point | undefined {
  const { width, height } = labelBox(label);
  const free = ({ x, y }: Point) => isFree({ x, y, width, height });
  const pieces = piecesOf(points).sort((a, b) => b.length - a.length);
  for (const piece of pieces) {
    if (!piece.level || piece.length < width) continue;
    for (const x of along(piece, width)) {
      const at = { x, y: piece.a.y - height / 2 };
      if (free(at)) return at;
    }
  }
  for (const piece of pieces) {
    const found = piece.level ? overPiece(piece, width, height, free) : besidePiece(piece, width, height, free);
    if (found !== undefined) return found;
  }
  return pieces[0] === undefined ? undefined : near(pieces[0], width, height, free);
}

/** Anywhere near its middle, as a fitter writes a name beside a crowd of lines. */
function near({ a, b }: Piece, width: number, height: number, free: Free): Point | undefined {
  const middle = { x: Math.round((a.x + b.x - width) / 2), y: Math.round((a.y + b.y - height) / 2) };
  for (let far = 10; far <= 140; far += 10)
    for (let off = -far; off <= far; off += 10)
      for (const [dx, dy] of [
        [off, -far],
        [off, far],
        [-far, off],
        [far, off],
      ] as const) {
        const at = { x: middle.x + dx, y: middle.y + dy };
        if (at.x > 10 && at.y > 10 && free(at)) return at;
      }
  return undefined;
}

/** From the middle of a level piece to its ends. */
function* along({ a, b }: Piece, width: number): Generator<number> {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x) - width];
  const middle = Math.round((left + right) / 2);
  for (let off = 0; off <= (right - left) / 2; off += 6) {
    yield middle + off;
    if (off > 0) yield middle - off;
  }
}

type Free = (at: Point) => boolean;

/** A level piece too short or too crowded: over or under it. */
function overPiece({ a, b }: Piece, width: number, height: number, free: Free): Point | undefined {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
  for (const y of [a.y - height - 3, a.y + 4, a.y - height / 2])
    for (let x = left - width / 2; x <= right - width / 2; x += 8)
      if (free({ x: Math.round(x), y })) return { x: Math.round(x), y };
  return undefined;
}

function besidePiece({ a, b }: Piece, width: number, height: number, free: Free): Point | undefined {
  const [top, bottom] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  for (const x of [a.x + 5, a.x - width - 5])
    for (let y = top - height / 2; y <= bottom - height / 2; y += 8)
      if (free({ x, y: Math.round(y) })) return { x, y: Math.round(y) };
  return undefined;
}

/** The middle of a box. */
export function middleOf({ x, y, width, height }: Box): Point {
  return { x: x + width / 2, y: y + height / 2 };
}
