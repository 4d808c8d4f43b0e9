/**
 * Small jogs taken out of cores: where a long level piece stands a little off the terminal that it leads to, it moves to the
 * terminal's height with its label, if nothing is in the way. A ruler would have been laid there in the first place.
 */
import { areasOf } from './areas.ts';
import { drawnCore } from './elements.ts';
import { crossings } from './passages.ts';
import { overlaps, type Piece, pieceBox, piecesOf, tidied } from './polyline.ts';
import { Room } from './room.ts';
import type { Box, DrawnCore, DrawnGroup, DrawnPart, PictureCore, Point } from './scene.ts';

/** The greatest jog that is taken out, and the least distance between two lines side by side. */
const most = 18;
const between = 7;

export function straightened(
  cores: readonly DrawnCore[],
  pictured: readonly PictureCore[],
  parts: readonly DrawnPart[],
  /** Bars by name, on which an end may move up and down. */
  bars: ReadonlyMap<string, Box>,
  groups: readonly DrawnGroup[],
): DrawnCore[] {
  const walls = groups.filter(({ is }) => is === 'enclosure').map(({ box }) => box);
  const said = new Map(pictured.map((core) => [core.id, core]));
  const now = new Map(cores.map((core) => [core.id, core]));
  const pieces = new Map(cores.map((core) => [core.id, piecesOf(core.points)]));
  const room = new Room();
  for (const part of parts) for (const box of areasOf(part)) room.add(part.id, box);
  const none = new Map<string, DrawnPart>();
  for (let round = 0; round < 3; round += 1) {
    let moved = false;
    for (const core of [...now.values()]) {
      const picture = said.get(core.id);
      if (picture === undefined) continue;
      for (const { points, label } of straighter(core, bars)) {
        const next = drawnCore(picture, points, label, none);
        const enters = (box: Box) => crossings(next.points, box).length > crossings(core.points, box).length;
        if (!isSound(next, now, pieces, room) || walls.some(enters)) continue;
        now.set(core.id, next);
        pieces.set(core.id, piecesOf(next.points));
        moved = true;
        break;
      }
    }
    if (!moved) break;
  }
  return cores.map((core) => now.get(core.id) ?? core);
}

interface Straighter {
  readonly points: Point[];
  /** Upper left corner of its label. */
  readonly label: Point;
}

/** The core with the jog at one end taken out: what is beyond it takes the height of the end, which stays. */
function straighter({ points, from, to, label: { box } }: DrawnCore, bars: ReadonlyMap<string, Box>): Straighter[] {
  const found: Straighter[] = [];
  for (const backwards of [false, true]) {
    const way = backwards ? [...points].reverse() : [...points];
    const [end, a, b, c] = way;
    // Both the end's piece and the one beyond the jog are level, and the end itself stays.
    if (end === undefined || a === undefined || b === undefined || c === undefined) continue;
    const far = bars.get((backwards ? from : to).split(':')[0] ?? '');
    if (way.length === 4 && (far === undefined || end.y < far.y + 6 || end.y > far.y + far.height - 6)) continue;
    const jog = b.y - a.y;
    if (end.y !== a.y || a.x !== b.x || b.y !== c.y || Math.abs(jog) > most || jog === 0) continue;
    // It must go on the same way, or it would lead back through its own part.
    if (Math.sign(a.x - end.x) !== Math.sign(c.x - b.x)) continue;
    const next = [end, { x: c.x, y: end.y }, ...way.slice(4)];
    const onIt = box.y < b.y && box.y + box.height > b.y && isAlong(box, b, c);
    const straight = tidied(backwards ? next.reverse() : next);
    found.push({ points: straight, label: onIt ? { x: box.x, y: box.y - jog } : box });
  }
  return found;
}

function isAlong({ x, width }: Box, b: Point, c: Point): boolean {
  return x < Math.max(b.x, c.x) && x + width > Math.min(b.x, c.x);
}

function isSound(
  core: DrawnCore,
  now: ReadonlyMap<string, DrawnCore>,
  pieces: ReadonlyMap<string, readonly Piece[]>,
  room: Room,
): boolean {
  const own = piecesOf(core.points);
  if (!room.isFree(core.label.box)) return false;
  // Each end's piece may touch the part that it leads to, and no other.
  const reached = (i: number, owner: string) =>
    (i === 0 && owner === partOf(core.from)) || (i === own.length - 1 && owner === partOf(core.to));
  if (own.some((piece, i) => !room.isFree(pieceBox(piece, 4), (owner) => reached(i, owner)))) return false;
  for (const [id, other] of now) {
    if (id === core.id) continue;
    if (overlaps(core.label.box, other.label.box)) return false;
    if (own.some((piece) => overlaps(pieceBox(piece), other.label.box))) return false;
    for (const piece of pieces.get(id) ?? []) {
      if (overlaps(pieceBox(piece, 2), core.label.box)) return false;
      if (own.some((mine) => touches(mine, piece))) return false;
    }
  }
  return true;
}

const partOf = (terminal: string): string => `part:${terminal.split(':')[0]}`;

/** Too near side by side, or one ending on the other. */
function touches(one: Piece, other: Piece): boolean {
  if (one.level === other.level) return overlaps(pieceBox(one, between), pieceBox(other, between));
  const [level, upright] = one.level ? [one, other] : [other, one];
  const x = upright.a.x;
  const y = level.a.y;
  const [left, right] = [Math.min(level.a.x, level.b.x), Math.max(level.a.x, level.b.x)];
  const [top, bottom] = [Math.min(upright.a.y, upright.b.y), Math.max(upright.a.y, upright.b.y)];
  if (x < left - between || x > right + between || y < top - between || y > bottom + between) return false;
  // A clean crossing is well within both.
  return x < left + between || x > right - between || y < top + between || y > bottom - between;
}
