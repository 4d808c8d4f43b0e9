/** What drawing takes that is large: loaded when a drawing is first wanted. */
import { inProcessEngine } from '../reports/picture/elk-engine.ts';
import type { LayoutEngine } from '../reports/picture/scene.ts';
import { missingLetters } from '../reports/sheets/missing-letters.ts';
import type { PdfFacts } from '../reports/sheets/pdf.ts';
import type { Sheet } from '../reports/sheets/sheet.ts';

type PaperFiles = typeof import('../reports/sheets/paper-files.ts');

export interface DrawingTools {
  readonly engine: LayoutEngine;
  png(sheet: Sheet): Promise<Uint8Array>;
  pdf(sheets: readonly Sheet[], facts: PdfFacts): Promise<Uint8Array>;
  /** Letters that neither can show. */
  missing(sheets: readonly Sheet[]): Promise<readonly string[]>;
}

/** Files that stand beside the command: the typeface, and the module that makes PNG. */
export const toolFiles = {
  regular: 'DejaVuSans.ttf',
  bold: 'DejaVuSans-Bold.ttf',
  wasm: 'resvg.wasm',
} as const;

export function drawingTools(
  paper: () => Promise<PaperFiles>,
  read: (file: string) => Promise<Uint8Array>,
): DrawingTools {
  const letters = async () => ({ regular: await read(toolFiles.regular), bold: await read(toolFiles.bold) });
  return {
    engine: inProcessEngine(),
    png: async (sheet) => (await paper()).pngOf(sheet, await letters(), () => read(toolFiles.wasm)),
    pdf: async (sheets, facts) => (await paper()).pdfOf(sheets, await letters(), facts),
    missing: async (sheets) => missingLetters(sheets, await read(toolFiles.regular)),
  };
}
