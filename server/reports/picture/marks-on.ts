/** Findings put on what they are about, side by side where one thing has several. */
import { piecesOf } from './polyline.ts';
import type { DrawnElement, DrawnMark, PictureMark, Point } from './scene.ts';

const step = 16;

export function marksOn(marks: readonly PictureMark[], elements: ReadonlyMap<string, DrawnElement>): DrawnMark[] {
  const counts = new Map<string, number>();
  return marks.map((mark): DrawnMark => {
    const count = counts.get(mark.element) ?? 0;
    counts.set(mark.element, count + 1);
    const { x, y } = placeOn(elements.get(mark.element));
    return { is: 'mark', ...mark, at: { x: x + count * step, y } };
  });
}

/** What has no place on the sheet is told in its corner. */
function placeOn(element: DrawnElement | undefined): Point {
  if (element === undefined) return { x: 14, y: 14 };
  if (element.is === 'core') {
    const { box } = element.label;
    const longest = [...piecesOf(element.points)].sort((one, other) => other.length - one.length)[0];
    return longest === undefined ? box : { x: box.x - 6, y: box.y + box.height / 2 };
  }
  if (element.is === 'passage') return element.point;
  return { x: element.box.x + 2, y: element.box.y + 2 };
}
