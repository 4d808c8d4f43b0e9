/** Plus and minus along a core, clear of its label: polarity is told by a sign where there is room for one. */
import { drawnText } from './pen.ts';
import { overlaps, piecesOf } from './polyline.ts';
import type { Box, DrawnText, Point } from './scene.ts';

/** A piece shorter than this has no sign. */
const least = 34;

export function signsAlong(points: readonly Point[], label: Box, polarity: '+' | '-' | undefined): DrawnText[] {
  if (polarity === undefined) return [];
  const text = polarity === '+' ? '+' : '−';
  const pieces = piecesOf(points);
  // One near either end, where a fitter looks for it.
  const wanted = [pieces[0], pieces.at(-1)].filter((piece, i, all) => piece !== undefined && all.indexOf(piece) === i);
  return wanted.flatMap((piece, i) => {
    if (piece === undefined || !piece.level || piece.length < least) return [];
    const end = i === 0 ? piece.a : piece.b;
    const away = Math.sign((i === 0 ? piece.b : piece.a).x - end.x);
    const sign = drawnText('sign', text, { x: end.x + away * 14, y: end.y - 2 }, 'middle');
    return overlaps(sign.box, label) ? [] : [sign];
  });
}
