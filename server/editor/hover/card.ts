/** The terminal card of a part, small: what stands on it in words is told by the tables below it. */
import type { Analysis } from '../../analysis.ts';
import type { Part } from '../../model/model.ts';
import { cardOf, hasCard } from '../../reports/cards/card-of.ts';
import { drawCard } from '../../reports/cards/draw-card.ts';
import type { Block } from '../markup.ts';

/** With two terminals there is nothing to mix up that a line of text does not tell. */
const fewestTerminals = 3;

/** Editors cut off a hover of more than 100,000 letters, and a picture takes four of them for three of its own. */
const mostLetters = 45_000;

const mostSpoken = 1500;

export function cardPicture(analysis: Analysis, part: Part): Block[] {
  if (part.terminals.length < fewestTerminals || !hasCard(part)) return [];
  const draw = () => {
    const card = cardOf(analysis, part);
    const svg = drawCard(card, { colours: 'light', size: 'small' });
    return svg.length > mostLetters ? undefined : { svg, words: card.spoken.slice(0, mostSpoken) };
  };
  return [{ is: 'picture', draw }];
}
