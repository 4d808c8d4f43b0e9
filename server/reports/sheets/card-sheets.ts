/** Terminal cards on pages, in the order of the spec, and below a diagram where there are no pages. */

import type { Card } from '../cards/card.ts';
import { type DrawnCard, drawnCard } from '../cards/draw-card.ts';
import { element, type Xml } from '../xml.ts';
import { fieldOf, framed } from './frame.ts';
import { type Page, type Paper, pageOf } from './paper.ts';
import type { Numbering, Sheet, SheetFacts } from './sheet.ts';

/** On paper a card may be somewhat smaller than on the screen: its letters are 11 high, which gives 6.6 points. */
const usualScale = 0.8;
const gap = 12;

export interface PlacedCard {
  readonly card: DrawnCard;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

interface Shelf {
  readonly page: number;
  readonly y: number;
  height: number;
  /** Where the next card may stand. */
  x: number;
}

/** Each card on the first row that has room for it, so that small ones fill up beside large ones. */
export function shelves(
  cards: readonly DrawnCard[],
  room: { readonly width: number; readonly height: number },
  scale = usualScale,
): PlacedCard[][] {
  const pages: PlacedCard[][] = [];
  const rows: Shelf[] = [];
  for (const card of cards) {
    const own = Math.min(scale, room.width / card.width, room.height / card.height);
    const [width, height] = [card.width * own, card.height * own];
    const isLast = (row: Shelf) => !rows.some(({ page, y }) => page === row.page && y > row.y);
    const shelf = rows.find(
      (row) =>
        row.x + width <= room.width + slack &&
        (height <= row.height + slack || (isLast(row) && row.y + height <= room.height + slack)),
    );
    const row = shelf ?? newShelf(rows, pages, height, room.height);
    pages[row.page]?.push({ card, x: row.x, y: row.y, scale: own });
    row.x += width + gap;
    row.height = Math.max(row.height, height);
  }
  return pages;
}

/** For what is rounded. */
const slack = 0.01;

function newShelf(rows: Shelf[], pages: PlacedCard[][], height: number, most: number): Shelf {
  const under = rows.map((row) => ({ page: row.page, y: row.y + row.height + gap }));
  const free = pages
    .map((_, page) => ({ page, y: Math.max(0, ...under.filter((one) => one.page === page).map(({ y }) => y)) }))
    .find(({ y }) => y + height <= most + slack);
  if (free === undefined) pages.push([]);
  const shelf = { ...(free ?? { page: pages.length - 1, y: 0 }), x: 0, height: 0 };
  rows.push(shelf);
  return shelf;
}

export interface CardPages {
  readonly page: Page;
  readonly pages: readonly (readonly PlacedCard[])[];
}

export function cardPages(cards: readonly Card[], paper: Paper): CardPages {
  const drawn = cards.map((card) => drawnCard(card, { colours: 'print', size: 'full' }));
  const page = pageOf(paper, 'upright');
  return { page, pages: shelves(drawn, fieldOf(page)) };
}

export function cardSheets({ page, pages }: CardPages, facts: SheetFacts, { first, of }: Numbering): Sheet[] {
  const field = fieldOf(page);
  return pages.map((placed, index) =>
    framed(
      page,
      { facts, shows: 'terminal cards', number: first + index, of },
      placed.map((one) => drawnAt(one, field)),
    ),
  );
}

export function drawnAt({ card, x, y, scale }: PlacedCard, at: { readonly x: number; readonly y: number }): Xml {
  const place = [at.x + x, at.y + y].map((value) => Math.round(value * 100) / 100).join(' ');
  return element('g', { transform: `translate(${place}) scale(${Math.round(scale * 10000) / 10000})` }, card.group);
}
