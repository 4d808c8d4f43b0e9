/**
 * Formatting while typing: at a comma the words before it on the line, at a line end the line that was finished, and the
 * indent of one that goes on. Nothing behind the pointer is touched.
 */
import type { TextEdit } from 'vscode-languageserver';
import { indent } from '../../grammar/format-statement.ts';
import { parseDocument, type ShapedTree } from '../../grammar/parse.ts';
import { formatEdits } from '../../grammar/printer.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { statementBefore } from './at.ts';
import { rangeOf } from './ranges.ts';

export const formattingTriggers = ['\n', ','] as const;

/** `offset` is behind the character typed. */
export function formattingOnType(analysis: Analysis, offset: number, typed: string): TextEdit[] {
  if (typed === ',') return atComma(analysis, offset);
  return typed === '\n' ? atLineEnd(analysis, offset) : [];
}

function atComma(analysis: Analysis, offset: number): TextEdit[] {
  const { text, lines } = analysis;
  const comma = offset - 1;
  const start = lines.lineStart(lines.position(comma).line);
  if (text.charAt(comma) !== ',' || isQuoted(text, start, comma)) return [];
  const end = text.indexOf('\n', offset);
  // As if the line ended before the comma: so the words behind it do not count.
  return lineEdits(analysis, { start, end: comma }, end === -1 ? text.length : end);
}

/**
 * The formatter’s edits of one line up to its `end`, with what stands from there to `resume` left out. Only statements that
 * follow each other share a column, so only those around it are read.
 */
function lineEdits({ text, lines, tree }: Analysis, { start, end }: Span, resume = end): TextEdit[] {
  const around = neighbours(tree, start);
  const local = text.slice(around.start, end) + text.slice(resume, Math.max(resume, around.end));
  const line = { start: start - around.start, end: Math.max(start, end - 1) - around.start };
  return formatEdits(parseDocument(local, tree.vocabulary), line)
    .map(({ span, newText }) => ({
      span: { start: span.start + around.start, end: span.end + around.start },
      newText,
    }))
    .filter(({ span }) => start <= span.start && span.end <= end)
    .map(({ span, newText }) => ({ range: rangeOf(lines, span), newText: newText.replace(/\r?\n$/u, '') }));
}

/** From the first to the last of the statements that stand around a place with no line between them. */
function neighbours({ items, text }: ShapedTree, offset: number): Span {
  const here = items.findLastIndex((item) => item.offset <= offset);
  let [first, last] = [here, here];
  while (items[first - 1]?.kind === 'statement') first -= 1;
  while (items[last + 1]?.kind === 'statement') last += 1;
  return { start: items[first]?.offset ?? 0, end: items[last + 1]?.offset ?? text.length };
}

/** A comma within quotes or behind `#` is a letter like any other. */
function isQuoted(text: string, start: number, comma: number): boolean {
  const before = text.slice(start, comma);
  const quotes = before.match(/["\u201c\u201d\u201e]/gu)?.length ?? 0;
  return quotes % 2 === 1 || /(?:^|\s)#/u.test(before.replaceAll(/"[^"]*"/gu, ''));
}

function atLineEnd(analysis: Analysis, offset: number): TextEdit[] {
  const { text, lines } = analysis;
  const { line } = lines.position(offset);
  if (line === 0) return [];
  const previous = { start: lines.lineStart(line - 1), end: lines.lineStart(line) - 1 };
  const finished = lineEdits(analysis, previous);
  const start = lines.lineStart(line);
  const [white = ''] = /^[^\S\r\n]*/u.exec(text.slice(start)) ?? [];
  const empty = /^[^\S\r\n]*\r?(?:\n|$)/u.test(text.slice(start));
  const wanted = goesOn(analysis, text.slice(previous.start, previous.end).trimEnd(), previous.start) ? indent : white;
  return empty && white !== wanted
    ? [...finished, { range: rangeOf(lines, { start, end: start + white.length }), newText: wanted }]
    : finished;
}

/** Whether what follows a line belongs to the same statement: it ends open, or begins a run of several cores. */
function goesOn(analysis: Analysis, line: string, start: number): boolean {
  const words = line.replace(/(?:^|\s)#.*$/u, '').trimEnd();
  if (words === '') return false;
  if (/,$|\s(?:to|and)$/u.test(words)) return true;
  const statement = statementBefore(analysis, start);
  if (statement?.offset !== start || statement.shaped.spec?.word !== 'run') return false;
  const cores = analysis.model.runs.get(statement.node.names[0]?.value ?? '')?.facts.number('size', 'cores') ?? 1;
  return cores > 1;
}
