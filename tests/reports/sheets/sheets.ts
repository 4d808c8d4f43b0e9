/** Sheets of a sample, as tests look at them. */
import { cardsOf } from '../../../server/reports/cards/card-of.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { figuresOf } from '../../../server/reports/picture/figures.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import type { Drawing } from '../../../server/reports/picture/scene.ts';
import { findingLines } from '../../../server/reports/sheets/finding-sheets.ts';
import type { Paper } from '../../../server/reports/sheets/paper.ts';
import { counted, type Sheet, type SheetFacts } from '../../../server/reports/sheets/sheet.ts';
import { sheetsOf } from '../../../server/reports/sheets/sheets-of.ts';
import { analyseFile } from '../cards/drawing.ts';

const engine = inProcessEngine();
const drawings = new Map<string, Promise<Drawing>>();

export async function sheetsOfFile(
  file: string,
  asked: { paper?: Paper; cards?: boolean; caseName?: string; facts?: Partial<SheetFacts> } = {},
): Promise<Sheet[]> {
  const analysis = analyseFile(file);
  const drawing = drawings.get(file) ?? layOut(pictureOf(analysis), engine);
  drawings.set(file, drawing);
  const figures = asked.caseName === undefined ? undefined : figuresOf(analysis, asked.caseName);
  return sheetsOf({
    drawing: await drawing,
    look: { colours: 'print', ...(figures === undefined ? {} : { figures }) },
    cards: asked.cards === true ? cardsOf(analysis) : [],
    findings: findingLines(analysis),
    paper: asked.paper,
    facts: {
      title: 'Spokewagon',
      file: 'spokewagon.amps',
      revision: '3f2a1c9',
      date: '2026-11-26',
      findings: counted(analysis.findings),
      ...asked.facts,
    },
  });
}
