/** Screws, the leads of cores in their insulation’s colour, bars, and the words beside them. */
import { shortened, textWidth } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import type { CardCore } from './card.ts';
import {
  type CardLayout,
  emptyAway,
  emptyWord,
  type PlacedBar,
  type PlacedCore,
  type PlacedTerminal,
  type Point,
} from './card-layout.ts';
import type { CardPalette } from './colours.ts';
import { pathOf, polyline } from './draw-ways.ts';
import { type CoreLine, letter, lineHeight, swatchRoom } from './lines.ts';

const screw = 11;

export function drawBars(bars: readonly PlacedBar[], palette: CardPalette): Xml[] {
  return bars
    .filter(({ bar }) => bar.is === 'link')
    .map(({ bar, points }) =>
      element(
        'g',
        { 'data-bar': `${bar.from}-${bar.to}` },
        element('title', {}, text(`bar ${bar.from}–${bar.to}`)),
        polyline(points, { fill: 'none', stroke: palette.ink, 'stroke-width': 10 }),
        polyline(points, { fill: 'none', stroke: palette.metal, 'stroke-width': 7 }),
        polyline(points, { fill: 'none', stroke: palette.ink, 'stroke-width': 1, 'stroke-dasharray': '2 3' }),
      ),
    );
}

/** The lead of a core: outlined, so that white and black insulation both show; a second colour is a broken stripe on it. */
function drawLead(core: CardCore, points: readonly Point[], palette: CardPalette): Xml[] {
  const line = (stroke: string, width: number, dashes?: string) =>
    element('path', {
      d: pathOf(points),
      fill: 'none',
      stroke,
      'stroke-width': width,
      'stroke-linejoin': 'round',
      'stroke-dasharray': dashes,
    });
  const [first, second] = core.shades;
  return [
    line(palette.paper, 11),
    line(palette.ink, 8),
    line(first ?? palette.paper, 5.4),
    ...(second === undefined ? [] : [line(second, 5.4, '6 6')]),
    ...(first === undefined ? [line(palette.ink, 5.4, '1 5')] : []),
  ];
}

function swatch(core: CardCore, at: Point, palette: CardPalette): Xml[] {
  const [first, second] = core.shades;
  const box = { x: at.x, y: at.y - 8.5, width: 10, height: 9 };
  return [
    element('rect', { ...box, fill: first ?? palette.paper, stroke: palette.ink, 'stroke-width': 1 }),
    ...(second === undefined
      ? []
      : [
          element('rect', {
            x: box.x + 5,
            y: box.y,
            width: 5,
            height: 9,
            fill: second,
            stroke: palette.ink,
            'stroke-width': 1,
          }),
        ]),
  ];
}

export function drawTerminals(layout: CardLayout, palette: CardPalette): Xml[] {
  return [
    ...layout.terminals.flatMap((placed) =>
      placed.cores.flatMap((core) => drawLead(core.core, leadOf(placed, core), palette)),
    ),
    ...layout.terminals.map((placed) => drawTerminal(placed, palette)),
  ];
}

/** From where its words stand straight to before the terminal, then to the screw. */
function leadOf({ at, side }: PlacedTerminal, { end }: PlacedCore): Point[] {
  const knee = 16;
  const before =
    side === 'top'
      ? { x: end.x, y: at.y - knee }
      : side === 'bottom'
        ? { x: end.x, y: at.y + knee }
        : { x: at.x + (side === 'left' ? -knee : knee), y: end.y };
  return [end, before, at];
}

function drawTerminal(placed: PlacedTerminal, palette: CardPalette): Xml {
  const { terminal, side, at, cores, more, clear } = placed;
  const out = { top: { x: 0, y: -1 }, bottom: { x: 0, y: 1 }, left: { x: -1, y: 0 }, right: { x: 1, y: 0 } }[side];
  const inward = { x: at.x - out.x * 27, y: at.y - out.y * 27 + 5.5 };
  const past = clear === 0 ? 0 : clear + 6;
  const beyond = {
    x: at.x + out.x * (emptyAway + past),
    y: at.y + (out.y === 0 ? 4 : out.y > 0 ? 28 + past : -18 - past),
  };
  const anchor = side === 'left' ? 'end' : side === 'right' ? 'start' : 'middle';
  return element(
    'g',
    { 'data-terminal': terminal.id },
    element('title', {}, text(`${terminal.id}: ${terminal.meaning}`)),
    element('circle', {
      cx: at.x,
      cy: at.y,
      r: screw,
      fill: terminal.empty ? palette.paper : palette.metal,
      stroke: palette.ink,
      'stroke-width': 2,
      'stroke-dasharray': terminal.empty ? '4 3' : undefined,
    }),
    terminal.empty
      ? []
      : [
          polyline(
            [
              { x: at.x - 6, y: at.y + 5 },
              { x: at.x + 6, y: at.y - 5 },
            ],
            {
              stroke: palette.ink,
              'stroke-width': 2.4,
            },
          ),
        ],
    element(
      'text',
      {
        ...inward,
        'text-anchor': 'middle',
        'font-size': numberSize(terminal.name),
        'font-weight': 'bold',
        fill: palette.ink,
      },
      text(shortened(terminal.name, 62, numberSize(terminal.name), 'bold')),
    ),
    terminal.empty
      ? [
          element(
            'text',
            { ...beyond, 'text-anchor': anchor, 'font-size': letter, fill: palette.quiet },
            text(emptyWord),
          ),
        ]
      : [],
    cores.map((core) => drawWords(core, side, palette)),
    more > 0 ? [moreWords(placed, palette)] : [],
  );
}

const numberSize = (name: string) => (name.length <= 3 ? 16 : name.length <= 5 ? 13 : 11);

function drawWords({ core, words, width, lines }: PlacedCore, side: PlacedTerminal['side'], palette: CardPalette): Xml {
  const anchor = side === 'left' ? 'end' : side === 'right' ? 'start' : 'middle';
  const x = side === 'left' ? words.x + width : side === 'right' ? words.x : words.x + width / 2;
  return element(
    'g',
    { 'data-run': core.run },
    lines.flatMap((line, index) => {
      const y = words.y + (index + 1) * lineHeight - 3.5;
      const start = line.swatch ? swatchStart(x, anchor, line) : x;
      return [
        ...(line.swatch ? swatch(core, { x: start, y }, palette) : []),
        element(
          'text',
          {
            x: line.swatch ? start + swatchRoom : x,
            y,
            'text-anchor': line.swatch || anchor === 'start' ? undefined : anchor,
            'font-size': line.size,
            'font-weight': line.bold ? 'bold' : undefined,
            fill: line.size < letter ? palette.quiet : palette.ink,
          },
          text(line.words),
        ),
      ];
    }),
  );
}

function swatchStart(x: number, anchor: 'start' | 'middle' | 'end', { words, size }: CoreLine): number {
  const width = swatchRoom + textWidth(words, size);
  return anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
}

function moreWords({ side, at, cores, more }: PlacedTerminal, palette: CardPalette): Xml {
  const last = cores.at(-1);
  const level = side === 'top' || side === 'bottom';
  const place = level
    ? { x: (last?.words.x ?? at.x) + (last?.width ?? 0) + 10, y: (last?.words.y ?? at.y) + lineHeight }
    : { x: last?.words.x ?? at.x, y: (last?.words.y ?? at.y) + (last?.lines.length ?? 0) * lineHeight + lineHeight };
  return element(
    'text',
    { ...place, 'font-size': letter, fill: palette.ink, 'text-anchor': 'start' },
    text(`and ${more} more`),
  );
}
