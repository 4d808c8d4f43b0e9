/**
 * Walls round a part that comes into a box while the rest of the picture stays: put up round it where the box is new, else
 * moved outward to the right and downward, so that what is in the box, and its words, stay where they are.
 */
import { drawnGroup, leastWidth } from './elements.ts';
import { crossings } from './passages.ts';
import { overlaps, pieceBox, piecesOf } from './polyline.ts';
import { grown } from './room.ts';
import type { Box, DrawnCore, DrawnGroup, PictureGroup } from './scene.ts';
import { isCut, type Sheet } from './sheet.ts';

/** Between new walls and what they hold: above it stand the words of the box. */
const above = 44;
const within = 14;
/** Between the walls of two boxes. */
const apart = 10;

/** The walls to be put up or moved, outermost last; undefined where something else is in the way. */
export function wallsRound(id: string | undefined, area: Box, sheet: Sheet): DrawnGroup[] | undefined {
  const group = sheet.group(id);
  if (group === undefined) return [];
  const { says, drawn } = group;
  const box = drawn === undefined ? around(area, says) : widened(drawn.box, area);
  if (box === drawn?.box) return [];
  if (box === undefined || !isFree(box, says, drawn, sheet)) return undefined;
  const outer = wallsRound(says.parent, grown(box, within), sheet);
  return outer && [drawnGroup(says, box), ...outer];
}

function around(area: Box, says: PictureGroup): Box {
  const box = { x: area.x - 4, y: area.y - above, width: area.width + 8, height: area.height + above + within };
  return { ...box, width: Math.max(box.width, leastWidth(says)) };
}

/** The very box where it has room already; undefined where it would have to move to the left or upward. */
function widened(box: Box, area: Box): Box | undefined {
  if (area.x < box.x || area.y < box.y) return undefined;
  const [right, bottom] = [area.x + area.width, area.y + area.height];
  if (right <= box.x + box.width && bottom <= box.y + box.height) return box;
  return {
    ...box,
    width: Math.max(box.width, right - box.x),
    height: Math.max(box.height, bottom - box.y + (bottom > box.y + box.height ? within : 0)),
  };
}

/** Nothing of others is walled in, no label is cut, and no core goes in or out more often than it must. */
function isFree(box: Box, { id }: PictureGroup, drawn: DrawnGroup | undefined, sheet: Sheet): boolean {
  if (box.x < 8 || box.y < 8) return false;
  for (const other of sheet.groups) {
    if (other.id === id || sheet.isIn({ group: other.id }, id) || sheet.isIn({ group: id }, other.id)) continue;
    if (overlaps(grown(other.box, apart), box)) return false;
  }
  for (const part of sheet.parts.values()) if (!sheet.isIn(part, id) && overlaps(grown(part.box, 4), box)) return false;
  return [...sheet.cores.values()].every((core) => isSpared(core, box, id, drawn, sheet));
}

function isSpared(core: DrawnCore, box: Box, id: string, drawn: DrawnGroup | undefined, sheet: Sheet): boolean {
  const ends = [core.from, core.to].filter((end) => sheet.isIn(sheet.partAt(end), id)).length;
  const label = core.label.box;
  if (ends === 0)
    return ![label, ...piecesOf(core.points).map((piece) => pieceBox(piece, 8))].some((one) => overlaps(one, box));
  const passes = crossings(core.points, box).length;
  const before = drawn === undefined ? 2 - ends : crossings(core.points, drawn.box).length;
  return !isCut(label, { is: 'enclosure', box }) && passes <= before;
}
