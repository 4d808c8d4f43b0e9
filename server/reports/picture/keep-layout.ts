/**
 * The next drawing from the one before: what did not change stays, what is new finds room beside it, and cores find their way
 * between. When something finds no room, or much has changed, it says why the whole has to be laid out again.
 */
import { areasOf, withWordsMoved } from './areas.ts';
import { Before, Why } from './before.ts';
import { drawnCore, drawnPart, leastWidth } from './elements.ts';
import { type Redrawn, redraw, settle, wingBefore } from './keep-parts.ts';
import { labelBox } from './label.ts';
import { barStep } from './measures.ts';
import { crossings, passagesOf } from './passages.ts';
import { middleOf, placeLabel } from './place-label.ts';
import { type Neighbour, placePart } from './place-part.ts';
import type { SymbolPlan, Wing } from './plan.ts';
import { grown } from './room.ts';
import { type RouteEnd, route } from './router.ts';
import { same } from './same.ts';
import type {
  Drawing,
  DrawnCore,
  DrawnElement,
  DrawnGroup,
  DrawnPart,
  DrawnPassage,
  DrawnText,
  PictureCore,
  PictureGraph,
  PictureGroup,
  PicturePart,
  Point,
} from './scene.ts';
import { edgeOf, givesWay, Sheet } from './sheet.ts';
import { planOf } from './symbols/all.ts';
import { wallsRound } from './walls.ts';

export interface Kept {
  readonly elements: DrawnElement[];
  readonly size: Drawing['size'];
  /** Ids of what has new geometry. */
  readonly fresh: ReadonlySet<string>;
}

/** A picture with more new parts in it than this is laid out whole. */
const mostNewParts = 6;

export function keepLayout(graph: PictureGraph, previous: Drawing): Kept | { readonly why: string } {
  try {
    return new Keeping(new Before(graph, previous)).done();
  } catch (error) {
    if (error instanceof Why) return { why: error.message };
    throw error;
  }
}

/** Where an end of a core comes in at a part that was placed or drawn anew. */
interface Port {
  readonly part: string;
  readonly wing: Wing;
  readonly y: number;
}

class Keeping {
  private readonly sheet: Sheet;
  private readonly fresh = new Set<string>();
  private readonly ports = new Map<string, Port>();
  private readonly pictured: ReadonlyMap<string, PictureCore>;

  constructor(private readonly before: Before) {
    const { graph, matching } = before;
    const newParts = graph.parts.filter(({ name }) => !matching.parts.has(name)).length;
    if (newParts > mostNewParts) throw new Why(`${newParts} parts are new`);
    this.pictured = new Map(graph.cores.map((core) => [core.id, core]));
    this.sheet = new Sheet(graph.groups, before.groups());
  }

  done(): Kept {
    const { before, sheet } = this;
    const { graph, drawing } = before;
    const redrawn = new Map<string, Redrawn>();
    for (const part of graph.parts) {
      const old = before.part(part.name);
      if (old === undefined) continue;
      const ends = before.endsAt(part);
      if (before.isSame(part, ends)) sheet.addPart(old);
      else redrawn.set(part.name, redraw(part, old, ends));
    }
    const waiting: PictureCore[] = [];
    for (const core of graph.cores) {
      const kept = this.keptCore(core, redrawn);
      if (kept === undefined) waiting.push(core);
      else sheet.addCore(kept);
    }
    for (const { id, core, text } of this.passagesBefore())
      if (text !== undefined && sheet.cores.has(core)) sheet.addNote(id, text.box);
    for (const one of redrawn.values()) this.settleOne(one);
    for (const name of redrawn.keys()) this.keepWithin(name);
    for (const group of before.graph.groups) this.keepWords(group);
    this.relabel();
    this.placeNew();
    this.routeAll(waiting);
    this.crowdedNotes();
    const { right, bottom } = sheet.extent();
    const size = {
      width: Math.max(drawing.size.width, Math.ceil(right + 40)),
      height: Math.max(drawing.size.height, Math.ceil(bottom + 40)),
    };
    return { elements: this.elements(), size, fresh: this.fresh };
  }

  /** A core whose both ends are where they were. */
  private keptCore(core: PictureCore, redrawn: ReadonlyMap<string, Redrawn>): DrawnCore | undefined {
    for (const which of ['from', 'to'] as const) {
      const old = this.before.endOf(core, which);
      if (old === undefined) return undefined;
      const name = this.before.partAt(core[which])?.name ?? '';
      if (redrawn.get(name)?.moves(wingBefore(old, which)) === true) return undefined;
    }
    const old = this.before.core(core);
    if (old === undefined) return undefined;
    const { box } = old.label;
    const { width, height } = labelBox(core.label);
    const middle = middleOf(box);
    const at = width === box.width ? box : { x: Math.round(middle.x - width / 2), y: middle.y - height / 2 };
    const next = { ...drawnCore(core, old.points, at, new Map()), signs: old.signs };
    return same(next, old) ? old : next;
  }

  private settleOne(one: Redrawn): void {
    const { sheet } = this;
    const settled = settle(one, sheet);
    if (settled === undefined) throw new Why(`a core finds no room on ${one.part.name}`);
    const { levels } = settled;
    // Labels of its own cores give way.
    const own = new Set(one.ends.flatMap(({ core }) => [core, `label of ${core}`]));
    const hit = (drawn: DrawnPart) =>
      areasOf(drawn)
        .map((box) => sheet.room.at(box, (owner) => own.has(owner) || givesWay(owner)))
        .find((owner) => owner !== undefined);
    const part = aside(settled.part).find((drawn) => hit(drawn) === undefined);
    if (part === undefined) throw new Why(`${one.part.name} finds no room beside ${hit(settled.part)}`);
    for (const { key, wing, y } of levels) this.ports.set(key, { part: part.name, wing, y });
    sheet.addPart(same(part, one.old) ? one.old : part);
  }

  /** A part that has grown may want its walls further out. */
  private keepWithin(name: string): void {
    const part = this.sheet.parts.get(name);
    const walls = part && wallsRound(part.group, grown(part.box, 1), this.sheet);
    if (walls === undefined) throw new Why(`${name} finds no room in its box`);
    this.putWalls(walls);
  }

  /** A box whose words have become longer may want its walls further out too. */
  private keepWords(group: PictureGroup): void {
    const drawn = this.sheet.group(group.id)?.drawn;
    if (drawn === undefined) return;
    const walls = wallsRound(group.id, { ...drawn.box, width: leastWidth(group) }, this.sheet);
    if (walls === undefined) throw new Why(`${group.name} finds no room for its words`);
    this.putWalls(walls);
  }

  /** Labels that have become wider than the room they had, or that gave way to a part. */
  private relabel(): void {
    const { sheet } = this;
    for (const core of [...sheet.cores.values()]) {
      const own = (owner: string) => owner === core.id || owner === `label of ${core.id}`;
      if (sheet.room.isFree(core.label.box, own)) continue;
      const pictured = this.pictured.get(core.id);
      const at =
        pictured === undefined
          ? undefined
          : placeLabel(pictured.label, core.points, (box) => sheet.isFreeForLabel(box, own));
      if (pictured === undefined || at === undefined) throw new Why(`the label of ${core.run} finds no room`);
      sheet.addCore({ ...drawnCore(pictured, core.points, at, new Map()), signs: core.signs });
    }
  }

  /** What has most neighbours on the sheet first. */
  private placeNew(): void {
    const { graph, matching } = this.before;
    const waiting = graph.parts.filter(({ name }) => !matching.parts.has(name));
    while (waiting.length > 0) {
      const counts = waiting.map((part) => this.neighbours(part, this.planFor(part)).length);
      const [part] = waiting.splice(counts.indexOf(Math.max(...counts)), 1);
      if (part !== undefined) this.placeOne(part);
    }
  }

  private planFor(part: PicturePart): SymbolPlan {
    const ends = this.before.endsAt(part);
    return planOf({
      part,
      ends: new Map(part.terminals.map(({ name }) => [name, ends.filter(({ terminal }) => terminal === name)])),
    });
  }

  private neighbours(part: PicturePart, plan: SymbolPlan): Neighbour[] {
    const levels = levelsOf(plan);
    return plan.ports.flatMap(({ key, wing }): Neighbour[] => {
      const [id = '', which] = key.split('#');
      const core = this.pictured.get(id);
      if (core === undefined) return [];
      const far = which === 'from' ? core.to : core.from;
      const other = this.sheet.parts.get(this.before.partAt(far)?.name ?? '');
      const terminal = other?.terminals.find((one) => one.terminal === far);
      if (other === undefined || terminal === undefined || other.name === part.name) return [];
      const port = this.ports.get(`${id}#${which === 'from' ? 'to' : 'from'}`);
      const y = port?.y ?? (terminal.point.y + terminal.end.y) / 2;
      const x = wing === 'left' ? other.body.x + other.body.width : other.body.x;
      return [{ point: { x, y }, wing, y: levels.get(key) ?? 0, label: core.label }];
    });
  }

  private placeOne(part: PicturePart): void {
    const plan = this.planFor(part);
    const placed = placePart(part, plan, this.neighbours(part, plan), this.sheet);
    if (placed === undefined) throw new Why(`${part.name} finds no room`);
    const { at, walls } = placed;
    const levels = levelsOf(plan);
    this.putWalls(walls);
    this.sheet.addPart(drawnPart(part, plan, { ...at, width: plan.width, height: plan.height }, levels));
    for (const { key, wing } of plan.ports)
      this.ports.set(key, { part: part.name, wing, y: at.y + (levels.get(key) ?? 0) });
    this.fresh.add(`part:${part.name}`);
  }

  private putWalls(walls: readonly DrawnGroup[]): void {
    for (const group of walls) {
      this.sheet.putWalls(group);
      this.fresh.add(group.id);
    }
  }

  private endNow(core: PictureCore, which: 'from' | 'to'): { end: RouteEnd; part: DrawnPart } {
    const port = this.ports.get(`${core.id}#${which}`);
    const part = this.sheet.parts.get(this.before.partAt(core[which])?.name ?? '');
    const old = this.before.endOf(core, which);
    const y = port?.y ?? (which === 'from' ? old?.points[0] : old?.points.at(-1))?.y;
    const wing = port?.wing ?? (old === undefined ? undefined : wingBefore(old, which));
    if (part === undefined || y === undefined || wing === undefined) throw new Why(`${core.run} has no end`);
    return { end: edgeOf(part, wing, y), part };
  }

  /** The short ones first: they have least choice. */
  private routeAll(waiting: readonly PictureCore[]): void {
    const { sheet } = this;
    const jobs = waiting.map((core) => {
      const [from, to] = [this.endNow(core, 'from'), this.endNow(core, 'to')];
      const { point: a } = from.end;
      const { point: b } = to.end;
      return { core, from, to, far: Math.abs(a.x - b.x) + Math.abs(a.y - b.y) };
    });
    for (const { core, from, to } of jobs.sort((a, b) => a.far - b.far)) {
      const { right, bottom } = sheet.extent();
      const whole = { x: 8, y: 8, width: right + 120, height: bottom + 120 };
      const points = route(from.end, to.end, sheet.inTheWay(from.part, to.part), whole);
      if (points === undefined || this.strays(points, from.part, to.part)) throw new Why(`${core.run} finds no way`);
      const at = placeLabel(core.label, points, (box) => sheet.isFreeForLabel(box, (owner) => owner === core.id));
      if (at === undefined) throw new Why(`the label of ${core.run} finds no room`);
      sheet.addCore(drawnCore(core, points, at, sheet.parts));
      this.fresh.add(core.id);
    }
  }

  /** Whether a core goes through a wall more often than it must. */
  private strays(points: readonly Point[], from: DrawnPart, to: DrawnPart): boolean {
    const { sheet } = this;
    return sheet.groups.some(({ is, id, box }) => {
      const must = sheet.isIn(from, id) === sheet.isIn(to, id) ? 0 : 1;
      return is === 'enclosure' && crossings(points, box).length > must;
    });
  }

  private passagesBefore(): DrawnPassage[] {
    return [...this.before.drawing.elements.values()].filter((one): one is DrawnPassage => one.is === 'passage');
  }

  /** Small words on which something stands now look for another place. */
  private crowdedNotes(): void {
    const { sheet } = this;
    const isLine = (owner: string) => owner.startsWith('core:') || givesWay(owner);
    const isCrowded = ({ box }: DrawnText) => !sheet.room.isFree(box, isLine);
    for (const core of sheet.cores.values()) if (core.signs.some(isCrowded)) this.fresh.add(core.id);
    for (const { id, text } of this.passagesBefore()) if (text !== undefined && isCrowded(text)) this.fresh.add(id);
  }

  private elements(): DrawnElement[] {
    const { sheet, before } = this;
    const cores = before.graph.cores.flatMap(({ id }) => sheet.cores.get(id) ?? []);
    const said = new Map(before.graph.cores.map((core) => [core.id, core]));
    const passages = cores
      .flatMap((core) => passagesOf(core, said.get(core.id), sheet.groups))
      .map((passage): DrawnPassage => {
        const old = before.drawing.elements.get(passage.id);
        if (old?.is === 'passage' && same({ ...old, text: undefined }, passage)) return old;
        this.fresh.add(passage.id);
        return passage;
      });
    const parts = before.graph.parts.flatMap(({ name }) => sheet.parts.get(name) ?? []);
    return [...sheet.groups, ...cores, ...passages, ...parts];
  }
}

/** The words above a part in its middle, else a little to one side. */
function aside(part: DrawnPart): DrawnPart[] {
  const [body, words] = areasOf(part);
  if (body === undefined || words === undefined) return [part];
  const most = Math.abs(words.width - body.width) / 2 + 10;
  const shifts = [0];
  for (let off = 6; off <= most; off += 6) shifts.push(off, -off);
  return shifts.map((dx) => (dx === 0 ? part : withWordsMoved(part, dx)));
}

/** Heights of the cores from the part's upper edge: on a bar one below the other. */
function levelsOf({ ports, head }: SymbolPlan): Map<string, number> {
  const next = { left: head + 8, right: head + 8 };
  return new Map(
    ports.map(({ key, wing, y }) => {
      if (y !== undefined) return [key, y];
      next[wing] += barStep;
      return [key, next[wing] - barStep];
    }),
  );
}
