/** Where a core goes through the wall of an enclosure, and by what. */
import { piecesOf } from './polyline.ts';
import type { Box, DrawnCore, DrawnGroup, DrawnPassage, PictureCore, Point, Side } from './scene.ts';

export function passagesOf(
  core: DrawnCore,
  pictured: PictureCore | undefined,
  groups: readonly DrawnGroup[],
): DrawnPassage[] {
  const said = pictured?.passages ?? [];
  const passages: DrawnPassage[] = [];
  for (const { is, name, box } of groups) {
    if (is !== 'enclosure') continue;
    const ways = said.filter(({ enclosure }) => enclosure === name);
    crossings(core.points, box).forEach(({ point, side }, i) => {
      const way = ways[i] ?? ways.at(-1);
      passages.push({
        is: 'passage',
        id: `passage:${core.run}/${core.index}@${name}${i === 0 ? '' : `+${i}`}`,
        core: core.id,
        enclosure: name,
        how: way?.how ?? 'unstated',
        point,
        side,
        label: way?.label ?? '',
        text: undefined,
      });
    });
  }
  return passages;
}

/** Where a line goes through the edge of a box, from its first point on. */
export function crossings(points: readonly Point[], box: Box): { readonly point: Point; readonly side: Side }[] {
  const [left, right, top, bottom] = [box.x, box.x + box.width, box.y, box.y + box.height];
  const found: { point: Point; side: Side }[] = [];
  for (const { a, b, level } of piecesOf(points)) {
    const within = level ? a.y > top && a.y < bottom : a.x > left && a.x < right;
    if (!within) continue;
    const [from, to] = level ? [a.x, b.x] : [a.y, b.y];
    const walls: (readonly [number, Side])[] = level
      ? [
          [left, 'left'],
          [right, 'right'],
        ]
      : [
          [top, 'top'],
          [bottom, 'bottom'],
        ];
    const hit = walls.filter(([at]) => from < at !== to < at);
    if (to < from) hit.reverse();
    for (const [at, side] of hit) found.push({ point: level ? { x: at, y: a.y } : { x: a.x, y: at }, side });
  }
  return found;
}
