/**
 * A way for one core between what stands already: level and upright pieces round parts and labels, across other cores only at
 * right angles and never along them. The shortest with the fewest bends and crossings, by A* on a grid.
 */

import type { Wing } from './plan.ts';
import type { Piece } from './polyline.ts';
import { pieceBox, tidied } from './polyline.ts';
import type { Box, Point } from './scene.ts';

export interface RouteEnd {
  /** Where it leaves the part's edge. */
  readonly point: Point;
  readonly wing: Wing;
}

export interface InTheWay {
  /** Not to be entered, each with the room to be left round it. */
  readonly boxes: readonly { readonly box: Box; readonly clear: number }[];
  /** Cores, and what bounds a region: to be crossed at right angles alone. */
  readonly lines: readonly Piece[];
  /** Walls of a box that it leads into or out of: crossed no more often than that takes. */
  readonly walls: readonly Piece[];
}

const step = 8;
/** Between two lines side by side. */
const between = 8;
const bendCost = 36;
const crossCost = 10;
/** At every step within `between` of a wall. */
const wallCost = 120;
/** Out of a part before the first bend. */
const stub = 10;

const closed = 1;
const noLevel = 2;
const noUpright = 4;
const wall = 8;

export function route(from: RouteEnd, to: RouteEnd, obstacles: InTheWay, sheet: Box): Point[] | undefined {
  const start = out(from);
  const end = out(to);
  for (const around of [200, 700, Number.POSITIVE_INFINITY]) {
    const region = regionOf(start, end, around, sheet);
    const found = search(start, end, obstacles, region);
    if (found !== undefined) return tidied([from.point, ...found, to.point]);
  }
  return undefined;
}

const out = ({ point, wing }: RouteEnd): Point => ({ x: point.x + (wing === 'left' ? -stub : stub), y: point.y });

function regionOf(a: Point, b: Point, around: number, sheet: Box): Box {
  const left = Math.max(sheet.x, Math.min(a.x, b.x) - around);
  const top = Math.max(sheet.y, Math.min(a.y, b.y) - around);
  const right = Math.min(sheet.x + sheet.width, Math.max(a.x, b.x) + around);
  const bottom = Math.min(sheet.y + sheet.height, Math.max(a.y, b.y) + around);
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/** Grid lines at every step, and at the ends. */
function linesOf(from: number, length: number, ...ends: number[]): number[] {
  const lines: number[] = [];
  for (let at = Math.ceil(from / step) * step; at <= from + length; at += step)
    if (ends.every((end) => Math.abs(end - at) >= 3)) lines.push(at);
  return [...new Set([...lines, ...ends])].sort((a, b) => a - b);
}

class Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly marks: Uint8Array;

  constructor(region: Box, start: Point, end: Point) {
    this.xs = linesOf(region.x, region.width, start.x, end.x);
    this.ys = linesOf(region.y, region.height, start.y, end.y);
    this.marks = new Uint8Array(this.xs.length * this.ys.length);
  }

  at({ x, y }: Point): number {
    return this.ys.indexOf(y) * this.xs.length + this.xs.indexOf(x);
  }

  mark({ x, y, width, height }: Box, bit: number): void {
    const columns = this.xs.length;
    const [left, right] = [above(this.xs, x), below(this.xs, x + width)];
    const bottom = below(this.ys, y + height);
    for (let row = above(this.ys, y); row <= bottom; row += 1)
      for (let column = left; column <= right; column += 1) {
        const node = row * columns + column;
        this.marks[node] = (this.marks[node] ?? 0) | bit;
      }
  }
}

/** First line beyond a place, and the last before it. */
function above(lines: readonly number[], at: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] ?? 0) > at) high = middle;
    else low = middle + 1;
  }
  return low;
}
function below(lines: readonly number[], at: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] ?? 0) >= at) high = middle;
    else low = middle + 1;
  }
  return low - 1;
}

function gridOf(region: Box, start: Point, end: Point, { boxes, lines, walls }: InTheWay): Grid {
  const grid = new Grid(region, start, end);
  for (const { box, clear } of boxes)
    grid.mark(
      { x: box.x - clear, y: box.y - clear, width: box.width + 2 * clear, height: box.height + 2 * clear },
      closed,
    );
  const along = (piece: Piece) => pieceBox(piece, 2 * between);
  for (const line of lines) grid.mark(along(line), line.level ? noLevel : noUpright);
  for (const line of walls) grid.mark(along(line), wall | (line.level ? noLevel : noUpright));
  return grid;
}

function search(start: Point, end: Point, obstacles: InTheWay, region: Box): Point[] | undefined {
  const grid = gridOf(region, start, end, obstacles);
  const { xs, ys, marks } = grid;
  const columns = xs.length;
  const [first, last] = [grid.at(start), grid.at(end)];
  if (((marks[first] ?? 0) | (marks[last] ?? 0)) & (closed | noLevel)) return undefined;
  // A state is a node and how it was come to: level (0) or upright (1).
  const costs = new Float64Array(marks.length * 2).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(marks.length * 2).fill(-1);
  const queue = new Heap();
  const guess = (node: number) =>
    Math.abs((xs[node % columns] ?? 0) - end.x) + Math.abs((ys[Math.floor(node / columns)] ?? 0) - end.y);
  costs[first * 2] = 0;
  queue.push(first * 2, guess(first));
  for (let state = queue.pop(); state !== undefined; state = queue.pop()) {
    const node = state >> 1;
    const upright = state & 1;
    // The last piece is level: it goes into a part's side.
    if (node === last && upright === 0) return backFrom(state, before, xs, ys);
    const cost = costs[state] ?? 0;
    const [column, row] = [node % columns, Math.floor(node / columns)];
    for (const [dx, dy] of ways) {
      const [x, y] = [column + dx, row + dy];
      if (x < 0 || y < 0 || x >= columns || y >= ys.length) continue;
      const next = y * columns + x;
      const turned = dy === 0 ? 0 : 1;
      const barred = closed | (turned === 0 ? noLevel : noUpright);
      if (((marks[next] ?? 0) | (marks[node] ?? 0)) & barred) continue;
      const crosses = (marks[next] ?? 0) & (turned === 0 ? noUpright : noLevel) ? crossCost : 0;
      const passes = (marks[next] ?? 0) & wall ? wallCost : 0;
      const length = Math.abs((xs[x] ?? 0) - (xs[column] ?? 0)) + Math.abs((ys[y] ?? 0) - (ys[row] ?? 0));
      const sum = cost + length + crosses + passes + (turned === upright ? 0 : bendCost);
      const reached = next * 2 + turned;
      if (sum >= (costs[reached] ?? 0) - 1e-9) continue;
      costs[reached] = sum;
      before[reached] = state;
      queue.push(reached, sum + guess(next));
    }
  }
  return undefined;
}

const ways: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
];

function backFrom(state: number, before: Int32Array, xs: readonly number[], ys: readonly number[]): Point[] {
  const points: Point[] = [];
  for (let at = state; at >= 0; at = before[at] ?? -1) {
    const node = at >> 1;
    points.push({ x: xs[node % xs.length] ?? 0, y: ys[Math.floor(node / xs.length)] ?? 0 });
  }
  return points.reverse();
}

/** The least first; of equals the one put in first, so that the same picture comes out every time. */
class Heap {
  private readonly items: number[] = [];
  private readonly keys: number[] = [];

  push(item: number, key: number): void {
    const { items, keys } = this;
    let at = items.length;
    items.push(item);
    keys.push(key);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if ((keys[up] ?? 0) <= key) break;
      items[at] = items[up] ?? 0;
      keys[at] = keys[up] ?? 0;
      at = up;
    }
    items[at] = item;
    keys[at] = key;
  }

  pop(): number | undefined {
    const { items, keys } = this;
    const top = items[0];
    const item = items.pop();
    const key = keys.pop();
    if (top === undefined || item === undefined || key === undefined) return undefined;
    if (items.length === 0) return top;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && (keys[down + 1] ?? 0) < (keys[down] ?? 0)) down += 1;
      if ((keys[down] ?? 0) >= key) break;
      items[at] = items[down] ?? 0;
      keys[at] = keys[down] ?? 0;
      at = down;
    }
    items[at] = item;
    keys[at] = key;
    return top;
  }
}
