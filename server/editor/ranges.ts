/** From places in files to ranges of the protocol. */
import type { Location, Range, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { LineIndex } from '../../grammar/lines.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { Place, SpecFile } from '../model/model.ts';
import type { Edit } from '../rules/rule.ts';

const indexes = new WeakMap<SpecFile, LineIndex>();

/** Lines of a file of the analysis; its own for any file it does not know. */
export function linesOf(analysis: Analysis, uri: string): LineIndex {
  if (uri === analysis.uri) return analysis.lines;
  const file = analysis.files.find((one) => one.uri === uri);
  if (file === undefined) return analysis.lines;
  let index = indexes.get(file);
  if (index === undefined) {
    index = new LineIndex(file.text);
    indexes.set(file, index);
  }
  return index;
}

export function rangeOf(lines: LineIndex, span: Span): Range {
  return { start: lines.position(span.start), end: lines.position(span.end) };
}

export function locationOf(analysis: Analysis, place: Place): Location {
  return { uri: place.uri, range: rangeOf(linesOf(analysis, place.uri), place.span) };
}

/** Edits of a fix, file by file. */
export function workspaceEdit(analysis: Analysis, edits: readonly Edit[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { place, newText } of edits) {
    const list = changes[place.uri] ?? [];
    list.push({ range: locationOf(analysis, place).range, newText });
    changes[place.uri] = list;
  }
  return { changes };
}

export function overlaps(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}
