/** Lengths of a card, in the unit of its letters: where each terminal, core and way comes to stand. x goes right, y down. */
import { textWidth } from '../letters.ts';
import type { Card, CardBar, CardCore, CardSide, CardTerminal, CardWay } from './card.ts';
import { type CardLanes, lanesOf } from './lanes.ts';
import { type CoreLine, letter, levelWidth, lineHeight, linesOf, wayWidth, widthOf } from './lines.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A core with its words: its lead goes from the terminal to `end`, and the words stand beyond that. */
export interface PlacedCore {
  readonly core: CardCore;
  readonly end: Point;
  /** Top left corner of the words, their width and their lines. */
  readonly words: Point;
  readonly width: number;
  readonly lines: readonly CoreLine[];
}

export interface PlacedTerminal {
  readonly terminal: CardTerminal;
  readonly side: CardSide;
  readonly at: Point;
  readonly cores: readonly PlacedCore[];
  /** How many cores are not drawn for want of room. */
  readonly more: number;
  /** From the terminal to beyond the bars before its wall. */
  readonly clear: number;
}

/** A way through the part as the corners of its line, the terminals’ own places first and last. */
export interface PlacedWay {
  readonly way: CardWay;
  readonly points: readonly Point[];
  /** The piece of the line that is this way’s alone, by its first point: there stands what opens or protects. */
  readonly own: number;
  /** It crosses others, so that both its ends must tell which it is. */
  readonly crosses: boolean;
}

export interface PlacedBar {
  readonly bar: CardBar;
  readonly points: readonly Point[];
}

export interface CardLayout {
  readonly width: number;
  readonly height: number;
  readonly body: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly terminals: readonly PlacedTerminal[];
  readonly ways: readonly PlacedWay[];
  readonly bars: readonly PlacedBar[];
}

/** From the wall of the body to a terminal’s number, and from there on the ways may run. */
export const inset = 42;
const lead = 38;
const gap = 14;
const laneStep = 13;
const leastStep = 64;
/** More than these on one terminal are told of below the drawing. */
export const mostCores = 12;
/** From the last terminal of a row to the end of the body, at least; more where words stand beside its way. */
const leastShoulder = 36;
/** From the top of a board to its first way. */
const boardTop = 84;
/** Room for a switch before its way crosses others. */
const switchDepth = 44;
/** What stands beside a terminal with nothing on it, and how far from the middle of its ring. */
export const emptyWord = 'empty';
export const emptyAway = 18;
/** From a terminal to the nearest bar before it. */
const firstLane = 20;

interface Block {
  readonly core: CardCore;
  readonly lines: readonly CoreLine[];
  readonly width: number;
  readonly height: number;
}

interface Spot {
  readonly terminal: CardTerminal;
  readonly side: CardSide;
  readonly place: number;
  readonly blocks: readonly Block[];
  readonly more: number;
  /** Along its wall. */
  readonly room: number;
}

function spotsOf(card: Card): Spot[] {
  const byName = new Map(card.terminals.map((terminal) => [terminal.name, terminal]));
  return card.spots.flatMap(({ terminal: name, side, place }) => {
    const terminal = byName.get(name);
    if (terminal === undefined) return [];
    const blocks = terminal.cores.slice(0, mostCores).map((core): Block => {
      const lines = linesOf(core);
      return { core, lines, width: widthOf(lines), height: lines.length * lineHeight };
    });
    const across = side === 'top' || side === 'bottom';
    const room = blocks.reduce((sum, { width, height }) => sum + (across ? width : height) + gap, 0);
    const more = terminal.cores.length - blocks.length;
    return [
      { terminal, side, place, blocks, more, room: Math.max(room + (more > 0 ? 60 : 0), across ? leastStep : 30) },
    ];
  });
}

/** Up to this length a row is spaced evenly, as on a real face; beyond it as its words need. */
const mostEven = 680;

/** Places in steps to lengths: evenly where there is room, and nowhere nearer than the words on either side allow. */
function spread(spots: readonly Spot[], step: number): Map<number, number> {
  const places = [...new Set(spots.map(({ place }) => place))].sort((a, b) => a - b);
  const [first = 0, last = 0] = [places[0], places.at(-1)];
  const even = Math.max(
    step,
    ...neighbours(spots).map(([one, other]) => (one.room + other.room) / 2 / (other.place - one.place)),
  );
  if (even * (last - first) <= mostEven) return new Map(places.map((place) => [place, even * (place - first)]));
  const at = new Map<number, number>();
  const ends = new Map<CardSide, number>();
  for (const [index, place] of places.entries()) {
    const before = places[index - 1];
    let here = before === undefined ? 0 : (at.get(before) ?? 0) + step * (place - before);
    const standing = spots.filter((spot) => spot.place === place);
    for (const { side, room } of standing)
      here = Math.max(here, (ends.get(side) ?? Number.NEGATIVE_INFINITY) + room / 2);
    at.set(place, here);
    for (const { side, room } of standing) ends.set(side, here + room / 2);
  }
  return at;
}

/** Terminals that stand beside each other on one wall. */
function neighbours(spots: readonly Spot[]): (readonly [Spot, Spot])[] {
  return (['top', 'bottom', 'left', 'right'] as const).flatMap((side) => {
    const row = spots.filter((spot) => spot.side === side).sort((a, b) => a.place - b.place);
    return row.slice(1).flatMap((spot, index) => {
      const before = row[index];
      return before === undefined ? [] : [[before, spot] as const];
    });
  });
}

const inward: Readonly<Record<CardSide, Point>> = {
  top: { x: 0, y: 1 },
  bottom: { x: 0, y: -1 },
  left: { x: 1, y: 0 },
  right: { x: -1, y: 0 },
};

export function layOutCard(card: Card): CardLayout {
  const spots = spotsOf(card);
  const lanes = lanesOf(card);
  const across = spots.filter(({ side }) => isLevel(side));
  const down = spots.filter(({ side }) => !isLevel(side));
  const step = Math.max(
    leastStep,
    ...card.ways.filter((way) => !lanes.shared.has(way)).map((way) => wayWidth(way) + 30),
  );
  const columns = spread(across, step);
  const rowsAt = spread(down, 30);
  const lastColumn = Math.max(0, ...columns.values());
  const lastRow = Math.max(0, ...rowsAt.values());
  const shoulder = Math.max(leastShoulder, ...card.ways.map((way) => wayWidth(way) + 20));
  const out = (side: CardSide) => lead + lanes.outside.count(side) * laneStep;
  const reach = (side: CardSide) => {
    const here = spots.filter((spot) => spot.side === side);
    const words = here.flatMap(({ blocks }) => blocks.map(({ width, height }) => (isLevel(side) ? height : width)));
    // Beside a ring on a wall at the side stands that nothing is on it.
    const isEmptyBeside = !isLevel(side) && here.some(({ terminal }) => terminal.empty);
    const least = isEmptyBeside ? emptyAway + textWidth(emptyWord, letter) + 6 : 0;
    if (words.length > 0) return Math.max(least, Math.max(...words) + out(side) + 6);
    return here.length === 0 ? 4 : Math.max(least, out(side));
  };
  const beyond = Math.max(0, ...across.map(({ place, room }) => (columns.get(place) ?? 0) + room / 2 - lastColumn));
  const before = Math.max(0, ...across.map(({ place, room }) => room / 2 - (columns.get(place) ?? 0)));
  const margin = lanes.round.size > 0 ? lanes.round.size * laneStep + 12 : 0;
  const boardWidth = 2 * Math.max(115, ...card.ways.map((way) => levelWidth(way) + 76));
  const width = Math.max(lastColumn + 2 * shoulder, down.length > 0 ? boardWidth : 0);
  const body = {
    x: Math.max(reach('left'), before - shoulder, margin),
    y: reach('top'),
    width,
    height: Math.max(
      down.length > 0 ? boardTop + lastRow + 40 + (reach('bottom') > 4 ? inset : 0) : 0,
      bodyDepth(card, spots, lanes),
    ),
  };
  const start = body.x + (width - lastColumn) / 2;
  const terminals = spots.map((spot) => {
    const at = isLevel(spot.side)
      ? { x: start + (columns.get(spot.place) ?? 0), y: spot.side === 'top' ? body.y : body.y + body.height }
      : { x: spot.side === 'left' ? body.x : body.x + width, y: body.y + boardTop + (rowsAt.get(spot.place) ?? 0) };
    return placedTerminal(spot, at, out(spot.side));
  });
  const room = {
    innerStep: innerStepOf(card, lanes),
    terminals: new Map(terminals.map((one) => [one.terminal.name, one])),
    lanes,
    body,
  };
  return {
    width: body.x + width + Math.max(reach('right'), beyond - shoulder, margin),
    height: body.y + body.height + reach('bottom'),
    body,
    terminals,
    ways: card.ways.flatMap((way) => {
      const line = insideLine(way, room);
      return line === undefined ? [] : [{ way, ...line }];
    }),
    bars: card.bars.flatMap((bar) => {
      const points = bar.is === 'inside' ? insideLine(bar, room)?.points : outsideLine(bar, room);
      return points === undefined ? [] : [{ bar, points }];
    }),
  };
}

const isLevel = (side: CardSide) => side === 'top' || side === 'bottom';

/** Between what runs along a wall inside: room for words where ways do. */
const innerStepOf = (card: Card, lanes: CardLanes) => (card.ways.some((way) => lanes.inside.has(way)) ? 46 : 24);

function bodyDepth(card: Card, spots: readonly Spot[], lanes: CardLanes): number {
  const sides = new Map(spots.map(({ terminal, side }) => [terminal.name, side]));
  const deep = (side: CardSide) =>
    spots.some((spot) => spot.side === side) ? inset + lanes.inside.count(side) * innerStepOf(card, lanes) : 0;
  const passes = card.ways.some(({ from, to }) => sides.get(from) !== sides.get(to));
  const between = lanes.crossing.size > 0 ? switchDepth + 90 : passes || card.coil !== undefined ? 70 : 26;
  return deep('top') + deep('bottom') + between;
}

/** Cores side by side along the wall, the words of each beyond its lead. */
function placedTerminal({ terminal, side, blocks, more }: Spot, at: Point, out: number): PlacedTerminal {
  const level = isLevel(side);
  const total = blocks.reduce((sum, block) => sum + (level ? block.width : block.height) + gap, -gap);
  let along = -total / 2;
  const cores = blocks.map(({ core, lines, width, height }): PlacedCore => {
    const own = level ? width : height;
    const middle = along + own / 2;
    along += own + gap;
    const end = level
      ? { x: at.x + middle, y: at.y - inward[side].y * out }
      : { x: at.x - inward[side].x * out, y: at.y + middle };
    const words = {
      top: { x: end.x - width / 2, y: end.y - height - 3 },
      bottom: { x: end.x - width / 2, y: end.y + 3 },
      left: { x: end.x - width - 5, y: end.y - height / 2 },
      right: { x: end.x + 5, y: end.y - height / 2 },
    }[side];
    return { core, end, words, width, lines };
  });
  return { terminal, side, at, cores, more, clear: out - lead };
}

interface Room {
  readonly innerStep: number;
  readonly terminals: ReadonlyMap<string, PlacedTerminal>;
  readonly lanes: CardLanes;
  readonly body: CardLayout['body'];
}

const from = ({ at, side }: PlacedTerminal, depth: number): Point => ({
  x: at.x + inward[side].x * depth,
  y: at.y + inward[side].y * depth,
});

/** Between two terminals through the body, from number to number. */
function insideLine(of: CardWay | CardBar, { terminals, lanes, innerStep }: Room): Omit<PlacedWay, 'way'> | undefined {
  const [one, other] = [terminals.get(of.from), terminals.get(of.to)];
  if (one === undefined || other === undefined) return undefined;
  const [start, end] = [from(one, inset), from(other, inset)];
  const direct = { own: 0, crosses: false };
  if (one.side === other.side) {
    const depth = inset + 12 + lanes.inside.lane(of, one.side) * innerStep;
    const [begin, corner] = [from(one, depth), from(other, depth)];
    return { ...direct, points: [start, begin, nextTo(one, other, terminals, begin), corner, end], own: 1 };
  }
  if (isLevel(one.side) !== isLevel(other.side)) {
    // A board’s feed runs down its middle, and each way leaves it at the height of its own terminal.
    const corner = isLevel(one.side) ? { x: start.x, y: end.y } : { x: end.x, y: start.y };
    return { ...direct, points: [start, corner, end], own: Number(isLevel(one.side)) };
  }
  // Beyond whatever runs along either wall.
  const begin = from(one, inset + lanes.inside.count(one.side) * innerStep);
  const beside = lanes.inside.count(other.side) * innerStep;
  if (!lanes.crossing.has(of))
    return { points: [start, begin, from(other, inset + beside), end], own: 1, crosses: false };
  const opened = from(one, inset + lanes.inside.count(one.side) * innerStep + switchDepth);
  return { points: [start, begin, opened, from(other, inset + beside + 16), end], own: 1, crosses: true };
}

/** Along the way from one terminal to another on its wall, as far as the nearest between them: no other way comes in before. */
function nextTo(one: PlacedTerminal, other: PlacedTerminal, all: Room['terminals'], begin: Point): Point {
  const level = isLevel(one.side);
  const along = (placed: PlacedTerminal) => (level ? placed.at.x - one.at.x : placed.at.y - one.at.y);
  const way = along(other);
  const steps = [...all.values()]
    .filter(({ side }) => side === one.side)
    .map(along)
    .filter((step) => step * way > 0 && Math.abs(step) <= Math.abs(way));
  const step = steps.reduce((least, next) => (Math.abs(next) < Math.abs(least) ? next : least), way);
  return level ? { x: begin.x + step, y: begin.y } : { x: begin.x, y: begin.y + step };
}

/** A bar from terminal to terminal in front of the wall, or round the end of the part. */
function outsideLine(bar: CardBar, { terminals, lanes, body }: Room): Point[] | undefined {
  const [one, other] = [terminals.get(bar.from), terminals.get(bar.to)];
  if (one === undefined || other === undefined) return undefined;
  const away = (placed: PlacedTerminal) => from(placed, -(firstLane + lanes.outside.lane(bar, placed.side) * laneStep));
  if (one.side === other.side) return [one.at, away(one), away(other), other.at];
  const by = lanes.round.get(bar);
  if (by === undefined) return [one.at, other.at];
  const nth = [...lanes.round.keys()].indexOf(bar);
  const x = by === 'left' ? body.x - 14 - nth * laneStep : body.x + body.width + 14 + nth * laneStep;
  return [one.at, away(one), { x, y: away(one).y }, { x, y: away(other).y }, away(other), other.at];
}
