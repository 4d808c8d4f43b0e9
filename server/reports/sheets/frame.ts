/** The frame of a page and its title block, which stands at the foot as on any working drawing. */
import { caution } from '../caution.ts';
import { shortened, textWidth, typeface, wrapped } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import { type Page, unitsOf } from './paper.ts';
import { checkedWords, type Sheet, type SheetFacts } from './sheet.ts';

const ink = '#1d2021';
const quiet = '#4d5255';

/** Printers reach no nearer to the edge, and a punch needs some room. */
export const margin = unitsOf(12);
const blockHeight = 54;
const inner = 10;

/** Where on a page a drawing may stand. */
export interface Field {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function fieldOf({ width, height }: Page): Field {
  return {
    x: margin + inner,
    y: margin + inner,
    width: width - 2 * (margin + inner),
    height: height - 2 * (margin + inner) - blockHeight,
  };
}

export interface PageWords {
  readonly facts: SheetFacts;
  /** `wiring diagram, case night`. */
  readonly shows: string;
  readonly number: number;
  readonly of: number;
}

export function framed(page: Page, words: PageWords, inside: readonly Xml[]): Sheet {
  const { width, height } = page;
  const { xml } = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${Math.round(width * 100) / 100} ${Math.round(height * 100) / 100}`,
      'font-family': typeface,
    },
    element('title', {}, text(`${words.facts.title}, ${words.shows}, page ${words.number} of ${words.of}`)),
    element('rect', { width, height, fill: '#ffffff' }),
    inside,
    element('rect', {
      x: margin,
      y: margin,
      width: width - 2 * margin,
      height: height - 2 * margin,
      fill: 'none',
      stroke: ink,
      'stroke-width': 1.6,
    }),
    titleBlock(page, words),
  );
  return { width, height, svg: xml };
}

interface Cell {
  /** Share of the block’s width. */
  readonly share: number;
  readonly lines: readonly { readonly words: string; readonly size: number; readonly bold?: boolean }[];
}

function titleBlock({ width, height }: Page, { facts, shows, number, of }: PageWords): Xml[] {
  const left = margin;
  const full = width - 2 * margin;
  const top = height - margin - blockHeight;
  const cells: Cell[] = [
    {
      share: 0.37,
      lines: [
        { words: facts.title, size: 13, bold: true },
        { words: facts.file, size: 9 },
      ],
    },
    {
      share: 0.25,
      lines: [
        { words: shows, size: 10, bold: true },
        { words: checkedWords(facts.findings), size: 9 },
      ],
    },
    {
      share: 0.22,
      lines: [
        { words: facts.date, size: 10 },
        { words: facts.revision === undefined ? 'no revision' : `revision ${facts.revision}`, size: 9 },
      ],
    },
    { share: 0.16, lines: [{ words: `page ${number} of ${of}`, size: 11, bold: true }] },
  ];
  let x = left;
  const cellHeight = blockHeight - 16;
  return [
    line(left, top, left + full, top),
    line(left, top + cellHeight, left + full, top + cellHeight),
    ...cells.flatMap(({ share, lines }, index) => {
      const start = x;
      const room = full * share;
      x += room;
      return [
        ...(index === 0 ? [] : [line(start, top, start, top + cellHeight)]),
        ...fittedLines(lines, room - 12).map(({ words, size, bold, y, colour }) =>
          element(
            'text',
            {
              x: start + 6,
              y: top + y,
              'font-size': size,
              'font-weight': bold ? 'bold' : undefined,
              fill: colour,
            },
            text(words),
          ),
        ),
      ];
    }),
    element(
      'text',
      { x: left + 6, y: top + cellHeight + 11, 'font-size': fitting(caution, full - 12, 8.5), fill: ink },
      text(caution),
    ),
  ];
}

interface FittedLine {
  readonly words: string;
  readonly size: number;
  readonly bold: boolean;
  readonly y: number;
  readonly colour: string;
}

/** Words that are too wide even in smaller letters go on two lines, above what stands below them. */
function fittedLines(lines: Cell['lines'], room: number): FittedLine[] {
  const [first, ...below] = lines;
  if (first === undefined) return [];
  const bold = first.bold === true;
  const size = fitting(first.words, room, first.size, bold);
  const weight = bold ? 'bold' : 'regular';
  const fitted = (words: string, own: number, y: number, isFirst: boolean): FittedLine => {
    const isBold = isFirst && bold;
    const as = fitting(words, room, own, isBold);
    return {
      words: shortened(words, room, as, isBold ? 'bold' : 'regular'),
      size: as,
      bold: isBold,
      y,
      colour: isFirst ? ink : quiet,
    };
  };
  if (below.length === 0) return [fitted(first.words, first.size, 24, true)];
  if (textWidth(first.words, size, weight) <= room)
    return [
      fitted(first.words, first.size, 16, true),
      ...below.map((one, i) => fitted(one.words, one.size, 31 + i * 15, false)),
    ];
  const small = first.size * leastShare;
  const [upper = '', ...rest] = wrapped(first.words, room, small, weight);
  return [
    fitted(upper, small, 11, true),
    fitted(rest.join(' '), small, 22, true),
    ...below.map((one, i) => fitted(one.words, one.size, 33 + i * 15, false)),
  ];
}

/** Smaller letters than this share of the usual are hard to read at arm’s length. */
const leastShare = 0.72;

/** Somewhat smaller letters rather than fewer. */
function fitting(words: string, width: number, size: number, bold?: boolean): number {
  const wide = textWidth(words, size, bold ? 'bold' : 'regular');
  return wide <= width ? size : Math.max(size * leastShare, (size * width) / wide);
}

export function line(x1: number, y1: number, x2: number, y2: number, dashes?: string): Xml {
  return element('path', {
    d: `M${round(x1)} ${round(y1)}L${round(x2)} ${round(y2)}`,
    stroke: ink,
    'stroke-width': dashes === undefined ? 1 : 0.7,
    'stroke-dasharray': dashes,
    fill: 'none',
  });
}

const round = (value: number) => Math.round(value * 100) / 100;
