/** Formatting: the whole file, or what lies in a range, as few edits as lines have changed. */
import type { TextEdit } from 'vscode-languageserver';
import { formatDocument } from '../../grammar/printer.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { overlaps } from './ranges.ts';

/** Lines that a changed stretch is searched over for where both texts agree again. */
const window = 64;

export interface Hunk {
  /** Lines of the old text, half-open. */
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** Where two texts differ, line by line. Formatting keeps lines in order, so the nearest agreement is the right one. */
export function lineHunks(before: readonly string[], after: readonly string[]): Hunk[] {
  const hunks: Hunk[] = [];
  let i = 0;
  let j = 0;
  while (i < before.length || j < after.length) {
    if (i < before.length && j < after.length && before[i] === after[j]) {
      i += 1;
      j += 1;
      continue;
    }
    const [skip, put] = agreement(before, after, i, j);
    hunks.push({ from: i, to: i + skip, lines: after.slice(j, j + put) });
    i += skip;
    j += put;
  }
  return hunks;
}

/** How many lines to leave out of each text until they agree again; all that is left when they do not. */
function agreement(before: readonly string[], after: readonly string[], i: number, j: number): [number, number] {
  for (let together = 1; together <= window; together += 1) {
    for (let skip = 0; skip <= together; skip += 1) {
      const put = together - skip;
      const a = before[i + skip];
      const b = after[j + put];
      if (i + skip === before.length && j + put === after.length) return [skip, put];
      if (a !== undefined && a === b) return [skip, put];
    }
  }
  return [before.length - i, after.length - j];
}

/** `within` limits the edits to stretches that touch it. */
export function formatting(analysis: Analysis, within?: Span): TextEdit[] {
  const { text, tree, lines } = analysis;
  const formatted = formatDocument(tree);
  if (formatted === text) return [];
  const edits: TextEdit[] = [];
  const before = splitLines(text);
  for (const { from, to, lines: put } of lineHunks(before, splitLines(formatted))) {
    const start = lines.lineStart(from);
    const end = to < before.length ? lines.lineStart(to) : text.length;
    if (within !== undefined && !overlaps({ start, end: Math.max(start, end - 1) }, within)) continue;
    edits.push({ range: { start: lines.position(start), end: lines.position(end) }, newText: put.join('') });
  }
  return edits;
}

/** Lines with their ends, so that joined they are the text again. */
function splitLines(text: string): string[] {
  return text === '' ? [] : text.split(/(?<=\n)/);
}
