/** Sheets as PDF: lines as lines, and words as words that can be selected and searched, in an embedded typeface. */
import PDFDocument from 'pdfkit';
import svgToPdf from 'svg-to-pdfkit';
import { withInlineStyle } from './inline-style.ts';
import type { EmbeddedLetters } from './letters-to-embed.ts';
import { pointsOf } from './paper.ts';
import type { Sheet } from './sheet.ts';
import { withStrokesFirst } from './stroke-first.ts';

export interface PdfFacts {
  readonly title: string;
  /** When it was made; the same input and time give the same bytes. */
  readonly at: Date;
  /** Off where a test reads what is in it. */
  readonly compress?: boolean;
}

const [regular, bold] = ['DejaVu Sans', 'DejaVu Sans Bold'];

export async function pdfOf(sheets: readonly Sheet[], letters: EmbeddedLetters, facts: PdfFacts): Promise<Uint8Array> {
  const document = new PDFDocument({
    autoFirstPage: false,
    // None of the library’s own.
    font: '',
    compress: facts.compress ?? true,
    displayTitle: true,
    lang: 'en',
    info: { Title: facts.title, Creator: 'Ampscribe', Producer: 'Ampscribe', CreationDate: facts.at },
  });
  const pieces: Uint8Array[] = [];
  document.on('data', (piece: Uint8Array) => pieces.push(piece));
  const ended = new Promise((resolve, reject) => {
    document.on('end', resolve);
    document.on('error', reject);
  });
  document.registerFont(regular, letters.regular);
  document.registerFont(bold, letters.bold);
  for (const { width, height, svg } of sheets) {
    const size = { width: pointsOf(width), height: pointsOf(height) };
    document.addPage({ size: [size.width, size.height], margin: 0 });
    svgToPdf(document, withStrokesFirst(withInlineStyle(svg)), 0, 0, {
      ...size,
      fontCallback: (_family, isBold) => (isBold ? bold : regular),
    });
  }
  document.end();
  await ended;
  return joined(pieces);
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
