/** A diagram and its cards as one picture, for a screen: no paper, no frame. */
import type { Card } from '../cards/card.ts';
import { drawnCard } from '../cards/draw-card.ts';
import { element, written } from '../xml.ts';
import { drawnAt, shelves } from './card-sheets.ts';
import type { Whole } from './sheet.ts';

const leastWidth = 1200;
const gap = 24;

/** The diagram as it is when there are no cards. */
export function onePicture(diagram: Whole, cards: readonly Card[]): Whole {
  if (cards.length === 0) return diagram;
  const drawn = cards.map((card) => drawnCard(card, { colours: 'print', size: 'full' }));
  const room = { width: Math.max(leastWidth, diagram.width), height: Number.MAX_SAFE_INTEGER };
  const placed = shelves(drawn, room, 1).flat();
  const width = Math.max(diagram.width, ...placed.map(({ card, x }) => x + card.width)) + 2 * gap;
  const below = diagram.height + gap;
  const height = below + Math.max(...placed.map(({ card, y }) => y + card.height)) + gap;
  const { xml } = element(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', width, height, viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}` },
    element('rect', { width, height, fill: '#ffffff' }),
    written(diagram.svg),
    placed.map((one) => drawnAt(one, { x: gap, y: below })),
  );
  return { width, height, svg: `${xml}\n` };
}
