/**
 * Splitting a text into statements and the gaps between them, one linear pass over lines before any lexing (looking ahead
 * at every new line would be quadratic over blocks of comments).
 */

import type { SourceText } from './text-in-blocks.ts';

export interface Chunk {
  readonly kind: 'statement' | 'gap';
  readonly start: number;
  readonly end: number;
  /** Line of its first character, from 0. */
  readonly line: number;
}

export interface Stretch {
  /** Where to begin: a line's beginning. */
  readonly from: number;
  readonly line: number;
  /** Asked at the beginning of every statement at the margin: whether what follows is known already. */
  readonly known?: (start: number) => boolean;
}

export interface Split {
  readonly chunks: readonly Chunk[];
  /** Where the pass stopped: the text's end, or a statement that was known. */
  readonly end: number;
  readonly line: number;
}

const newlineCode = 10;
const remarkCode = 35;

/** Whether an indented line begins a statement, given the first line of the statement it would continue. */
export type OpensStatement = (line: string, statement: () => string) => boolean;

/**
 * A statement begins at a character at the margin that is neither white space nor `#`, or at an indented line that
 * `opensStatement` takes for one (given that line and the first line of the statement it would continue); it goes on over
 * indented lines, and over blank and comment lines between them. Blank and comment lines after its last line are a gap.
 * Chunks lie end to end and cover the text.
 */
export function splitStatements(
  text: SourceText,
  opensStatement: OpensStatement,
  { from, line: firstLine, known }: Stretch = { from: 0, line: 0 },
): Split {
  const chunks: Chunk[] = [];
  let gapStart = from;
  let gapLine = firstLine;
  let start = -1;
  let startLine = 0;
  let end = from;
  let endLine = firstLine;
  const close = () => {
    if (start < 0) return;
    chunks.push({ kind: 'statement', start, end, line: startLine });
    gapStart = end;
    gapLine = endLine;
    start = -1;
  };
  const gap = (to: number) => {
    if (to > gapStart) chunks.push({ kind: 'gap', start: gapStart, end: to, line: gapLine });
  };
  let line = firstLine;
  let at = from;
  for (; at < text.length; line++) {
    const newline = text.indexOf('\n', at);
    const next = newline === -1 ? text.length : newline + 1;
    // A byte order mark indents nothing, at the file's beginning or where files were put together.
    const begin = text.charCodeAt(at) === 0xfeff ? at + 1 : at;
    const first = firstSolid(text, begin, next);
    // Blank and comment lines end nothing and begin nothing.
    if (first < next && text.charCodeAt(first) !== remarkCode) {
      const margin = first === begin;
      if (margin && known?.(begin) === true) {
        at = begin;
        break;
      }
      const current = () => text.slice(start, lineEnd(text, start));
      if (margin || start < 0 || opensStatement(text.slice(begin, next), current)) {
        close();
        gap(begin);
        start = begin;
        startLine = line;
      }
      // The line end after a statement's last line is its own: the next line starts clean.
      end = next;
      endLine = line + 1;
    }
    at = next;
  }
  close();
  gap(at);
  return { chunks, end: at, line };
}

/** Offset of the first character of a line that is no white space; `next` when there is none. */
function firstSolid(text: SourceText, from: number, next: number): number {
  for (let at = from; at < next; at++) {
    const code = text.charCodeAt(at);
    if (code === 32 || (code >= 9 && code <= 13)) continue;
    if (code < 128 || !/\s/.test(text.charAt(at))) return at;
  }
  return next;
}

function lineEnd(text: SourceText, from: number): number {
  let at = from;
  while (at < text.length && text.charCodeAt(at) !== newlineCode) at += 1;
  return at;
}
