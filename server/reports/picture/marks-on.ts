/** Findings put on what they are about, side by side where one thing has several. */
import { areasOf } from './areas.ts';
import type { DrawnElement, DrawnMark, PictureMark, Point } from './scene.ts';

const step = 12;
/** More than these lie on each other; whoever asks is told of all. */
const mostBeside = 3;

export function marksOn(marks: readonly PictureMark[], elements: ReadonlyMap<string, DrawnElement>): DrawnMark[] {
  const counts = new Map<string, number>();
  return marks.map((mark): DrawnMark => {
    const count = counts.get(mark.element) ?? 0;
    counts.set(mark.element, count + 1);
    const { x, y } = placeOn(elements.get(mark.element));
    const away = Math.min(count, mostBeside - 1) * step;
    // In the corner of the sheet they go to the right, elsewhere away from the words.
    return { is: 'mark', ...mark, at: { x: elements.has(mark.element) ? x - away : x + count * step, y } };
  });
}

/** What has no place on the sheet is told in its corner. */
function placeOn(element: DrawnElement | undefined): Point {
  if (element === undefined) return { x: 14, y: 14 };
  if (element.is === 'core') {
    const { box } = element.label;
    return { x: box.x - 7, y: box.y + box.height / 2 };
  }
  if (element.is === 'passage') return element.point;
  if (element.is === 'part') {
    const [body, words = body] = areasOf(element);
    return { x: (words?.x ?? 0) - 9, y: (words?.y ?? 0) + 5 };
  }
  return { x: element.box.x + element.box.width - 12, y: element.box.y + 12 };
}
