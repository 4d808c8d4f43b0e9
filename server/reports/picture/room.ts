/** What is taken on the sheet: boxes in squares, so that asking what is near needs no look at all the others. */
import { overlaps } from './polyline.ts';
import type { Box } from './scene.ts';

const square = 128;

interface Taken {
  readonly owner: string;
  readonly box: Box;
}

export class Room {
  private readonly squares = new Map<number, Taken[]>();

  add(owner: string, box: Box): void {
    const taken = { owner, box };
    for (const key of keysOf(box)) {
      const list = this.squares.get(key);
      if (list === undefined) this.squares.set(key, [taken]);
      else list.push(taken);
    }
  }

  /** Whether nothing but what the owners given put there overlaps the box. */
  isFree(box: Box, but: (owner: string) => boolean = () => false): boolean {
    return this.at(box, but) === undefined;
  }

  /** The owner of what is in the way. */
  at(box: Box, but: (owner: string) => boolean = () => false): string | undefined {
    for (const key of keysOf(box))
      for (const taken of this.squares.get(key) ?? [])
        if (overlaps(taken.box, box) && !but(taken.owner)) return taken.owner;
    return undefined;
  }
}

function* keysOf({ x, y, width, height }: Box): Generator<number> {
  const [left, right] = [Math.floor(x / square), Math.floor((x + width) / square)];
  const [top, bottom] = [Math.floor(y / square), Math.floor((y + height) / square)];
  for (let column = left; column <= right; column += 1)
    for (let row = top; row <= bottom; row += 1) yield column * 65_536 + row;
}

/** The box with so much more on every side. */
export const grown = ({ x, y, width, height }: Box, by: number, upright = by): Box => ({
  x: x - by,
  y: y - upright,
  width: width + 2 * by,
  height: height + 2 * upright,
});
