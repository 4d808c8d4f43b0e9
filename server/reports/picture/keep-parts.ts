/** Parts that were there before: as they were, or drawn anew in their old place where their words or cores have changed. */
import { drawnPart } from './elements.ts';
import type { CoreEnd, Pinned, SymbolPlan, Wing } from './plan.ts';
import type { DrawnCore, DrawnPart, PicturePart, Point } from './scene.ts';
import { givesWay, type Sheet } from './sheet.ts';
import { planOf } from './symbols/all.ts';

/** An end of a core at a part, with where it ended before. */
export interface PartEnd extends CoreEnd {
  readonly terminal: string;
  readonly core: string;
  readonly before: Point | undefined;
  /** How high its other end is, if that is placed. */
  readonly other: number | undefined;
}

export interface Redrawn {
  readonly part: PicturePart;
  readonly old: DrawnPart;
  readonly plan: SymbolPlan;
  readonly ends: readonly PartEnd[];
  readonly box: { readonly x: number; readonly y: number };
  /** Sides whose terminals are no longer where they were. */
  readonly moves: (wing: Wing) => boolean;
}

export function redraw(part: PicturePart, old: DrawnPart, ends: readonly PartEnd[]): Redrawn {
  const byName = new Map(old.terminals.map((terminal) => [terminal.name, terminal]));
  const pinned: Pinned = {
    bodyWidth: old.body.width,
    bodyHeight: old.body.height,
    wing: (name) => {
      const side = byName.get(name)?.side;
      return side === 'left' || side === 'right' ? side : undefined;
    },
    level: (name) => {
      const level = byName.get(name)?.level;
      return level === undefined ? undefined : level - old.body.y;
    },
  };
  const byTerminal = new Map<string, PartEnd[]>(part.terminals.map(({ name }) => [name, []]));
  for (const end of ends) byTerminal.get(end.terminal)?.push(end);
  const plan = planOf({ part, ends: byTerminal, pinned });
  const left = anchored(old, plan);
  return {
    part,
    old,
    plan,
    ends,
    box: { x: left - plan.bodyLeft, y: old.body.y - plan.head },
    moves: (wing) =>
      !plan.isBar &&
      (isThrough(part)
        ? plan.bodyWidth !== old.body.width
        : wing === 'left'
          ? left !== old.body.x
          : left + plan.bodyWidth !== old.body.x + old.body.width),
  };
}

/** The left edge of the body: where more cores are, nothing moves. */
function anchored({ body, terminals }: DrawnPart, plan: SymbolPlan): number {
  if (plan.isBar) return body.x + (body.width - plan.bodyWidth) / 2;
  const right = terminals.filter(({ side }) => side === 'right').length;
  return 2 * right > terminals.length ? body.x + body.width - plan.bodyWidth : body.x;
}

export interface Settled {
  readonly part: DrawnPart;
  /** Where its cores come in. */
  readonly levels: readonly { readonly key: string; readonly wing: Wing; readonly y: number }[];
}

/** Cores end in the middle of it. */
const isThrough = ({ symbol }: PicturePart): boolean => symbol === 'connector' || symbol === 'fusebox';

/** With a height for every core; undefined when some core finds no room on it. */
export function settle(redrawn: Redrawn, sheet: Sheet): Settled | undefined {
  const { part, old, plan, ends, box } = redrawn;
  const at = new Map<string, number>();
  const taken: { readonly y: number; readonly wing: Wing }[] = [];
  for (const { key, before } of ends)
    if (before !== undefined) {
      at.set(key, before.y - box.y);
      const wing = plan.ports.find((port) => port.key === key)?.wing ?? 'left';
      taken.push({ y: before.y, wing });
    }
  for (const end of ends) {
    if (end.before !== undefined) continue;
    const wing = plan.ports.find(({ key }) => key === end.key)?.wing ?? 'left';
    const y = plan.isBar ? slotOnBar(redrawn, end, wing, taken, sheet) : slotAt(redrawn, end, wing, taken);
    if (y === undefined) return undefined;
    taken.push({ y, wing });
    at.set(end.key, y - box.y);
  }
  const added = ends.flatMap(({ key, before }) => (before === undefined ? box.y + (at.get(key) ?? 0) : []));
  const lowest = Math.max(...added, old.body.y) + 8 + plan.foot;
  const height = plan.isBar ? Math.max(old.body.y + old.body.height, lowest) - box.y : plan.height;
  const levels = plan.ports.map(({ key, wing }) => ({ key, wing, y: box.y + (at.get(key) ?? 0) }));
  return { part: drawnPart(part, plan, { ...box, width: plan.width, height }, at), levels };
}

/** On a bar: near the height of the core's other end, at a distance from other cores; the bar may become longer. */
function slotOnBar(
  { part, old, plan }: Redrawn,
  { other }: PartEnd,
  wing: Wing,
  taken: readonly { readonly y: number }[],
  sheet: Sheet,
): number | undefined {
  const { body } = old;
  const bottom = body.y + body.height - 8 - plan.foot;
  let best: { readonly y: number; readonly cost: number } | undefined;
  for (let y = body.y + 8; y <= bottom + 160; y += 2) {
    if (taken.some((one) => Math.abs(one.y - y) < 12)) continue;
    const cost = Math.abs(y - (other ?? bottom)) + (y > bottom ? 30 + y - bottom : 0);
    if (best !== undefined && cost >= best.cost) continue;
    const out = { x: wing === 'left' ? body.x - 26 : body.x + body.width, y: y - 8, width: 26, height: 16 };
    const longer = { x: body.x, y: bottom, width: body.width, height: Math.max(0, y + 10 + plan.foot - bottom) };
    const but = (owner: string) => owner === `part:${part.name}` || owner === old.id || givesWay(owner);
    if (sheet.room.isFree(out, but) && (y <= bottom || sheet.room.isFree(longer, but))) best = { y, cost };
  }
  return best?.y;
}

/** On any other terminal: at its lead, else beside the cores on it. */
function slotAt(
  { part, plan, box, old }: Redrawn,
  { terminal }: PartEnd,
  wing: Wing,
  taken: readonly { readonly y: number; readonly wing: Wing }[],
): number | undefined {
  const finished = plan.finish(new Map()).terminals;
  const level = box.y + (finished.find(({ name }) => name === terminal)?.level ?? plan.head + 11);
  const others = finished
    .filter(({ name, side }) => name !== terminal && side === wing)
    .map((one) => box.y + one.level);
  const [top, bottom] = [box.y + plan.head + 3, box.y + Math.max(plan.height, old.box.height) - 3];
  const inUse = new Set(part.terminals.map(({ name }) => name));
  for (const off of [0, 6, -6, 12, -12, 18, -18, 24, -24, 30, -30, 36, -36, 42, -42, 48, -48]) {
    const y = level + off;
    if (y < top || y > bottom) continue;
    const near = taken.some((one) => one.wing === wing && Math.abs(one.y - y) < 11);
    if (!near && !(off !== 0 && inUse.size > 1 && others.some((one) => Math.abs(one - y) < 9))) return y;
  }
  return undefined;
}

/** Where the core of an end goes out: by its line before, else by the symbol. */
export function wingBefore({ points }: DrawnCore, which: 'from' | 'to'): Wing {
  const [end, next] = which === 'from' ? [points[0], points[1]] : [points.at(-1), points.at(-2)];
  return (next?.x ?? 0) >= (end?.x ?? 0) ? 'right' : 'left';
}
