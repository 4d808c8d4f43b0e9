/** Highlights: the other uses, in this file, of the name under the pointer. */
import { type DocumentHighlight, DocumentHighlightKind } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { rangeOf } from './ranges.ts';
import { usesAt } from './uses.ts';

export function highlights(analysis: Analysis, offset: number): DocumentHighlight[] {
  return usesAt(analysis, offset)
    .filter(({ place }) => place.uri === analysis.uri)
    .map(({ place, declaration }) => ({
      range: rangeOf(analysis.lines, place.span),
      kind: declaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
}
