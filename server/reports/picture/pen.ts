/** Draws shapes and letters into a part's own frame, from its upper left corner. */
import { bold, letters } from './measures.ts';
import type { Box, DrawnText, Fill, Point, Shape, Stands, Stroke, TextRole } from './scene.ts';
import { textWidth } from './text-width.ts';

export type Xy = readonly [x: number, y: number];

export class Pen {
  readonly shapes: Shape[] = [];
  readonly texts: DrawnText[] = [];

  line(points: readonly Xy[], stroke: Stroke = 'ink'): void {
    this.shapes.push({ is: 'line', points: points.map(([x, y]) => ({ x, y })), stroke });
  }

  /** The blade of a contact, where it stands when so. */
  blade(points: readonly Xy[], stands: Stands): void {
    this.shapes.push({ is: 'line', points: points.map(([x, y]) => ({ x, y })), stroke: 'ink', stands });
  }

  /** An outline of straight pieces. */
  outline(points: readonly Xy[], stroke: Stroke = 'ink'): void {
    this.shapes.push({ is: 'line', points: points.map(([x, y]) => ({ x, y })), stroke, closed: true });
  }

  /** A bow round a middle, from one angle to another in degrees, clockwise from the right. */
  bow([x, y]: Xy, radius: number, from: number, to: number, stroke: Stroke = 'ink'): void {
    const steps = Math.max(4, Math.ceil(Math.abs(to - from) / 15));
    this.line(
      Array.from({ length: steps + 1 }, (_, i): Xy => {
        const angle = ((from + ((to - from) * i) / steps) * Math.PI) / 180;
        return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
      }),
      stroke,
    );
  }

  rect(x: number, y: number, width: number, height: number, stroke: Stroke = 'ink', fill: Fill = 'paper'): void {
    this.shapes.push({ is: 'rect', box: { x, y, width, height }, stroke, fill });
  }

  circle(x: number, y: number, radius: number, stroke: Stroke = 'ink', fill: Fill = 'paper'): void {
    this.shapes.push({ is: 'circle', at: { x, y }, radius, stroke, fill });
  }

  dot(x: number, y: number): void {
    this.circle(x, y, 2, 'none', 'ink');
  }

  text(role: TextRole, text: string, x: number, y: number, anchor: DrawnText['anchor'] = 'middle'): void {
    if (text !== '') this.texts.push(drawnText(role, text, { x, y }, anchor));
  }
}

export const widthOf = (role: TextRole, text: string): number => textWidth(text, letters[role], bold.has(role));

export function drawnText(role: TextRole, text: string, at: Point, anchor: DrawnText['anchor']): DrawnText {
  const width = widthOf(role, text);
  const x = anchor === 'start' ? at.x : anchor === 'end' ? at.x - width : at.x - width / 2;
  const height = letters[role];
  // Letters reach from three quarters of their height above the base line to a quarter below it.
  return { role, text, at, anchor, box: { x, y: at.y - height * 0.76, width, height } };
}

const movedPoint = ({ x, y }: Point, by: Point): Point => ({ x: x + by.x, y: y + by.y });
export const movedBox = (box: Box, by: Point): Box => ({ ...box, x: box.x + by.x, y: box.y + by.y });

export function movedText(text: DrawnText, by: Point): DrawnText {
  return { ...text, at: movedPoint(text.at, by), box: movedBox(text.box, by) };
}

export function movedShape(shape: Shape, by: Point): Shape {
  if (shape.is === 'line') return { ...shape, points: shape.points.map((point) => movedPoint(point, by)) };
  if (shape.is === 'rect') return { ...shape, box: movedBox(shape.box, by) };
  return { ...shape, at: movedPoint(shape.at, by) };
}
