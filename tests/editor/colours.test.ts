import { describe, expect, it } from 'vitest';
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

  it('keep the word, whatever shade is picked', () => {
    const analysis = analyseText(spec.text);
    expect(found.map(({ range }) => colourPresentations(analysis, range))).toEqual(
      found.map(({ range }) => [{ label: spec.words(range) }]),
    );
    const nothing = { start: { line: 0, character: 0 }, end: { line: 0, character: 5 } };
    expect(colourPresentations(analysis, nothing)).toEqual([]);
  });
});
