import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { toolFiles } from '../../../server/cli/drawing-tools.ts';
import { pdfOf } from '../../../server/reports/sheets/pdf.ts';
import { readTool } from '../../cli/surroundings.ts';
import { wordsInPdf } from './reading-pdf.ts';
import { sheetsOfFile } from './sheets.ts';

const letters = {
  regular: readFileSync('node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  bold: readFileSync('node_modules/dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
};
const facts = { title: 'Wiring of spokewagon.amps', at: new Date(Date.UTC(2026, 10, 26)) };
const latin = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1');

describe('PDF', () => {
  it('has a page a sheet, of the paper’s size', async () => {
    const sheets = await sheetsOfFile('samples/spokewagon.amps', { paper: 'a4', cards: true });
    const pdf = latin(await pdfOf(sheets, letters, { ...facts, compress: false }));
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [
      Number(width),
      Number(height),
    ]);
    expect(boxes).toHaveLength(sheets.length);
    expect(
      new Set(
        boxes.map(
          ([width = 0, height = 0]) => `${Math.min(width, height).toFixed(1)} ${Math.max(width, height).toFixed(1)}`,
        ),
      ),
    ).toEqual(new Set(['595.3 841.9']));
    expect(pdf).toContain(`/Count ${sheets.length}`);
  });

  it('has its words as words: those of the picture, in an embedded typeface', async () => {
    const [sheet] = await sheetsOfFile('samples/first-lamp.amps', { paper: 'a4' });
    const pdf = latin(await pdfOf(sheet === undefined ? [] : [sheet], letters, { ...facts, compress: false }));
    const words = wordsInPdf(pdf);
    for (const one of ['page 1 of 1', 'checked: no findings', 'LAMP', 'W1', '2026-11-26', 'mm²'])
      expect(words).toContain(one);
    expect(pdf).toMatch(/\/FontFile2/);
    expect(pdf).not.toMatch(/\/BaseFont \/Helvetica/);
    // Lines are lines, not a picture of them.
    expect(pdf).not.toContain('/Subtype /Image');
  });

  it('paints no outline over the volts of a case', async () => {
    const [sheet] = await sheetsOfFile('samples/first-lamp.amps', { paper: 'a4', caseName: 'loads-only' });
    const pdf = latin(await pdfOf(sheet === undefined ? [] : [sheet], letters, { ...facts, compress: false }));
    const modes = [...pdf.matchAll(/\b([0-7]) Tr\b/g)].map(([, mode]) => mode);
    // 1 is an outline, 0 words; 2 is both at once, the outline uppermost.
    expect(modes).toContain('1');
    expect(modes).not.toContain('2');
    expect(modes.lastIndexOf('0')).toBeGreaterThan(modes.lastIndexOf('1'));
  });

  it('is the same of the same, and says what it is', async () => {
    const sheets = await sheetsOfFile('samples/first-lamp.amps', { paper: 'letter' });
    const [one, other] = [await pdfOf(sheets, letters, facts), await pdfOf(sheets, letters, facts)];
    expect(Buffer.from(one).equals(Buffer.from(other))).toBe(true);
    const pdf = latin(one);
    for (const said of ['(Ampscribe)', '(Wiring of spokewagon.amps)', '(D:20261126']) expect(pdf).toContain(said);
    // Compressed streams can be read again.
    const start = pdf.indexOf('stream\n') + 7;
    expect(
      inflateSync(Buffer.from(pdf.slice(start, pdf.indexOf('\nendstream', start)), 'latin1')).length,
    ).toBeGreaterThan(100);
    expect(await readTool(toolFiles.regular)).toEqual(letters.regular);
  });
});
