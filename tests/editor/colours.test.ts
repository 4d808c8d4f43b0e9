import { describe, expect, it } from 'vitest';
import type { Color, Range } from 'vscode-languageserver';
import { colourPresentations, documentColours } from '../../server/editor/colours.ts';
import { colours } from '../../server/kinds/colours.ts';
import { analyseText } from '../analysed.ts';
import { marked } from './marking.ts';

const source = `stock thin  cable 1 mm², «red»
# red
load RED "red"  5 W
run W1  1 mm² «black», 1 m, RED:+ to RED:-
run W2  2 x 1 mm², 1 m
    «green»/«yellow»  spare
    «light-blue»      spare
`;
const spec = marked(source);
const found = documentColours(analyseText(spec.text));

describe('swatches', () => {
  it('stand beside the colours of cores and nothing else, two beside two-tone insulation', () => {
    expect(spec.with(found.map(({ range }) => range))).toBe(source);
  });

  it('have the colour of the word', () => {
    for (const { range, color } of found) {
      const css = colours.get(spec.words(range))?.css ?? '';
      const hex = [color.red, color.green, color.blue].map((part) =>
        Math.round(part * 255)
          .toString(16)
          .padStart(2, '0'),
      );
      expect(`#${hex.join('')}`).toBe(css);
      expect(color.alpha).toBe(1);
    }
  });

  it('offer the word that is written for its own shade, and the nearest for one that is picked', () => {
    const analysis = analyseText(spec.text);
    const first = (range: Range, color: Color) => colourPresentations(analysis, range, color)[0]?.label;
    for (const { range, color } of found) expect(first(range, color)).toBe(spec.words(range));
    const [red] = found.map(({ range }) => range) as [Range];
    const shade = (red: number, green: number, blue: number) => ({ red, green, blue, alpha: 1 });
    expect(
      [shade(0, 0, 0.8), shade(1, 0.5, 0), shade(0, 0, 0), shade(0.5, 0.2, 0.6)].map((one) => first(red, one)),
    ).toEqual(['blue', 'orange', 'black', 'violet']);
    const nothing = { start: { line: 0, character: 0 }, end: { line: 0, character: 5 } };
    expect(colourPresentations(analysis, nothing, shade(1, 0, 0))).toEqual([]);
  });

  it('keep one of two words for a shade as it is written', () => {
    const text = 'run W1  1 mm² purple, 1 m';
    const analysis = analyseText(text);
    const [swatch] = documentColours(analysis);
    if (swatch === undefined) throw new Error('no swatch');
    const labels = colourPresentations(analysis, swatch.range, swatch.color).map(({ label }) => label);
    expect(labels[0]).toBe('purple');
    expect(labels).not.toContain('violet');
  });
});
