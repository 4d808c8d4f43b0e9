/** Signs of the sorts of current: direct as a stroke over dashes, alternating as a wave. */
import type { Pen, Xy } from '../pen.ts';

export function direct(pen: Pen, x: number, y: number): void {
  pen.line([
    [x - 6, y - 2],
    [x + 6, y - 2],
  ]);
  for (const dx of [-6, -1.5, 3])
    pen.line([
      [x + dx, y + 2],
      [x + dx + 3, y + 2],
    ]);
}

export function waves(pen: Pen, x: number, y: number): void {
  pen.line(Array.from({ length: 13 }, (_, i): Xy => [x - 6 + i, y - 3.5 * Math.sin((i / 12) * 2 * Math.PI)]));
}

/** A square with a slant: what goes in stands above it, what comes out below (IEC 60617, converters). */
export function slantedBox(pen: Pen, x: number, y: number): void {
  pen.rect(x - 17, y - 17, 34, 34, 'fine', 'none');
  pen.line(
    [
      [x - 17, y + 17],
      [x + 17, y - 17],
    ],
    'fine',
  );
}
