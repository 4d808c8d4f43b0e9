/** A drawing that is being changed: what stands on the sheet, what room is left, and what a new core has to go round. */
import { areasOf } from './areas.ts';
import type { Wing } from './plan.ts';
import { holds, overlaps, type Piece, pieceBox, piecesOf } from './polyline.ts';
import { Room } from './room.ts';
import type { InTheWay, RouteEnd } from './router.ts';
import type { Box, DrawnCore, DrawnGroup, DrawnPart, PictureGroup } from './scene.ts';

/** Owner of small words that may give way. */
const note = 'note of ';
export const givesWay = (owner: string): boolean => owner.startsWith(note);

export class Sheet {
  readonly room = new Room();
  readonly parts = new Map<string, DrawnPart>();
  readonly cores = new Map<string, DrawnCore>();
  /** In the order of drawing; undefined until its walls are put up. */
  private readonly walled: Map<string, DrawnGroup | undefined>;
  private readonly pictured: ReadonlyMap<string, PictureGroup>;

  constructor(groups: readonly PictureGroup[], standing: readonly DrawnGroup[]) {
    this.pictured = new Map(groups.map((group) => [group.id, group]));
    this.walled = new Map(groups.map(({ id }) => [id, undefined]));
    for (const group of standing) this.putWalls(group);
  }

  get groups(): readonly DrawnGroup[] {
    return [...this.walled.values()].filter((group) => group !== undefined);
  }

  group(id: string | undefined): { readonly says: PictureGroup; readonly drawn: DrawnGroup | undefined } | undefined {
    const says = id === undefined ? undefined : this.pictured.get(id);
    return says && { says, drawn: this.walled.get(says.id) };
  }

  /** Walls that are put up, or moved: their words stay where they are. */
  putWalls(group: DrawnGroup): void {
    const known = this.walled.get(group.id);
    this.walled.set(group.id, group);
    if (known === undefined) for (const { box } of group.texts) this.room.add(`words of ${group.id}`, box);
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
    const walls: Piece[] = [];
    for (const part of this.parts.values())
      for (const box of areasOf(part)) boxes.push({ box, clear: box === part.body ? 7 : 2 });
    for (const { label, points } of this.cores.values()) {
      boxes.push({ box: label.box, clear: 2 });
      lines.push(...piecesOf(points));
    }
    for (const group of this.groups) {
      for (const { box } of group.texts) boxes.push({ box, clear: 2 });
      if (group.is === 'place') lines.push(...wallsOf(group.box));
      else if (this.isIn(from, group.id) || this.isIn(to, group.id)) walls.push(...wallsOf(group.box));
      else boxes.push({ box: group.box, clear: 8 });
    }
    return { boxes, lines, walls };
  }

  /** Room for the label of a core: where nothing else stands, and whole on one side of every wall. */
  isFreeForLabel(box: Box, but: (owner: string) => boolean): boolean {
    return this.room.isFree(box, but) && !this.groups.some((group) => isCut(box, group));
  }

  /** The part that a terminal is of, if it stands on the sheet. */
  partAt(terminal: string): Pick<DrawnPart, 'group'> {
    return this.parts.get(terminal.split(':')[0] ?? '') ?? { group: undefined };
  }

  /** Whether it stands in a group, or in one that stands in it. */
  isIn({ group }: Pick<DrawnPart, 'group'>, id: string): boolean {
    for (let at = group; at !== undefined; at = this.pictured.get(at)?.parent) if (at === id) return true;
    return false;
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

/** Whether a wall goes through what stands there; the bounds of a region are thin lines, and may. */
export function isCut(box: Box, { is, box: walls }: Pick<DrawnGroup, 'is' | 'box'>): boolean {
  return is === 'enclosure' && overlaps(walls, box) && !holds(walls, box);
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
