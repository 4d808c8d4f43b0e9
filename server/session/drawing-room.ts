/** A drawing room with its layout engine in this very process. */
import { inProcessEngine } from '../reports/picture/elk-engine.ts';
import { Drafting } from './drafting.ts';
import type { PaperTools } from './exporting.ts';

export function drawingRoom(paper?: PaperTools): Drafting {
  return new Drafting(inProcessEngine(), paper);
}

export type PaperFiles = typeof import('../reports/sheets/paper-files.ts');

/** What makes PNG and PDF, from the bundle and the files that are packaged beside the server; loaded when first used. */
export function paperTools(load: () => PaperFiles, read: (file: string) => Promise<Uint8Array>): PaperTools {
  const letters = async () => ({ regular: await read('DejaVuSans.ttf'), bold: await read('DejaVuSans-Bold.ttf') });
  return {
    png: async (sheet) => load().pngOf(sheet, await letters(), () => read('resvg.wasm')),
    pdf: async (sheets, facts) => load().pdfOf(sheets, await letters(), facts),
  };
}
