/** Highlights: the other uses, in this file, of the name under the pointer. */
import { type DocumentHighlight, DocumentHighlightKind } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { rangeOf } from './ranges.ts';
import { named, usesOf } from './uses.ts';

export function highlights(analysis: Analysis, offset: number): DocumentHighlight[] {
  const use = named(analysis, offset);
  if (use === undefined) return [];
  return usesOf(analysis, use)
    .filter(({ place }) => place.uri === analysis.uri)
    .map(({ place, declaration }) => ({
      range: rangeOf(analysis.lines, place.span),
      kind: declaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
}
