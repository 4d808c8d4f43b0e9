/** Swatches beside core colours; two-tone insulation has two. A colour is a word of the notation: of a shade that is picked the nearest. */
import type { Color, ColorInformation, ColorPresentation, Range } from 'vscode-languageserver';
import type { ShapedStatement } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { colourList, colours } from '../kinds/colours.ts';
import { keptWith } from '../model/lazily.ts';
import { rangeOf } from './ranges.ts';

export function documentColours({ tree, lines }: Analysis): ColorInformation[] {
  return tree.statements.flatMap(({ offset, shaped }) =>
    swatchesOf(shaped).map(({ span: { start, end }, color }) => ({
      range: rangeOf(lines, { start: offset + start, end: offset + end }),
      color,
    })),
  );
}

/** By the place in the statement; an edit leaves most statements as they are. */
const swatchesOf = keptWith(({ clauses }: ShapedStatement): { readonly span: Span; readonly color: Color }[] =>
  clauses.flatMap(({ values }) =>
    values.flatMap(({ type, atom }) => {
      if (type !== 'colour' || atom.kind !== 'word') return [];
      let { start } = atom.span;
      return atom.text.split('/').flatMap((word) => {
        const span = { start, end: start + word.length };
        start = span.end + 1;
        const spec = colours.get(word);
        return spec === undefined ? [] : [{ span, color: colourOf(spec.css) }];
      });
    }),
  ),
);

/** So many words are offered for a shade: the nearest, and others that may be meant. */
const mostWords = 3;

export function colourPresentations({ text, lines }: Analysis, range: Range, picked: Color): ColorPresentation[] {
  const word = text.slice(lines.offset(range.start), lines.offset(range.end));
  const now = colours.get(word);
  if (now === undefined) return [];
  // Of words for one colour the one that is written, else the first.
  const words = new Map([[now.css, word]]);
  for (const { css, word: other } of colourList) if (!words.has(css)) words.set(css, other);
  const distance = ({ red, green, blue }: Color) =>
    (red - picked.red) ** 2 + (green - picked.green) ** 2 + (blue - picked.blue) ** 2;
  return [...words]
    .sort(([a], [b]) => distance(colourOf(a)) - distance(colourOf(b)))
    .slice(0, mostWords)
    .map(([, label]) => ({ label }));
}

/** `#c8201e` as parts of 1. */
function colourOf(css: string): Color {
  const part = (at: number) => Number.parseInt(css.slice(at, at + 2), 16) / 255;
  return { red: part(1), green: part(3), blue: part(5), alpha: 1 };
}
