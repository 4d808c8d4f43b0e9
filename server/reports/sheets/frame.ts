/** The frame of a page and its title block, which stands at the foot as on any working drawing. */
import { caution } from '../caution.ts';
import { shortened, textWidth, typeface } from '../letters.ts';
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
        ...lines.map(({ words, size, bold }, row) =>
          element(
            'text',
            {
              x: start + 6,
              y: top + (lines.length === 1 ? 24 : 16 + row * 15),
              'font-size': fitting(words, room - 12, size, bold),
              'font-weight': bold ? 'bold' : undefined,
              fill: row === 0 ? ink : quiet,
            },
            text(shortened(words, room - 12, fitting(words, room - 12, size, bold), bold ? 'bold' : 'regular')),
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

/** Somewhat smaller letters rather than fewer. */
function fitting(words: string, width: number, size: number, bold?: boolean): number {
  const wide = textWidth(words, size, bold ? 'bold' : 'regular');
  return wide <= width ? size : Math.max(size * 0.72, (size * width) / wide);
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
