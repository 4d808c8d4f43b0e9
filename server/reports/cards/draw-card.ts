/** A card as SVG: text that can be selected, no script, no style sheet, nothing from elsewhere. */
import { textWidth, typeface, wrapped } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import type { BeepState, Card } from './card.ts';
import { layOutCard, mostCores } from './card-layout.ts';
import { type CardColours, type CardPalette, cardPalettes } from './colours.ts';
import { drawBars, drawTerminals } from './draw-terminals.ts';
import { drawInside } from './draw-ways.ts';
import { letter, lineHeight } from './lines.ts';
import { coreWords, groupWords } from './words.ts';

export interface CardLook {
  readonly colours: CardColours;
  /** `small` is the face and its cores alone, for where the rest is said in words beside it. */
  readonly size: 'full' | 'small';
}

export interface DrawnCard {
  readonly width: number;
  readonly height: number;
  /** To be put into a drawing at its own origin. */
  readonly group: Xml;
}

/** Room for the words below; with two terminals there are few. */
const leastWidth = ({ terminals }: Card) => (terminals.length > 2 ? 360 : 250);

/** Letters of 9 on the screen: the least that is read at a glance. */
const smallScale = 0.82;

export function drawCard(card: Card, look: CardLook): string {
  const { width, height, group } = drawnCard(card, look);
  const scale = look.size === 'small' ? smallScale : 1;
  const { xml } = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: Math.round(width * scale),
      height: Math.round(height * scale),
      viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`,
      role: 'img',
      'aria-label': card.spoken,
    },
    group,
  );
  return xml;
}

export function drawnCard(card: Card, { colours, size }: CardLook): DrawnCard {
  const palette = cardPalettes[colours];
  const layout = layOutCard(card);
  const small = size === 'small';
  const pad = small ? 8 : 16;
  const width = Math.ceil(Math.max(layout.width, small ? 0 : leastWidth(card))) + 2 * pad;
  const inner = width - 2 * pad;
  const head = small ? nothing : drawHead(card, inner, palette);
  const below = small ? nothing : drawBelow(card, inner, palette);
  const top = pad + head.height;
  const under = top + layout.height + 12;
  const height = Math.ceil(small ? top + layout.height + pad : under + below.height + pad);
  const aside = Math.max(0, (inner - layout.width) / 2);
  const group = element(
    'g',
    { 'font-family': typeface, 'data-part': card.part },
    element('rect', {
      x: 0.5,
      y: 0.5,
      width: width - 1,
      height: height - 1,
      rx: 6,
      fill: palette.paper,
      stroke: palette.ink,
    }),
    moved(pad, pad, head.group),
    moved(pad + aside, top, [
      element('rect', {
        ...layout.body,
        rx: 8,
        fill: palette.body,
        stroke: palette.ink,
        'stroke-width': 1.6,
      }),
      drawInside(card, layout, palette),
      ...drawBars(layout.bars, palette),
      ...drawTerminals(layout, palette),
    ]),
    below.group.length === 0 ? [] : [moved(pad, under, below.group)],
  );
  return { width, height, group };
}

function moved(x: number, y: number, inside: readonly Xml[]): Xml {
  return element('g', { transform: `translate(${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10})` }, inside);
}

/** What a small card leaves out. */
const nothing: Piece = { height: 0, group: [] };

interface Piece {
  readonly height: number;
  readonly group: readonly Xml[];
}

interface Words {
  readonly words: string;
  readonly x?: number;
  readonly bold?: boolean;
  readonly quiet?: boolean;
}

function drawWords({ words, x = 0, bold, quiet }: Words, y: number, palette: CardPalette): Xml {
  return element(
    'text',
    {
      x,
      y,
      'font-size': letter,
      'font-weight': bold ? 'bold' : undefined,
      fill: quiet ? palette.quiet : palette.ink,
    },
    text(words),
  );
}

function drawHead(card: Card, width: number, palette: CardPalette): Piece {
  const named = 18;
  const title = card.title === undefined ? '' : `“${card.title}”`;
  const nameWidth = textWidth(card.part, named, 'bold') + 10;
  const fits = nameWidth + textWidth(title, 13) <= width;
  const facts = [card.kindWord, ...card.ratings].join(', ');
  const lines = [
    ...(fits || title === '' ? [] : wrapped(title, width, letter)),
    ...wrapped(facts, width, letter),
    ...wrapped(card.where, width, letter),
  ];
  return {
    height: 32 + lines.length * lineHeight,
    group: [
      element('text', { x: 0, y: 15, 'font-size': named, 'font-weight': 'bold', fill: palette.ink }, text(card.part)),
      ...(fits && title !== ''
        ? [element('text', { x: nameWidth, y: 15, 'font-size': 13, fill: palette.ink }, text(title))]
        : []),
      ...lines.map((words, index) => drawWords({ words }, 32 + index * lineHeight, palette)),
    ],
  };
}

/** Continuity, notes and caution, each in as many lines as it needs. */
function drawBelow(card: Card, width: number, palette: CardPalette): Piece {
  const lines = [...beepLines(card, width), ...noteLines(card, width)];
  const caution = wrapped(card.caution, width - 50, letter, 'bold');
  const boxTop = lines.length * lineHeight + 6;
  const boxHeight = Math.max(28, caution.length * lineHeight + 12);
  const middle = boxTop + boxHeight / 2;
  return {
    height: boxTop + boxHeight,
    group: [
      ...lines.flatMap((row, index) => row.map((words) => drawWords(words, index * lineHeight + 11, palette))),
      element('rect', { x: 0, y: boxTop, width, height: boxHeight, fill: palette.warning, stroke: palette.ink }),
      element('path', {
        d: `M22 ${middle - 9}L32 ${middle + 8}L12 ${middle + 8}Z`,
        fill: 'none',
        stroke: palette.ink,
        'stroke-width': 1.8,
        'stroke-linejoin': 'round',
      }),
      element(
        'text',
        {
          x: 22,
          y: middle + 6,
          'text-anchor': 'middle',
          'font-size': letter,
          'font-weight': 'bold',
          fill: palette.ink,
        },
        text('!'),
      ),
      ...caution.map((words, index) =>
        drawWords(
          { words, x: 42, bold: true },
          boxTop + (boxHeight - caution.length * lineHeight) / 2 + index * lineHeight + 11,
          palette,
        ),
      ),
    ],
  };
}

const beepColumn = 92;

function beepLines(card: Card, width: number): Words[][] {
  const bars = card.bars.some(({ is }) => is === 'link') ? ', bars on' : '';
  const rows = card.beeps.flatMap((state) => beepRow(state, width));
  const last = card.beeps.at(-1);
  const also = (last?.also ?? []).map(({ from, to, over }) => `${from}–${to} through ${over}`);
  const alsoLines =
    also.length === 0
      ? []
      : wrapped(
          `With the cores on these may beep too${last?.when === '' ? '' : ', whatever its position'}: ${also.join('; ')}.`,
          width,
          letter,
        );
  const links = card.bars.filter(({ is }) => is === 'link').map(({ from, to }) => `${from}–${to}`);
  const barLines =
    links.length === 0
      ? []
      : [
          ...wrapped(`Solid ${links.length === 1 ? 'bar' : 'bars'}: ${links.join(', ')}.`, width, letter).map(
            (words) => [{ words }],
          ),
          [],
        ];
  if (rows.length + card.beepNotes.length === 0) return barLines;
  return [
    ...barLines,
    [{ words: `${card.coil === undefined ? 'Dead test, cores' : 'Cores'} off${bars}: what beeps`, bold: true }],
    ...rows,
    ...[...card.beepNotes.flatMap((note) => wrapped(note, width, letter)), ...alsoLines].map((words) => [{ words }]),
    [],
  ];
}

function beepRow({ when, groups }: BeepState, width: number): Words[][] {
  const column = when === '' ? 0 : beepColumn;
  const words =
    groups.length === 0 ? 'nothing' : groups.map((group) => groupWords(group).replaceAll(' ', '\u00a0')).join('; ');
  return wrapped(words, width - column, letter).map((line, index) => [
    ...(index === 0 && when !== '' ? [{ words: when, bold: true }] : []),
    { words: line, x: column },
  ]);
}

function noteLines(card: Card, width: number): Words[][] {
  const drawn = new Set(card.spots.map(({ terminal }) => terminal));
  const besides = card.terminals.flatMap(({ name, cores }) => {
    const left = drawn.has(name) ? cores.slice(mostCores) : cores;
    return left.length === 0
      ? []
      : [`On ${name}${left.length < cores.length ? ' also' : ''}: ${left.map(coreWords).join('; ')}.`];
  });
  const notes = [...card.notes, ...besides];
  return notes.length === 0
    ? []
    : [...notes.flatMap((note) => wrapped(note, width, letter)).map((words) => [{ words, quiet: true }]), []];
}
