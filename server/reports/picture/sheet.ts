/** A drawing that is being changed: what stands on the sheet, what room is left, and what a new core has to go round. */
import { areasOf } from './areas.ts';
import type { Wing } from './plan.ts';
import { type Piece, pieceBox, piecesOf } from './polyline.ts';
import { Room } from './room.ts';
import type { InTheWay, RouteEnd } from './router.ts';
import type { Box, DrawnCore, DrawnGroup, DrawnPart } from './scene.ts';

/** Owner of small words that may give way. */
const note = 'note of ';
export const givesWay = (owner: string): boolean => owner.startsWith(note);

export class Sheet {
  readonly room = new Room();
  readonly parts = new Map<string, DrawnPart>();
  readonly cores = new Map<string, DrawnCore>();

  constructor(readonly groups: readonly DrawnGroup[]) {
    for (const { id, texts } of groups) for (const { box } of texts) this.room.add(`words of ${id}`, box);
  }

  addPart(part: DrawnPart): void {
    this.parts.set(part.name, part);
    for (const box of areasOf(part)) this.room.add(part.id, box);
  }

  addCore(core: DrawnCore): void {
    this.cores.set(core.id, core);
    this.room.add(`label of ${core.id}`, core.label.box);
    for (const piece of piecesOf(core.points)) this.room.add(core.id, pieceBox(piece, 4));
    for (const { box } of core.signs) this.room.add(`${note}${core.id}`, box);
  }

  addNote(of: string, box: Box): void {
    this.room.add(note + of, box);
  }

  /** Everything a core between two parts must go round or across. */
  inTheWay(from: DrawnPart, to: DrawnPart): InTheWay {
    const boxes: { box: Box; clear: number }[] = [];
    const lines: Piece[] = [];
    for (const part of this.parts.values())
      for (const box of areasOf(part)) boxes.push({ box, clear: box === part.body ? 7 : 2 });
    for (const { label, points } of this.cores.values()) {
      boxes.push({ box: label.box, clear: 2 });
      lines.push(...piecesOf(points));
    }
    for (const group of this.groups) {
      for (const { box } of group.texts) boxes.push({ box, clear: 2 });
      if (group.is === 'place' || this.isIn(from, group.id) || this.isIn(to, group.id))
        lines.push(...wallsOf(group.box));
      else boxes.push({ box: group.box, clear: 8 });
    }
    return { boxes, lines };
  }

  /** Whether it stands in a group, or in one that stands in it. */
  isIn({ group }: Pick<DrawnPart, 'group'>, id: string): boolean {
    for (let at = group; at !== undefined; at = this.parentOf(at)) if (at === id) return true;
    return false;
  }

  private parentOf(id: string): string | undefined {
    return this.groups.find((group) => group.id === id)?.parent;
  }

  extent(): { readonly right: number; readonly bottom: number } {
    let [right, bottom] = [0, 0];
    const take = ({ x, y, width, height }: Box) => {
      right = Math.max(right, x + width);
      bottom = Math.max(bottom, y + height);
    };
    for (const { box } of this.parts.values()) take(box);
    for (const { box } of this.groups) take(box);
    for (const { label, points } of this.cores.values()) {
      take(label.box);
      for (const { x, y } of points) take({ x, y, width: 0, height: 0 });
    }
    return { right, bottom };
  }
}

function wallsOf({ x, y, width, height }: Box): Piece[] {
  const corner = (dx: number, dy: number) => ({ x: x + dx, y: y + dy });
  const corners = [corner(0, 0), corner(width, 0), corner(width, height), corner(0, height), corner(0, 0)];
  return piecesOf(corners);
}

/** Where a core leaves a part on one side. */
export function edgeOf({ body }: DrawnPart, wing: Wing, y: number): RouteEnd {
  return { point: { x: wing === 'left' ? body.x : body.x + body.width, y }, wing };
}
