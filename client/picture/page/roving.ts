/**
 * Where an arrow key leads from an element: along the wires. From a part to the cores that leave it on that side, from a core to
 * the part at its end, or up and down to the core beside it; where no wire leads, to what stands nearest that way.
 */
import type { DrawnCore, DrawnElement, DrawnPart, Point, Side } from '../../../server/reports/picture/scene.ts';

export type Direction = 'left' | 'right' | 'up' | 'down';

type Elements = ReadonlyMap<string, DrawnElement>;

const sideOf: Readonly<Record<Direction, Side>> = { left: 'left', right: 'right', up: 'top', down: 'bottom' };

/** Parts, cores and boxes as one reads them: from the top, and from the left. Passages belong to their core. */
export function readingOrder(elements: Elements): string[] {
  const row = 40;
  return [...elements.values()]
    .filter(({ is }) => is !== 'passage')
    .map((element) => ({ id: element.id, at: middleOf(element) }))
    .sort((a, b) => Math.floor(a.at.y / row) - Math.floor(b.at.y / row) || a.at.x - b.at.x || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
}

/** `came` is the part from which one went onto a core: up and down then leads along its other cores. */
export function step(elements: Elements, id: string, direction: Direction, came?: string): string | undefined {
  const here = elements.get(id);
  if (here?.is === 'core') return fromCore(elements, here, direction, came) ?? nearest(elements, here, direction);
  const along = here?.is === 'part' ? coresAt(elements, here, sideOf[direction])[0]?.id : undefined;
  return along ?? (here === undefined ? undefined : nearest(elements, here, direction));
}

/** Cores that end on a side of a part, from the top or the left. */
export function coresAt(elements: Elements, part: DrawnPart, side?: Side): DrawnCore[] {
  const spots = new Map(
    part.terminals.filter((one) => side === undefined || one.side === side).map((one) => [one.terminal, one.point]),
  );
  const ends = [...elements.values()].flatMap((element) => {
    if (element.is !== 'core') return [];
    const at = spots.get(element.from) ?? spots.get(element.to);
    return at === undefined ? [] : [{ core: element, at }];
  });
  return ends
    .sort((a, b) => a.at.y - b.at.y || a.at.x - b.at.x || (a.core.id < b.core.id ? -1 : 1))
    .map(({ core }) => core);
}

function fromCore(
  elements: Elements,
  core: DrawnCore,
  direction: Direction,
  came: string | undefined,
): string | undefined {
  const parts = partsAt(elements, core);
  if (direction === 'left' || direction === 'right') {
    const [first, last] = [core.points[0], core.points.at(-1)];
    if (first === undefined || last === undefined) return undefined;
    const leftmost = first.x <= last.x ? parts.from : parts.to;
    const rightmost = first.x <= last.x ? parts.to : parts.from;
    return (direction === 'left' ? leftmost : rightmost)?.id;
  }
  const part = came === undefined ? undefined : [parts.from, parts.to].find((one) => one?.id === came);
  if (part === undefined) return undefined;
  const beside = coresAt(elements, part);
  const next = beside.findIndex(({ id }) => id === core.id) + (direction === 'down' ? 1 : -1);
  return beside[next]?.id;
}

function partsAt(elements: Elements, core: DrawnCore) {
  const of = (terminal: string) =>
    [...elements.values()].find(
      (one): one is DrawnPart => one.is === 'part' && one.terminals.some((spot) => spot.terminal === terminal),
    );
  return { from: of(core.from), to: of(core.to) };
}

/** Of what lies within a quarter turn of the direction the nearest; across counts double, so that one goes straight. */
function nearest(elements: Elements, here: DrawnElement, direction: Direction): string | undefined {
  const start = middleOf(here);
  let best: { readonly id: string; readonly far: number } | undefined;
  for (const other of elements.values()) {
    if (other === here || other.is === 'passage') continue;
    const { x, y } = middleOf(other);
    const along = { left: start.x - x, right: x - start.x, up: start.y - y, down: y - start.y }[direction];
    const across = Math.abs(direction === 'left' || direction === 'right' ? y - start.y : x - start.x);
    if (along <= 0 || across > along * 2) continue;
    const far = along + 2 * across;
    if (best === undefined || far < best.far) best = { id: other.id, far };
  }
  return best?.id;
}

/** Of a core the middle of its label, where one looks for it. */
export function middleOf(element: DrawnElement): Point {
  if (element.is === 'passage') return element.point;
  const box = element.is === 'core' ? element.label.box : element.box;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}
