import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { toolFiles } from '../../../server/cli/drawing-tools.ts';
import { isKept, lighter } from '../../../server/reports/sheets/lighter-typeface.ts';
import { missingLetters } from '../../../server/reports/sheets/missing-letters.ts';
import { pngOf } from '../../../server/reports/sheets/png.ts';
import { readTool } from '../../cli/surroundings.ts';
import { sheetsOfFile } from './sheets.ts';

interface Glyph {
  readonly advanceWidth: number;
  readonly path: { toSVG(): string };
}
interface Font {
  readonly characterSet: readonly number[];
  readonly numGlyphs: number;
  hasGlyphForCodePoint(code: number): boolean;
  glyphForCodePoint(code: number): Glyph;
  layout(text: string): { readonly glyphs: readonly Glyph[] };
}
const fontkit = createRequire(import.meta.url)('fontkit') as { create(bytes: Buffer): Font };

describe.each(['DejaVuSans', 'DejaVuSans-Bold'])('%s, made lighter', (name) => {
  const file = readFileSync(`node_modules/dejavu-fonts-ttf/ttf/${name}.ttf`);
  const light = lighter(file);
  const [whole, less] = [fontkit.create(file), fontkit.create(Buffer.from(light))];

  it('is half as large', () => {
    expect(light.length).toBeLessThan(file.length * 0.55);
    expect(light).toEqual(new Uint8Array(readFileSync(`dist/${name}.ttf`)));
  });

  it('has every letter as it was, and leaves out what it says it leaves out', () => {
    const kept = whole.characterSet.filter(isKept);
    expect([...less.characterSet].sort((a, b) => a - b)).toEqual([...kept].sort((a, b) => a - b));
    expect(kept.length).toBeGreaterThan(3500);
    const unlike = kept.filter((code) => {
      const [one, other] = [whole.glyphForCodePoint(code), less.glyphForCodePoint(code)];
      return one.advanceWidth !== other.advanceWidth || one.path.toSVG() !== other.path.toSVG();
    });
    expect(unlike.map((code) => String.fromCodePoint(code))).toEqual([]);
    for (const letter of ['A', 'ß', 'Ω', 'Щ', 'ש', 'ع', 'ა', 'ᐃ', '°', '²', '−', '≤', '→', '€', '“', '…', '▸', '□'])
      if (whole.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0))
        expect(less.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0), letter).toBe(true);
    for (const sign of ['⣿', '🁢', '𝐀']) expect(less.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0), sign).toBe(false);
  });

  it('joins letters that are written together as before', () => {
    for (const word of ['findings', 'مرحبا', 'Ffi']) {
      const shape = (font: Font) =>
        font.layout(word).glyphs.map(({ advanceWidth, path }) => [advanceWidth, path.toSVG()]);
      expect(shape(less), word).toEqual(shape(whole));
    }
  });
});

it('a picture made with the lighter typeface is the same picture', async () => {
  const read = (file: string) => readFileSync(`node_modules/dejavu-fonts-ttf/ttf/${file}`);
  const letters = { regular: read('DejaVuSans.ttf'), bold: read('DejaVuSans-Bold.ttf') };
  const [sheet] = await sheetsOfFile('samples/first-lamp.amps', { paper: 'a4', cards: true });
  if (sheet === undefined) throw new Error('nothing drawn');
  const png = (using: typeof letters | { regular: Uint8Array; bold: Uint8Array }) =>
    pngOf(sheet, using, () => readTool(toolFiles.wasm));
  const [one, other] = [
    await png(letters),
    await png({ regular: lighter(letters.regular), bold: lighter(letters.bold) }),
  ];
  expect(Buffer.from(one).equals(Buffer.from(other))).toBe(true);
});

it('letters that are not in a typeface are found, each once', () => {
  const file = readFileSync('node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf');
  const drawing = { svg: '<svg><text x="1">A漢漢 &amp; Ω</text><title>灯</title><text>🁢</text></svg>' };
  expect(missingLetters([drawing], file)).toEqual(['漢']);
  expect(missingLetters([drawing], lighter(file))).toEqual(['漢', '🁢']);
});
