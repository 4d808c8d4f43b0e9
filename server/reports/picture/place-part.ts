/** Room for a part that was not there: near what it is joined to, where nothing else stands and none need move. */
import { hull } from './areas.ts';
import { labelBox } from './label.ts';
import type { SymbolPlan, Wing } from './plan.ts';
import { overlaps } from './polyline.ts';
import { grown } from './room.ts';
import type { Box, DrawnGroup, PicturePart, Point } from './scene.ts';
import type { Sheet } from './sheet.ts';

/** A placed end that a core of the part leads to. */
export interface Neighbour {
  readonly point: Point;
  /** The side of the new part the core comes in on, and how far down. */
  readonly wing: Wing;
  readonly y: number;
  readonly label: readonly [string, string];
}

const beside = 26;

/** Upper left corner; undefined when there is no room near enough. */
export function placePart(
  part: PicturePart,
  plan: SymbolPlan,
  neighbours: readonly Neighbour[],
  sheet: Sheet,
): Point | undefined {
  const ideals = idealsFor(part, plan, neighbours, sheet);
  const own = sheet.groups.find(({ id }) => id === part.group);
  let best: { readonly at: Point; readonly cost: number } | undefined;
  for (const ideal of ideals)
    for (let dy = 0; dy <= 1200; dy += 14)
      for (let dx = -320; dx <= 640; dx += 20)
        for (const way of dy === 0 ? [1] : [1, -1]) {
          const at = { x: Math.round(ideal.x + dx), y: Math.round(ideal.y + way * dy) };
          const cost = Math.abs(dx) + dy;
          if (best !== undefined && cost >= best.cost) continue;
          if (isFree(at, plan, own, sheet)) best = { at, cost };
        }
  return best?.at;
}

function idealsFor(part: PicturePart, plan: SymbolPlan, neighbours: readonly Neighbour[], sheet: Sheet): Point[] {
  const { bottom } = sheet.extent();
  const group = sheet.groups.find(({ id }) => id === part.group);
  if (neighbours.length === 0)
    return [group === undefined ? { x: 40, y: bottom + 30 } : { x: group.box.x + 30, y: group.box.y + 44 }];
  const each = neighbours.map(({ point, wing, y, label }): Point => {
    const away = labelBox(label).width + 2 * beside;
    const x = wing === 'left' ? point.x + away - plan.bodyLeft : point.x - away - plan.bodyLeft - plan.bodyWidth;
    return { x, y: point.y - y };
  });
  // Loads line up with loads.
  const column = part.family === 'load' && group === undefined ? loadColumn(sheet) : undefined;
  const [first] = each;
  return column === undefined || first === undefined ? each : [{ x: column - plan.bodyLeft, y: first.y }, ...each];
}

function loadColumn({ parts }: Sheet): number | undefined {
  const counts = new Map<number, number>();
  for (const { family, group, body } of parts.values())
    if (family === 'load' && group === undefined) counts.set(body.x, (counts.get(body.x) ?? 0) + 1);
  const [best] = [...counts].sort((a, b) => b[1] - a[1]);
  return best === undefined || best[1] < 2 ? undefined : best[0];
}

function isFree(at: Point, plan: SymbolPlan, own: DrawnGroup | undefined, sheet: Sheet): boolean {
  if (at.x < 20 || at.y < 20) return false;
  const body: Box = {
    x: at.x + plan.bodyLeft,
    y: at.y + plan.head,
    width: plan.bodyWidth,
    height: plan.height - plan.head,
  };
  const words: Box = { ...at, width: plan.width, height: plan.head };
  const around = grown(hull([body]), beside, 12);
  const all = hull([around, words]);
  const inside = own === undefined || holds(own.box, all);
  if (!inside) return false;
  for (const group of sheet.groups) {
    if (own !== undefined && (group.id === own.id || sheet.isIn({ group: own.id }, group.id))) continue;
    if (overlaps(grown(group.box, 10), all)) return false;
  }
  return sheet.room.isFree(around) && sheet.room.isFree(grown(words, 4));
}

function holds(outer: Box, inner: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}
