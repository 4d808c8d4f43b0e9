/** Definitions as links: the very words that lead there, and the whole statement, for an editor to show. */
import type { Location, LocationLink, Range } from 'vscode-languageserver';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { at, useAt } from './at.ts';
import { linesOf, rangeOf } from './ranges.ts';

/** `found` are the definitions of what stands at `offset`. */
export function definitionLinks(analysis: Analysis, offset: number, found: readonly Location[]): LocationLink[] {
  const words = wordsAt(analysis, offset);
  return found.map(({ uri, range }) => ({
    ...(words === undefined ? {} : { originSelectionRange: rangeOf(analysis.lines, words) }),
    targetUri: uri,
    targetRange: statementAround(analysis, uri, range),
    targetSelectionRange: range,
  }));
}

/** A name or terminal, or the path of a `use`. */
function wordsAt(analysis: Analysis, offset: number): Span | undefined {
  const { atom, statement } = at(analysis, offset) ?? {};
  if (atom === undefined || statement === undefined) return undefined;
  const use = useAt(analysis, offset);
  if (use !== undefined) return use.place.span;
  return { start: statement.offset + atom.span.start, end: statement.offset + atom.span.end };
}

/** A file as a whole has no statement: its beginning stands for it. */
function statementAround(analysis: Analysis, uri: string, range: Range): Range {
  const lines = linesOf(analysis, uri);
  const place = lines.offset(range.start);
  const end = lines.offset(range.end);
  if (end === place) return range;
  const statement = analysis.model.files
    .find((file) => file.uri === uri)
    ?.statements.find(({ offset, node }) => offset <= place && place < offset + node.text.length);
  if (statement === undefined) return range;
  const { offset, node } = statement;
  return rangeOf(lines, { start: offset, end: offset + node.text.trimEnd().length });
}
