/** A picture as a file: the very drawing that is shown, with its case and shades, and with cards and a frame where they are asked for. */
import type { Card } from '../reports/cards/card.ts';
import type { Drawing, Look } from '../reports/picture/scene.ts';
import { withRoomForKey } from '../reports/picture/shades-key.ts';
import type { FindingLine } from '../reports/sheets/finding-sheets.ts';
import type { Paper } from '../reports/sheets/paper.ts';
import type { Sheet, SheetFacts } from '../reports/sheets/sheet.ts';
import { sheetsOf } from '../reports/sheets/sheets-of.ts';
import { type ExportFormat, figuresFrom, type SentFigures } from './picture-protocol.ts';

export interface WantedExport {
  readonly format: ExportFormat;
  readonly figures: SentFigures | undefined;
  readonly shade: Look['shade'];
  readonly cards: readonly Card[];
  readonly findings: readonly FindingLine[];
  readonly facts: SheetFacts;
  /** Milliseconds since 1970: what a PDF says of when it was made. */
  readonly at: number;
}

/** Bytes as text, so that they go through any message; or why there are none. */
export type Exported = { readonly base64: string } | { readonly trouble: string };

export interface PaperTools {
  png(sheet: Sheet): Promise<Uint8Array>;
  pdf(sheets: readonly Sheet[], facts: { readonly title: string; readonly at: Date }): Promise<Uint8Array>;
}

const usualPaper: Paper = 'a4';

export async function exported(drawing: Drawing, wanted: WantedExport, tools?: PaperTools): Promise<Exported> {
  const { format, figures, shade, cards, findings, facts, at } = wanted;
  if (format !== 'svg' && tools === undefined)
    return {
      trouble: `${format.toUpperCase()} cannot be made here: save it as SVG, or use ampscribe diagram in a shell.`,
    };
  const hasFigures = figures !== undefined && figures.trouble === undefined;
  const sheets = sheetsOf({
    drawing: hasFigures && shade !== undefined ? withRoomForKey(drawing) : drawing,
    look: {
      colours: 'print',
      ...(hasFigures ? { figures: figuresFrom(figures) } : {}),
      ...(shade === undefined ? {} : { shade }),
    },
    cards: format === 'pdf' ? cards : [],
    findings,
    paper: format === 'pdf' ? usualPaper : undefined,
    facts,
  });
  const [first] = sheets;
  if (first === undefined) return { trouble: 'There is nothing to draw.' };
  if (tools === undefined || format === 'svg') return { base64: base64(new TextEncoder().encode(first.svg)) };
  if (format === 'png') return { base64: base64(await tools.png(first)) };
  return { base64: base64(await tools.pdf(sheets, { title: `Wiring of ${facts.file}`, at: new Date(at) })) };
}

/** In pieces, since a call takes only so many arguments. */
export function base64(bytes: Uint8Array): string {
  const piece = 0x2000;
  let binary = '';
  for (let at = 0; at < bytes.length; at += piece) binary += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(binary);
}
