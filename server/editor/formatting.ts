/** Formatting: the whole file, or what lies in a range, line by line, each edit as small as can be. */
import type { TextEdit } from 'vscode-languageserver';
import { formatEdits } from '../../grammar/printer.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { rangeOf } from './ranges.ts';

/** `within` limits the edits to the lines that it touches. */
export function formatting({ tree, lines }: Analysis, within?: Span): TextEdit[] {
  return formatEdits(tree, within === undefined ? undefined : touched(within)).map(({ span, newText }) => ({
    range: rangeOf(lines, span),
    newText,
  }));
}

/** Whole lines selected end at the beginning of the next one, which is not meant. */
function touched({ start, end }: Span): Span {
  return { start, end: Math.max(start, end - 1) };
}
