import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { shortened, textWidth, wrapped } from '../../server/reports/letters.ts';

const fontkit = createRequire(import.meta.url)('fontkit') as {
  openSync(path: string): {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(code: number): boolean;
    glyphForCodePoint(code: number): { readonly advanceWidth: number };
  };
};

describe('the width of words', () => {
  it.each([
    ['regular', 'DejaVuSans'],
    ['bold', 'DejaVuSans-Bold'],
  ] as const)('is that of the %s letters in the font itself', (weight, file) => {
    const font = fontkit.openSync(`node_modules/dejavu-fonts-ttf/ttf/${file}.ttf`);
    const width = (code: number) => font.glyphForCodePoint(code).advanceWidth / font.unitsPerEm;
    const wrong: string[] = [];
    for (let code = 0x20; code < 0x180; code += 1)
      if (Math.abs(textWidth(String.fromCodePoint(code), 1, weight) - width(code)) > 0.001)
        wrong.push(String.fromCodePoint(code));
    expect(wrong).toEqual([]);
    // Words of other scripts and the signs of figures are never wider than they are taken for.
    for (const word of ['Φρεγάτα', 'Щётка', 'Ωμέγα', '−12.8', '≤ 6 mm² → 35 °C', '“Тент”', '…'])
      expect(textWidth(word, 10, weight), word).toBeGreaterThanOrEqual(
        [...word].reduce((sum, letter) => sum + 10 * width(letter.codePointAt(0) ?? 0), 0) - 0.01,
      );
  });

  it('leaves out what does not fit, and says so', () => {
    expect(shortened('PUMP', 100, 10)).toBe('PUMP');
    const cut = shortened('Compressor relay', 60, 10);
    expect(cut).toMatch(/^Compr\w*…$/);
    expect(textWidth(cut, 10)).toBeLessThanOrEqual(60);
    expect(shortened('WWWW', 1, 10)).toBe('…');
  });

  it('breaks lines between words, and in a word only where it must', () => {
    expect(wrapped('isolate and prove dead', 70, 10)).toEqual(['isolate and', 'prove dead']);
    expect(wrapped('', 70, 10)).toEqual([]);
    const pieces = wrapped('W'.repeat(20), 50, 10);
    expect(pieces.join('')).toBe('W'.repeat(20));
    for (const piece of pieces) expect(textWidth(piece, 10)).toBeLessThanOrEqual(50);
  });
});
