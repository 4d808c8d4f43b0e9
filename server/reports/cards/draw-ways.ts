/** What is inside a part on its card: contacts, fuses, a coil, conductors joined by its making. */
import { element, text, type Xml } from '../xml.ts';
import type { Card, CardWay } from './card.ts';
import { type CardLayout, inset, type PlacedWay, type Point } from './card-layout.ts';
import type { CardPalette } from './colours.ts';
import { letter, levelWords, lineHeight, wayWords } from './lines.ts';

export function drawInside(card: Card, layout: CardLayout, palette: CardPalette): Xml {
  const inside = layout.bars.filter(({ bar }) => bar.is === 'inside');
  return element(
    'g',
    { fill: 'none', stroke: palette.ink, 'stroke-width': 2 },
    inside.map(({ points }) => polyline(points, { 'stroke-width': 2 })),
    coil(card, layout, palette),
    inOrder(layout.ways).flatMap((placed) => drawWay(card, placed, palette)),
    // Over all lines, so that none strikes them through.
    layout.ways.flatMap((placed) => wayLabels(placed, palette)),
    inside.length === 0 ? [] : insideLabel(inside.at(-1)?.points ?? [], palette),
  );
}

/** Those not in use first, so that the others lie on top where they cross. */
function inOrder(ways: readonly PlacedWay[]): PlacedWay[] {
  return [...ways].sort((a, b) => Number(b.way.use === 'unused') - Number(a.way.use === 'unused'));
}

function insideLabel(points: readonly Point[], palette: CardPalette): Xml {
  const [from, to] = [points[1], points.at(-2)];
  const x = ((from?.x ?? 0) + (to?.x ?? 0)) / 2;
  return label({ x, y: (from?.y ?? 0) - 6 }, ['joined inside'], 'middle', palette, palette.body);
}

export function polyline(points: readonly Point[], attributes: Readonly<Record<string, string | number>>): Xml {
  return element('path', { d: pathOf(points), 'stroke-linejoin': 'round', ...attributes });
}

export function pathOf(points: readonly Point[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
}

const short = (value: number) => String(Math.round(value * 10) / 10);

/** Words beside a line, with the ground behind them so that nothing strikes them through. */
export function label(
  at: Point,
  lines: readonly string[],
  anchor: 'start' | 'middle' | 'end',
  palette: CardPalette,
  ground: string,
): Xml {
  return element(
    'g',
    { 'text-anchor': anchor, 'font-size': letter },
    lines.flatMap((words, index) => {
      const place = { x: at.x, y: at.y + index * lineHeight };
      return [
        element(
          'text',
          { ...place, fill: 'none', stroke: ground, 'stroke-width': 3, 'aria-hidden': 'true' },
          text(words),
        ),
        element('text', { ...place, fill: palette.ink, stroke: 'none' }, text(words)),
      ];
    }),
  );
}

function drawWay(card: Card, placed: PlacedWay, palette: CardPalette): Xml[] {
  const { way, points, own, crosses } = placed;
  const [start, end] = [points[own], points[own + 1]];
  if (start === undefined || end === undefined) return [];
  const dashed: Readonly<Record<string, string | number>> = way.use === 'unused' ? { 'stroke-dasharray': '3 4' } : {};
  // A feed that several ways share is whole whatever one of them is.
  const before = points.slice(0, own + 1);
  const after = points.slice(own + 1);
  return [
    ...(before.length > 1 ? [polyline(before, points.length === 3 ? {} : dashed)] : []),
    ...(crosses ? [polyline(after, { stroke: palette.body, 'stroke-width': 7 })] : []),
    element('g', dashed, after.length > 1 ? [polyline(after, {})] : [], symbol(card, way, start, end, palette)),
  ];
}

function wayLabels({ way, points, own, crosses }: PlacedWay, palette: CardPalette): Xml[] {
  const [start, end] = [points[own], points[own + 1]];
  if (start === undefined || end === undefined) return [];
  const middle = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
  const write = (x: number, y: number, lines: readonly string[], anchor: 'start' | 'middle' | 'end') =>
    lines.join('') === '' ? [] : [label({ x, y }, lines, anchor, palette, palette.body)];
  if (Math.abs(start.y - end.y) < 1) {
    const [above, below] = levelWords(way);
    const between = points.length > 3;
    // Between two terminals of one wall the numbers stand on one side of the line, and the words on the other.
    const wall = between && (points[0]?.y ?? 0) < start.y ? 1 : -1;
    if (between)
      return write(
        middle.x,
        middle.y + (wall > 0 ? 28 : -20),
        [[above, below].filter((one) => one !== '').join(', ')],
        'middle',
      );
    return [...write(middle.x, middle.y - 10, [above], 'middle'), ...write(middle.x, middle.y + 18, [below], 'middle')];
  }
  const lines = wayWords(way);
  const aside = way.operated === 'coil-rest' ? -1 : 1;
  const top = middle.y + 4 - ((lines.length - 1) * lineHeight) / 2;
  const last = points.at(-1);
  return [
    ...write(middle.x + 10 * aside, top, lines, aside < 0 ? 'end' : 'start'),
    ...(crosses && last !== undefined
      ? write(last.x + 7, last.y + (last.y > end.y ? -1 : 9), [way.label], 'start')
      : []),
  ];
}

/** The part of a line with what opens or protects in it, after IEC 60617: blade, crossbar of an isolator, cross of a breaker. */
function symbol(card: Card, way: CardWay, start: Point, end: Point, palette: CardPalette): Xml[] {
  const length = Math.hypot(end.x - start.x, end.y - start.y) || 1;
  const along = { x: (end.x - start.x) / length, y: (end.y - start.y) / length };
  const at = (forward: number, aside = 0): Point => ({
    x: (start.x + end.x) / 2 + along.x * forward + along.y * aside,
    y: (start.y + end.y) / 2 + along.y * forward - along.x * aside,
  });
  const straight = polyline([start, end], {});
  switch (way.operated) {
    case 'hand':
      return [
        polyline([start, at(-15)], {}),
        polyline([at(15), end], {}),
        polyline([at(15), at(-14, along.y < 0 ? 13 : -13)], { 'stroke-width': 2.6 }),
        ...fixedContact(card, way, at),
      ];
    case 'fixed':
      return way.protects
        ? [
            straight,
            element('path', {
              d: `${pathOf([at(-13, 5), at(13, 5), at(13, -5), at(-13, -5)])}Z`,
              fill: palette.body,
              'stroke-width': 1.6,
            }),
            straight,
          ]
        : [straight];
    case 'coil':
      return [
        polyline([start, at(8)], { 'stroke-dasharray': '6 5', 'stroke-width': 1.6 }),
        polyline([at(8), end], {}),
        polyline([at(4, 5), at(8), at(4, -5)], { 'stroke-width': 1.6 }),
      ];
    case 'coil-rest':
      return [straight, polyline([at(10, 6), at(10, -6)], { 'stroke-width': 1.6 })];
    case 'position':
      return [
        polyline([start, at(-10)], {}),
        element('circle', { cx: at(-6).x, cy: at(-6).y, r: 4, fill: palette.body }),
        polyline([at(-2), end], { 'stroke-dasharray': '5 4' }),
      ];
    case 'diode':
      return [
        straight,
        element('path', { d: `${pathOf([at(-7, 7), at(7), at(-7, -7)])}Z`, fill: palette.body }),
        polyline([at(7, 7), at(7, -7)], {}),
      ];
  }
}

function fixedContact(card: Card, way: CardWay, at: (forward: number, aside?: number) => Point): Xml[] {
  if (way.protects)
    return [
      polyline([at(-19, 4), at(-11, -4)], { 'stroke-width': 1.6 }),
      polyline([at(-19, -4), at(-11, 4)], { 'stroke-width': 1.6 }),
    ];
  return card.kindWord === 'isolator' ? [polyline([at(-15, 6), at(-15, -6)], {})] : [];
}

function coil(card: Card, layout: CardLayout, palette: CardPalette): Xml[] {
  const ends = [card.coil?.from, card.coil?.to].map((name) =>
    layout.terminals.find(({ terminal }) => terminal.name === name),
  );
  const [from, to] = ends;
  if (from === undefined || to === undefined) return [];
  const middle = { x: (from.at.x + to.at.x) / 2, y: (from.at.y + to.at.y) / 2 };
  return [
    polyline(
      [
        { x: from.at.x, y: from.at.y + inset },
        { x: to.at.x, y: to.at.y - inset },
      ],
      {},
    ),
    element('rect', { x: middle.x - 17, y: middle.y - 10, width: 34, height: 20, fill: palette.body }),
    element(
      'text',
      { x: middle.x, y: middle.y + 4, 'text-anchor': 'middle', 'font-size': letter, fill: palette.ink, stroke: 'none' },
      text('coil'),
    ),
  ];
}
