/** Swatches beside core colours; two-tone insulation has two. A colour is a word of the notation: picking another shade keeps the word. */
import type { Color, ColorInformation, ColorPresentation, Range } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { colours } from '../kinds/colours.ts';
import { rangeOf } from './ranges.ts';

export function documentColours({ tree, lines }: Analysis): ColorInformation[] {
  return tree.statements.flatMap(({ offset, shaped }) =>
    shaped.clauses.flatMap(({ values }) =>
      values.flatMap(({ type, atom }) => {
        if (type !== 'colour' || atom.kind !== 'word') return [];
        let start = offset + atom.span.start;
        return atom.text.split('/').flatMap((word): ColorInformation[] => {
          const span = { start, end: start + word.length };
          start = span.end + 1;
          const spec = colours.get(word);
          return spec === undefined ? [] : [{ range: rangeOf(lines, span), color: colourOf(spec.css) }];
        });
      }),
    ),
  );
}

export function colourPresentations({ text, lines }: Analysis, range: Range): ColorPresentation[] {
  const word = text.slice(lines.offset(range.start), lines.offset(range.end));
  return colours.has(word) ? [{ label: word }] : [];
}

/** `#c8201e` as parts of 1. */
function colourOf(css: string): Color {
  const part = (at: number) => Number.parseInt(css.slice(at, at + 2), 16) / 255;
  return { red: part(1), green: part(3), blue: part(5), alpha: 1 };
}
