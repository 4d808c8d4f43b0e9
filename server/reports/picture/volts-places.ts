/**
 * Where the volts of a case stand: beside each terminal, over no other words and no part, and over another core only where there
 * is no better room. Plus and minus at the ends of cores give way to them, since the line tells polarity too; volts that find no
 * room are left out, and told when asked.
 */
import { volts } from '../figures.ts';
import { areasOf } from './areas.ts';
import { withCurrent } from './current-at.ts';
import { overlaps, pieceBox, piecesOf } from './polyline.ts';
import { grown, Room } from './room.ts';
import type {
  Box,
  DrawnCore,
  DrawnElement,
  DrawnMark,
  DrawnPart,
  DrawnTerminal,
  DrawnText,
  Look,
  PictureFigures,
  Point,
} from './scene.ts';
import { isBar } from './symbols/bars.ts';
import { textWidth } from './text-width.ts';

export interface VoltsText extends Omit<DrawnText, 'role'> {
  /** From the terminal to the end of the words. */
  readonly reach: Box;
}

export interface VoltsPlaces {
  /** By `part:…`. */
  readonly volts: ReadonlyMap<string, readonly VoltsText[]>;
  /** Signs that are still free, by `core:…`. */
  readonly signs: ReadonlyMap<string, readonly DrawnText[]>;
}

export const noVolts: VoltsPlaces = { volts: new Map(), signs: new Map() };

/** Height of the letters, and what figures and capitals reach above their line. */
export const voltsLetters = 8;
const rise = voltsLetters * 0.76;
/** Over the middle of the wire, and from it down to the letters under it. */
const over = 4;
const under = over + rise;
/** Past the words of a wire. */
const storey = 9.5;

/** What is on the sheet: words, parts and walls, which nothing may cover, and cores. */
interface Taken {
  readonly solid: Room;
  readonly lines: Room;
}

export function voltsPlaces(
  elements: Iterable<DrawnElement>,
  marks: readonly Pick<DrawnMark, 'at'>[],
  look: Look,
): VoltsPlaces {
  const { figures } = look;
  if (figures === undefined || figures.trouble !== undefined) return noVolts;
  const all = [...elements];
  const taken: Taken = { solid: new Room(), lines: new Room() };
  for (const element of all) take(taken, element, look);
  for (const { at } of marks) taken.solid.add('mark', { x: at.x - 7, y: at.y - 7, width: 14, height: 14 });
  const cores = all.filter((one): one is DrawnCore => one.is === 'core');
  const parts = all.filter((one): one is DrawnPart => one.is === 'part');
  const joined = new Set(cores.flatMap(({ from, to }) => [from, to]));
  const wanted = parts.flatMap((part) => wantedOn(part, joined, figures));
  const placed = new Map<Wanted, VoltsText>();
  // Who has good room takes it before any other has to make do.
  for (const isRoom of [isClear, isReadable])
    for (const one of wanted) {
      if (placed.has(one)) continue;
      const found = one.candidates.find((candidate) => isRoom(candidate, taken));
      if (found === undefined) continue;
      taken.solid.add(one.terminal, found.box);
      placed.set(one, found);
    }
  const texts = [...placed.values()];
  return {
    volts: byPart(placed),
    signs: new Map(
      cores.map(({ id, signs }) => [id, signs.filter(({ box }) => !texts.some((one) => overlaps(one.box, box)))]),
    ),
  };
}

function byPart(placed: ReadonlyMap<Wanted, VoltsText>): Map<string, VoltsText[]> {
  const all = new Map<string, VoltsText[]>();
  for (const [{ part }, text] of placed) all.set(part, [...(all.get(part) ?? []), text]);
  return all;
}

/** With nothing between it and its terminal either. */
const isClear = ({ box, reach }: VoltsText, { solid, lines }: Taken): boolean =>
  solid.isFree(grown(box, 4, 0)) && lines.isFree(reach);

const isReadable = ({ box }: VoltsText, { solid }: Taken): boolean => solid.isFree(grown(box, 2, 0));

function take({ solid, lines }: Taken, element: DrawnElement, look: Look): void {
  const { id } = element;
  switch (element.is) {
    case 'part':
      for (const box of areasOf(element)) solid.add(id, box);
      return;
    case 'core':
      for (const { box } of withCurrent(element, look).label.lines) solid.add(id, box);
      for (const piece of piecesOf(element.points)) lines.add(id, pieceBox(piece, 5));
      return;
    case 'passage':
      solid.add(id, { x: element.point.x - 6, y: element.point.y - 6, width: 12, height: 12 });
      if (element.text !== undefined) solid.add(id, element.text.box);
      return;
    default:
      for (const { box } of element.texts) solid.add(id, box);
      for (const wall of wallsOf(element.box)) solid.add(id, wall);
  }
}

function wallsOf({ x, y, width, height }: Box): Box[] {
  const thick = 3;
  const half = thick / 2;
  return [
    { x: x - half, y: y - half, width: width + thick, height: thick },
    { x: x - half, y: y + height - half, width: width + thick, height: thick },
    { x: x - half, y: y - half, width: thick, height: height + thick },
    { x: x + width - half, y: y - half, width: thick, height: height + thick },
  ];
}

interface Wanted {
  readonly part: string;
  readonly terminal: string;
  readonly candidates: readonly VoltsText[];
}

/** At terminals that a core is on: what hangs free has no volts that a meter would show. One text does for a bar. */
function wantedOn(part: DrawnPart, joined: ReadonlySet<string>, { terminals }: PictureFigures): Wanted[] {
  const bar = isBar(part.symbol);
  const said = new Set<string>();
  return part.terminals.flatMap((terminal) => {
    const known = terminals.get(terminal.id);
    if (known === undefined || !joined.has(terminal.terminal)) return [];
    const text = volts(known);
    if (bar && said.has(text)) return [];
    said.add(text);
    const candidates = [...(bar ? besideBar(text, terminal) : besideTerminal(text, terminal))];
    return { part: part.id, terminal: terminal.id, candidates };
  });
}

/** So far from the terminal, to its left or right. */
function beside(text: string, { x }: Point, y: number, side: 'left' | 'right', away: number): VoltsText {
  const width = textWidth(text, voltsLetters);
  const start = x + away;
  const left = side === 'right' ? start : x - away - width;
  return {
    text,
    at: { x: side === 'right' ? start : x - away, y },
    anchor: side === 'right' ? 'start' : 'end',
    box: { x: left, y: y - rise, width, height: rise },
    reach: { x: side === 'right' ? x : left, y: y - rise, width: width + away, height: rise },
  };
}

/** Outside of the part, over its wire or under it; else past the words of the wire, right over or under the terminal. */
function* besideTerminal(text: string, { side, point, end }: DrawnTerminal): Generator<VoltsText> {
  const [top, bottom] = [Math.min(point.y, end.y), Math.max(point.y, end.y)];
  const outside = side === 'left' ? 'left' : 'right';
  for (const away of [2, 5, 8])
    for (const y of [top - over, bottom + under]) yield beside(text, point, y, outside, away);
  for (const away of [-12, -6, 2])
    for (const y of [top - over - storey, bottom + under + storey]) yield beside(text, point, y, outside, away);
}

/** On either side of it, from the top down. */
function* besideBar(text: string, { point, end }: DrawnTerminal): Generator<VoltsText> {
  const [top, bottom] = [Math.min(point.y, end.y), Math.max(point.y, end.y)];
  for (let y = top - over; y <= bottom + under + 8; y += 3)
    for (const side of ['left', 'right'] as const) yield beside(text, point, y, side, 15);
}
