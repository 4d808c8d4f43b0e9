/** Everything that is asked for, as sheets: for the command and for what a view exports, so that the two are alike. */
import type { Card } from '../cards/card.ts';
import { drawSvg } from '../picture/draw-svg.ts';
import type { Drawing, Look } from '../picture/scene.ts';
import { cardPages, cardSheets } from './card-sheets.ts';
import { diagramSheets } from './diagram-sheets.ts';
import { type FindingLine, findingPages, findingSheets } from './finding-sheets.ts';
import { occupiedBy } from './occupied.ts';
import { onePicture } from './one-picture.ts';
import type { Paper } from './paper.ts';
import type { Sheet, SheetFacts, Whole } from './sheet.ts';
import { tilingOf } from './tiles.ts';

export interface Wanted {
  readonly drawing: Drawing;
  readonly look: Look;
  /** Cards besides. */
  readonly cards: readonly Card[];
  /** Told on pages behind the drawing that marks them; on paper only. */
  readonly findings: readonly FindingLine[];
  /** Undefined: one picture, with no frame. */
  readonly paper: Paper | undefined;
  readonly facts: SheetFacts;
}

export function sheetsOf({ drawing, look, cards, findings, paper, facts }: Wanted): Sheet[] {
  const whole: Whole = { ...drawing.size, svg: drawSvg(drawing, look), occupied: occupiedBy(drawing) };
  if (paper === undefined) return [onePicture(whole, cards)];
  const tiling = tilingOf(whole, paper);
  const onCards = cardPages(cards, paper);
  const told = findingPages(findings, paper);
  const counts = [tiling.tiles.length, onCards.pages.length, told.pages.length] as const;
  const of = counts.reduce((sum, count) => sum + count, 0);
  const shows = look.figures === undefined ? 'wiring diagram' : `wiring diagram, case ${look.figures.caseName}`;
  return [
    ...diagramSheets(whole, tiling, facts, shows, { first: 1, of }),
    ...cardSheets(onCards, facts, { first: counts[0] + 1, of }),
    ...findingSheets(told, facts, { first: counts[0] + counts[1] + 1, of }),
  ];
}
