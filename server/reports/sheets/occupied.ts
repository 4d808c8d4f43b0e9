/** Where on a drawing anything stands, so that no page is printed empty. */
import type { Box, Drawing, DrawnElement, Point } from '../picture/scene.ts';

export function occupiedBy({ elements }: Drawing): (x: number, y: number, width: number, height: number) => boolean {
  const boxes = [...elements.values()].flatMap(boxesOf);
  return (x, y, width, height) =>
    boxes.some((box) => box.x < x + width && box.x + box.width > x && box.y < y + height && box.y + box.height > y);
}

function boxesOf(element: DrawnElement): Box[] {
  switch (element.is) {
    case 'part':
      return [element.box];
    case 'core':
      return [...between(element.points), element.label.box];
    case 'passage':
      return element.text === undefined ? [] : [element.text.box];
    default: {
      // Of a box round others the walls count: what is inside counts for itself.
      const { x, y, width, height } = element.box;
      const corners = [
        { x, y },
        { x: x + width, y },
        { x: x + width, y: y + height },
        { x, y: y + height },
        { x, y },
      ];
      return [...between(corners), ...element.texts.map(({ box }) => box)];
    }
  }
}

function between(points: readonly Point[]): Box[] {
  return points.slice(1).map((end, index) => {
    const start = points[index] ?? end;
    return {
      x: Math.min(start.x, end.x),
      y: Math.min(start.y, end.y),
      width: Math.abs(start.x - end.x),
      height: Math.abs(start.y - end.y),
    };
  });
}
