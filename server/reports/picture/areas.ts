/** What a part really covers: its symbol, and the words above it, which may be wider than the symbol or narrower. */
import { movedText } from './pen.ts';
import type { Box, DrawnPart, DrawnText, TextRole } from './scene.ts';

const above: ReadonlySet<TextRole> = new Set(['name', 'title', 'rating']);

const isAbove = ({ role, box }: DrawnText, body: Box): boolean => above.has(role) && box.y + box.height / 2 < body.y;

export function areasOf({ body, texts }: Pick<DrawnPart, 'body' | 'texts'>): readonly Box[] {
  const words = texts.filter((text) => isAbove(text, body)).map(({ box }) => box);
  return words.length === 0 ? [body] : [body, hull(words)];
}

/** With the words above it so much to the right. */
export function withWordsMoved(part: DrawnPart, dx: number): DrawnPart {
  const texts = part.texts.map((text) => (isAbove(text, part.body) ? movedText(text, { x: dx, y: 0 }) : text));
  return { ...part, texts, box: hull(areasOf({ body: part.body, texts })) };
}

export function hull(boxes: readonly Box[]): Box {
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  return {
    x,
    y,
    width: Math.max(...boxes.map((box) => box.x + box.width)) - x,
    height: Math.max(...boxes.map((box) => box.y + box.height)) - y,
  };
}
