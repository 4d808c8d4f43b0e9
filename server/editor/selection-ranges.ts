/** Selection that grows by meaning: word or number, value, clause, line, remarks, statement, section of the file, file. */
import type { SelectionRange } from 'vscode-languageserver';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { SourceText } from '../../grammar/text-in-blocks.ts';
import type { Atom, Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { statementBefore } from './at.ts';
import { rangeOf } from './ranges.ts';
import { remarkOn } from './remarks.ts';

export function selectionRanges(analysis: Analysis, offsets: readonly number[]): SelectionRange[] {
  return offsets.map((offset) => {
    const spans = spansAround(analysis, offset);
    let range: SelectionRange | undefined;
    for (const span of spans) {
      const parent: SelectionRange | undefined = range;
      range = { range: rangeOf(analysis.lines, span), ...(parent === undefined ? {} : { parent }) };
    }
    return range ?? { range: rangeOf(analysis.lines, { start: offset, end: offset }) };
  });
}

/** From the file down to what stands at the offset, each within the one before and smaller. */
function spansAround(analysis: Analysis, offset: number): Span[] {
  const { text, lines } = analysis;
  const { line } = lines.position(offset);
  const wholeLine = trimmed(text, lines.lineStart(line), lines.lineStart(line + 1));
  const wanted = [
    { start: 0, end: text.length },
    paragraph(analysis, line),
    ...inNotes(analysis, offset),
    ...inStatement(analysis, offset),
    wholeLine,
    ...inRemark(analysis, line, offset),
  ];
  const spans: Span[] = [];
  // A line may be wider than a statement of one line, or narrower than one of several.
  for (const span of wanted.sort((a, b) => length(b) - length(a))) {
    const outer = spans.at(-1);
    if (span.start > offset || span.end < offset) continue;
    if (outer === undefined || (outer.start <= span.start && span.end <= outer.end && length(span) < length(outer)))
      spans.push(span);
  }
  return spans;
}

const length = ({ start, end }: Span) => end - start;

/** Without white space at either end. */
function trimmed(text: SourceText, start: number, end: number): Span {
  const piece = text.slice(start, end);
  const from = start + piece.length - piece.trimStart().length;
  return { start: from, end: Math.max(from, start + piece.trimEnd().length) };
}

/** The lines around one that no blank line parts. */
function paragraph({ text, lines }: Analysis, line: number): Span {
  const blank = (at: number) => text.slice(lines.lineStart(at), lines.lineStart(at + 1)).trim() === '';
  let [first, last] = [line, line];
  while (first > 0 && !blank(first - 1)) first -= 1;
  while (last + 1 < lines.lineCount && !blank(last + 1)) last += 1;
  return trimmed(text, lines.lineStart(first), lines.lineStart(last + 1));
}

function inStatement(analysis: Analysis, offset: number): Span[] {
  const statement = statementBefore(analysis, offset);
  if (statement === undefined || offset > statement.offset + statement.node.text.length) return [];
  const { shaped, node } = statement;
  const own = trimmed(analysis.text, statement.offset, statement.offset + node.text.length);
  const relative = offset - statement.offset;
  const touched = ({ start, end }: Span) => start <= relative && relative <= end;
  const absolute = ({ start, end }: Span): Span => ({ start: statement.offset + start, end: statement.offset + end });
  const clause = shaped.clauses.find(({ span }) => touched(span));
  const atom =
    node.atoms.find(({ kind, span }) => solid(kind) && span.start <= relative && relative < span.end) ??
    node.atoms.find(({ kind, span }) => solid(kind) && touched(span));
  return [
    withNotes(analysis, statement, own),
    own,
    ...(clause === undefined ? [] : [absolute(clause.span)]),
    ...(atom === undefined ? [] : [atom.span, ...insideAtom(atom, relative)].map(absolute)),
  ];
}

const solid = (kind: Atom['kind']) => kind !== 'line' && kind !== 'comma';

/** A statement with the remarks directly above it. */
function withNotes({ lines }: Analysis, { notes, line }: ShapedPlaced, own: Span): Span {
  const above = notes === '' ? 0 : notes.split('\n').length;
  return { start: above === 0 ? own.start : lines.lineStart(line - above), end: own.end };
}

/** The part or the terminal of `Q1:1`, the number or the unit of `6 mm²`, a text without its quotes. */
function insideAtom(atom: Atom, relative: number): Span[] {
  const pieces = (): readonly Span[] => {
    switch (atom.kind) {
      case 'terminal':
        return [atom.partSpan, atom.terminalSpan];
      case 'quantity':
        return [atom.numberSpan, atom.unitSpan];
      case 'text':
        return [{ start: atom.span.start + 1, end: atom.span.end - (atom.closed ? 1 : 0) }];
      default:
        return [];
    }
  };
  const touching = pieces().filter(({ start, end }) => start < end && start <= relative && relative <= end);
  const holding = touching.find(({ end }) => relative < end) ?? touching[0];
  return holding === undefined ? [] : [holding];
}

/** The statement whose notes stand at the offset. */
function inNotes(analysis: Analysis, offset: number): Span[] {
  const statements = analysis.model.files[0]?.statements ?? [];
  const before = statementBefore(analysis, offset);
  const next = statements[before === undefined ? 0 : statements.indexOf(before) + 1];
  if (next === undefined || next.notes === '') return [];
  const own = trimmed(analysis.text, next.offset, next.offset + next.node.text.length);
  return [withNotes(analysis, next, own)];
}

/** The remarks that stand together, the remark of the line, and the word in it. */
function inRemark(analysis: Analysis, line: number, offset: number): Span[] {
  const { text, lines } = analysis;
  const own = remarkOn(analysis, line);
  if (own === undefined || offset < own.start) return [];
  const alone = (at: number) => {
    const remark = at < 0 || at >= lines.lineCount ? undefined : remarkOn(analysis, at);
    return remark !== undefined && text.slice(lines.lineStart(at), remark.start).trim() === '' ? remark : undefined;
  };
  let [first, last] = [own, own];
  if (alone(line) !== undefined) {
    for (let at = line - 1, above = alone(at); above !== undefined; above = alone(--at)) first = above;
    for (let at = line + 1, below = alone(at); below !== undefined; below = alone(++at)) last = below;
  }
  const before = /[\p{L}\p{M}\p{N}_-]*$/u.exec(text.slice(own.start, offset))?.[0].length ?? 0;
  const behind = /^[\p{L}\p{M}\p{N}_-]*/u.exec(text.slice(offset, own.end))?.[0].length ?? 0;
  return [
    { start: first.start, end: last.end },
    own,
    ...(before + behind === 0 ? [] : [{ start: offset - before, end: offset + behind }]),
  ];
}
