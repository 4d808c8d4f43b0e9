/**
 * Formatting while typing: at a comma the words before it on the line, at a line end the line that was finished, and the
 * beginning of the next: its indent where the statement goes on, `#` where a remark was parted. Nothing else behind the
 * pointer is touched.
 */
import type { TextEdit } from 'vscode-languageserver';
import { indent } from '../../grammar/format-statement.ts';
import { parseDocument, type ShapedTree } from '../../grammar/parse.ts';
import { formatEdits } from '../../grammar/printer.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { statementBefore } from './at.ts';
import { rangeOf } from './ranges.ts';
import { lineSpan, remarkOn } from './remarks.ts';

export const formattingTriggers = ['\n', ','] as const;

/** `offset` is behind the character typed. */
export function formattingOnType(analysis: Analysis, offset: number, typed: string): TextEdit[] {
  if (typed === ',') return atComma(analysis, offset);
  return typed === '\n' ? atLineEnd(analysis, offset) : [];
}

function atComma(analysis: Analysis, offset: number): TextEdit[] {
  const comma = offset - 1;
  const { line } = analysis.lines.position(comma);
  if (analysis.text.charAt(comma) !== ',' || isLetter(analysis, line, comma)) return [];
  const { start, end } = lineSpan(analysis, line);
  // As if the line ended before the comma: so the words behind it do not count.
  return lineEdits(analysis, { start, end: comma }, end);
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
      newText: newText.replace(/\r?\n$/u, ''),
    }))
    .filter(({ span, newText }) => start <= span.start && span.end <= end && (span.start < span.end || newText !== ''))
    .map(({ span, newText }) => ({ range: rangeOf(lines, span), newText }));
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
function isLetter(analysis: Analysis, line: number, comma: number): boolean {
  const remark = remarkOn(analysis, line);
  if (remark !== undefined && remark.start < comma) return true;
  const statement = statementBefore(analysis, comma);
  const relative = comma - (statement?.offset ?? 0);
  return (
    statement?.node.atoms.some(({ kind, span }) => kind === 'text' && span.start < relative && relative < span.end) ===
    true
  );
}

function atLineEnd(analysis: Analysis, offset: number): TextEdit[] {
  const { text, lines } = analysis;
  const { line } = lines.position(offset);
  if (line === 0) return [];
  const finished = lineEdits(analysis, lineSpan(analysis, line - 1));
  const { start, end } = lineSpan(analysis, line);
  const [white = ''] = /^[^\S\r\n]*/u.exec(text.slice(start, end)) ?? [];
  const wanted = beginning(analysis, line, white, text.slice(start + white.length, end));
  if (white === wanted) return finished;
  // What stays is left alone: the pointer may stand behind it.
  let same = 0;
  while (same < white.length && white[same] === wanted[same]) same += 1;
  const range = rangeOf(lines, { start: start + same, end: start + white.length });
  return [...finished, { range, newText: wanted.slice(same) }];
}

/** What a new line begins with before `rest`, the words that were behind the pointer when the line end was typed. */
function beginning(analysis: Analysis, line: number, white: string, rest: string): string {
  const before = lineSpan(analysis, line - 1);
  const remark = remarkOn(analysis, line - 1);
  const words = analysis.text.slice(before.start, remark?.start ?? before.end).trimEnd();
  if (rest === '') return goesOn(analysis, line - 1, words) ? indent : white;
  if (rest.startsWith('#') || begins(statementOn(analysis, line), line)) return white;
  // Of a line that was parted both halves say what they said.
  if (remark !== undefined) {
    const lead = analysis.text.slice(before.start, remark.start).replace('\uFEFF', '');
    return `${words === '' ? lead : indent}# `;
  }
  return words !== '' && statementOn(analysis, line - 1)?.shaped.spec !== undefined ? indent : white;
}

/** Whether a line begins a statement of its own, and not with a word that clauses have too, as in `way 3 fuse 5 A`. */
function begins(statement: ShapedPlaced | undefined, line: number): boolean {
  if (statement === undefined || statement.line !== line) return false;
  const spec = statement.shaped.wrapper ?? statement.shaped.spec;
  return spec !== undefined && (spec.head === 'none' || statement.node.names.length > 0);
}

/** Whether what follows a line belongs to the same statement: it ends open, or begins a run of several cores. */
function goesOn(analysis: Analysis, line: number, words: string): boolean {
  if (words === '') return false;
  if (/,$|\s(?:to|and)$/u.test(words)) return true;
  const statement = statementOn(analysis, line);
  if (statement?.line !== line || statement.shaped.spec?.word !== 'run') return false;
  const cores = analysis.model.runs.get(statement.node.names[0]?.value ?? '')?.facts.number('size', 'cores') ?? 1;
  return cores > 1;
}

/** The statement that a line belongs to. */
function statementOn(analysis: Analysis, line: number): ShapedPlaced | undefined {
  const { start, end } = lineSpan(analysis, line);
  const statement = statementBefore(analysis, end);
  return statement !== undefined && statement.offset + statement.node.text.length > start ? statement : undefined;
}
