/** Lines of level and upright pieces. */
import type { Box, Point } from './scene.ts';

const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.01;

/** Without points that change nothing; figures rounded to hundredths. */
export function tidied(points: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const { x, y } of points) {
    const point = { x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 };
    const last = kept.at(-1);
    const before = kept.at(-2);
    if (last !== undefined && near(last.x, point.x) && near(last.y, point.y)) continue;
    if (
      last !== undefined &&
      before !== undefined &&
      ((near(before.x, last.x) && near(last.x, point.x)) || (near(before.y, last.y) && near(last.y, point.y)))
    )
      kept.pop();
    kept.push(point);
  }
  return kept;
}

export interface Piece {
  readonly a: Point;
  readonly b: Point;
  readonly level: boolean;
  readonly length: number;
}

export function piecesOf(points: readonly Point[]): Piece[] {
  return points.slice(1).map((b, i) => {
    const a = points[i] as Point;
    return { a, b, level: near(a.y, b.y), length: Math.abs(a.x - b.x) + Math.abs(a.y - b.y) };
  });
}

/** Whether two boxes share room; those that touch do not. */
export function overlaps(a: Box, b: Box): boolean {
  const slack = 0.01;
  return (
    a.x + a.width > b.x + slack &&
    b.x + b.width > a.x + slack &&
    a.y + a.height > b.y + slack &&
    b.y + b.height > a.y + slack
  );
}

/** The box of a level or upright piece, as thick as said. */
export function pieceBox({ a, b }: Piece, thick = 0): Box {
  return {
    x: Math.min(a.x, b.x) - thick / 2,
    y: Math.min(a.y, b.y) - thick / 2,
    width: Math.abs(a.x - b.x) + thick,
    height: Math.abs(a.y - b.y) + thick,
  };
}

/** Whether all of a box lies in another. */
export function holds(outer: Box, inner: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}

export function contains(box: Box, { x, y }: Point): boolean {
  return x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
}
