/** Side by side what would lie on top of each other: bars outside a part, and what runs along a wall inside it. */
import type { Card, CardBar, CardSide, CardWay } from './card.ts';

/** Something that runs along one wall, between two places on it. */
interface Stretch {
  readonly of: CardBar | CardWay;
  readonly side: CardSide;
  readonly from: number;
  readonly to: number;
}

export interface Lanes {
  has(of: CardBar | CardWay): boolean;
  /** From the wall, 0 the nearest. */
  lane(of: CardBar | CardWay, side: CardSide): number;
  count(side: CardSide): number;
}

function packed(stretches: readonly Stretch[]): Lanes {
  const lanes = new Map<CardSide, Stretch[][]>();
  const found = new Map<CardBar | CardWay, Map<CardSide, number>>();
  // Short ones nearest to the wall, so that a long one goes round them.
  const inOrder = [...stretches].sort((a, b) => a.to - a.from - (b.to - b.from));
  for (const stretch of inOrder) {
    const here = lanes.get(stretch.side) ?? [];
    lanes.set(stretch.side, here);
    // Two that meet at a terminal are one conductor there.
    const free = here.findIndex((lane) => lane.every(({ from, to }) => to <= stretch.from || stretch.to <= from));
    const lane = free < 0 ? here.length : free;
    if (free < 0) here.push([stretch]);
    else here[lane]?.push(stretch);
    const sides = found.get(stretch.of) ?? new Map<CardSide, number>();
    sides.set(stretch.side, lane);
    found.set(stretch.of, sides);
  }
  return {
    has: (of) => found.has(of),
    lane: (of, side) => found.get(of)?.get(side) ?? 0,
    count: (side) => lanes.get(side)?.length ?? 0,
  };
}

export interface CardLanes {
  /** Bars from terminal to terminal outside. */
  readonly outside: Lanes;
  /** Ways and shared conductors whose two terminals stand on one wall. */
  readonly inside: Lanes;
  /** Bars that go round the part from its top to its bottom, and by which end. */
  readonly round: ReadonlyMap<CardBar, 'left' | 'right'>;
  /** Ways that share a terminal with another: a relay’s, a board’s. */
  readonly shared: ReadonlySet<CardBar | CardWay>;
  /** Ways from wall to wall that do not go straight across. */
  readonly crossing: ReadonlySet<CardBar | CardWay>;
}

export function lanesOf(card: Card): CardLanes {
  const spots = new Map(card.spots.map((spot) => [spot.terminal, spot]));
  const outside: Stretch[] = [];
  const inside: Stretch[] = [];
  const round = new Map<CardBar, 'left' | 'right'>();
  const middle = Math.max(0, ...card.spots.map(({ place }) => place)) / 2;
  const along = (of: CardBar | CardWay, into: Stretch[]): boolean => {
    const [from, to] = [spots.get(of.from), spots.get(of.to)];
    if (from === undefined || to === undefined || from.side !== to.side) return false;
    into.push({ of, side: from.side, from: Math.min(from.place, to.place), to: Math.max(from.place, to.place) });
    return true;
  };
  for (const way of card.ways) along(way, inside);
  for (const bar of card.bars) {
    if (bar.is === 'inside') {
      along(bar, inside);
      continue;
    }
    if (along(bar, outside)) continue;
    const ends = [spots.get(bar.from), spots.get(bar.to)];
    if (!ends.every((end) => end?.side === 'top' || end?.side === 'bottom')) continue;
    const places = ends.map((end) => end?.place ?? 0);
    const by = places.reduce((sum, place) => sum + place, 0) / 2 < middle ? 'left' : 'right';
    round.set(bar, by);
    for (const end of ends) {
      if (end === undefined) continue;
      const far = by === 'left' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
      outside.push({ of: bar, side: end.side, from: Math.min(end.place, far), to: Math.max(end.place, far) });
    }
  }
  const ends = card.ways.flatMap(({ from, to }) => [from, to]);
  const isShared = (name: string) => ends.indexOf(name) !== ends.lastIndexOf(name);
  const shared = new Set(card.ways.filter(({ from, to }) => isShared(from) || isShared(to)));
  const crossing = card.ways.filter((way) => {
    const [from, to] = [spots.get(way.from), spots.get(way.to)];
    return (
      !shared.has(way) && from !== undefined && to !== undefined && from.side !== to.side && from.place !== to.place
    );
  });
  return { outside: packed(outside), inside: packed(inside), round, shared, crossing: new Set(crossing) };
}
