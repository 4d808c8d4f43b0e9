/** Room for a part that was not there, or not in its box: near what it is joined to, where nothing else stands and none need move. */
import { hull } from './areas.ts';
import { labelBox } from './label.ts';
import type { SymbolPlan, Wing } from './plan.ts';
import { overlaps } from './polyline.ts';
import { grown } from './room.ts';
import type { Box, DrawnGroup, PicturePart, Point } from './scene.ts';
import type { Sheet } from './sheet.ts';
import { wallsRound } from './walls.ts';

/** A placed end that a core of the part leads to. */
export interface Neighbour {
  readonly point: Point;
  /** The side of the new part the core comes in on, and how far down. */
  readonly wing: Wing;
  readonly y: number;
  readonly label: readonly [string, string];
}

const beside = 26;

/** Where it stands, and the walls that this takes beside those that stand. */
export interface Placed {
  /** Upper left corner. */
  readonly at: Point;
  readonly walls: readonly DrawnGroup[];
}

/** Undefined when there is no room near enough. */
export function placePart(
  part: PicturePart,
  plan: SymbolPlan,
  neighbours: readonly Neighbour[],
  sheet: Sheet,
): Placed | undefined {
  const ideals = idealsFor(part, plan, neighbours, sheet);
  let best: (Placed & { readonly cost: number }) | undefined;
  for (const ideal of ideals)
    for (let dy = 0; dy <= 1200; dy += 14)
      for (let dx = -320; dx <= 640; dx += 20)
        for (const way of dy === 0 ? [1] : [1, -1]) {
          const at = { x: Math.round(ideal.x + dx), y: Math.round(ideal.y + way * dy) };
          const near = Math.abs(dx) + dy;
          if (best !== undefined && near >= best.cost) continue;
          const walls = wallsFor(at, part, plan, sheet);
          if (walls === undefined) continue;
          const cost = near + 2 * walls.reduce((sum, group) => sum + growth(group, sheet), 0);
          if (best === undefined || cost < best.cost) best = { at, walls, cost };
        }
  return best;
}

/** How much wider and higher a box becomes; new walls cost nothing. */
function growth({ id, box }: DrawnGroup, sheet: Sheet): number {
  const was = sheet.group(id)?.drawn?.box;
  return was === undefined ? 0 : box.width - was.width + box.height - was.height;
}

function idealsFor(part: PicturePart, plan: SymbolPlan, neighbours: readonly Neighbour[], sheet: Sheet): Point[] {
  const { bottom } = sheet.extent();
  const group = sheet.group(part.group)?.drawn;
  const inside =
    group === undefined
      ? []
      : [
          { x: group.box.x + 30, y: group.box.y + 44 },
          { x: group.box.x + 30, y: group.box.y + group.box.height },
          { x: group.box.x + group.box.width, y: group.box.y + 44 },
        ];
  if (neighbours.length === 0) return inside.length > 0 ? inside : [{ x: 40, y: bottom + 60 }];
  // A label stands outside of walls that are still to be put up.
  const wall = part.group === undefined || group !== undefined ? 0 : beside;
  const each = neighbours.map(({ point, wing, y, label }): Point => {
    const away = labelBox(label).width + 2 * beside + wall;
    const x = wing === 'left' ? point.x + away - plan.bodyLeft : point.x - away - plan.bodyLeft - plan.bodyWidth;
    return { x, y: point.y - y };
  });
  // Loads line up with loads.
  const column = part.family === 'load' && part.group === undefined ? loadColumn(sheet) : undefined;
  const [first] = each;
  return column === undefined || first === undefined
    ? [...each, ...inside]
    : [{ x: column - plan.bodyLeft, y: first.y }, ...each];
}

function loadColumn({ parts }: Sheet): number | undefined {
  const counts = new Map<number, number>();
  for (const { family, group, body } of parts.values())
    if (family === 'load' && group === undefined) counts.set(body.x, (counts.get(body.x) ?? 0) + 1);
  const [best] = [...counts].sort((a, b) => b[1] - a[1]);
  return best === undefined || best[1] < 2 ? undefined : best[0];
}

/** What walls it takes for the part to stand there; undefined where it cannot. */
function wallsFor(at: Point, part: PicturePart, plan: SymbolPlan, sheet: Sheet): readonly DrawnGroup[] | undefined {
  if (at.x < 20 || at.y < 20) return undefined;
  const body: Box = {
    x: at.x + plan.bodyLeft,
    y: at.y + plan.head,
    width: plan.bodyWidth,
    height: plan.height - plan.head,
  };
  const words: Box = { ...at, width: plan.width, height: plan.head };
  const around = grown(body, beside, 12);
  if (!sheet.room.isFree(around) || !sheet.room.isFree(grown(words, 4))) return undefined;
  const all = hull([around, words]);
  for (const { id, box } of sheet.groups) if (!sheet.isIn(part, id) && overlaps(grown(box, 10), all)) return undefined;
  return wallsRound(part.group, all, sheet);
}
