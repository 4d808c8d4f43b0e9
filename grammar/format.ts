/**
 * The formatter: canonical units and spacing, heads of neighbouring statements in one column, cores of a run in theirs,
 * continuation lines indented alike. Every line stays a line, every comment stays, at most two blank lines follow each
 * other. What it cannot read it leaves, and a statement that would read otherwise afterwards too.
 */
import { canonicalText } from './canonical.ts';
import { headText, indent, isReadable, statementLines, widestHead } from './format-statement.ts';
import { parseDocument, type ShapedTree } from './parse.ts';
import type { ShapedPlaced, ShapedStatement } from './shaped.ts';
import type { Span, StatementNode } from './tree.ts';
import type { Vocabulary } from './vocabulary.ts';

export interface TextEdit {
  readonly span: Span;
  readonly newText: string;
}

/** The document as the formatter writes it. */
export function formatDocument(tree: ShapedTree): string {
  const whole = String(tree.text);
  const kept = formatLines(tree).flatMap(({ text, newline }) => (text === undefined ? [] : [text + newline]));
  return byteOrderMark(whole) + kept.join('');
}

/** The formatter's changes line by line, each as small as can be, in order of place; within a span only, if one is given. */
export function formatEdits(tree: ShapedTree, within?: Span): TextEdit[] {
  const whole = String(tree.text);
  const edits: TextEdit[] = [];
  for (const { start, end, text, newline } of formatLines(tree)) {
    if (within !== undefined && (end <= within.start || start > within.end)) continue;
    const before = whole.slice(start, end);
    const after = text === undefined ? '' : text + newline;
    if (before !== after) edits.push(smallestEdit(before, after, start));
  }
  return edits;
}

function smallestEdit(before: string, after: string, at: number): TextEdit {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < most - head && before.at(-1 - tail) === after.at(-1 - tail)) tail += 1;
  return {
    span: { start: at + head, end: at + before.length - tail },
    newText: after.slice(head, after.length - tail),
  };
}

/** The line end of the line that `end` is behind; the first of the text where it has none. */
function newlineOf(text: string, end: number): string {
  const newline = text.charAt(end - 1) === '\n' ? end - 1 : text.indexOf('\n');
  return text.charAt(newline - 1) === '\r' ? '\r\n' : '\n';
}

function byteOrderMark(text: string): string {
  return text.startsWith('\uFEFF') ? '\uFEFF' : '';
}

/** A line of the source, its line end included, and what it becomes; undefined when it goes. */
interface FormattedLine {
  readonly start: number;
  readonly end: number;
  readonly text: string | undefined;
  /** What it ends in: its own line end, whatever those of other lines are. */
  readonly newline: string;
}

const mostBlankLines = 2;

function formatLines(tree: ShapedTree): FormattedLine[] {
  const widths = headWidths(tree);
  const texts = tree.items.flatMap((item, i) => {
    if (item.kind === 'gap') {
      // A mark of byte order before a statement is no line: it stands on the statement's own.
      const own = i === tree.items.length - 1 ? item.text : item.text.replace(/\uFEFF$/, '');
      return sourceLines(own).map((line) => gapLine(line.replace(/^\uFEFF/, '')));
    }
    return statementText(item, widths.get(item) ?? 0, tree.vocabulary);
  });
  const lines: FormattedLine[] = [];
  const whole = String(tree.text);
  let start = byteOrderMark(whole).length;
  let blanks = mostBlankLines;
  for (const text of texts) {
    const newline = whole.indexOf('\n', start);
    const end = newline === -1 ? whole.length : newline + 1;
    blanks = text === '' ? blanks + 1 : 0;
    lines.push({ start, end, text: blanks > mostBlankLines ? undefined : text, newline: newlineOf(whole, end) });
    start = end;
  }
  // Blank lines at the end go, down to the last line that says something.
  for (let i = lines.length - 1; i >= 0 && (lines[i]?.text ?? '') === ''; i--)
    lines[i] = { ...(lines[i] as FormattedLine), text: undefined };
  return lines;
}

/** Lines without their ends; the line end at the text's end begins no other. */
function sourceLines(text: string): string[] {
  const lines = text.split(/\r?\n/);
  if (lines.at(-1) === '') lines.pop();
  return lines;
}

function gapLine(line: string): string {
  const comment = line.trim();
  return comment !== '' && /^\s/.test(line) ? indent + comment : comment;
}

function statementText(placed: ShapedPlaced, width: number, vocabulary: Vocabulary): string[] {
  const asWritten = sourceLines(placed.node.text).map((line) => line.trimEnd());
  if (!isReadable(placed)) return asWritten;
  const lines = statementLines(placed, width);
  const same = lines.length === asWritten.length && lines.every((line, i) => line === asWritten[i]);
  return same || readsAlike(placed, lines.join('\n'), vocabulary) ? lines : asWritten;
}

/** Whether a statement's new text says what the old one does, to the last atom and comment. */
function readsAlike({ node, shaped }: ShapedPlaced, text: string, vocabulary: Vocabulary): boolean {
  const { items, statements } = parseDocument(text, vocabulary);
  const [again] = statements;
  if (again === undefined || items.length !== 1) return false;
  return said(node) === said(again.node) && understood(shaped) === understood(again.shaped);
}

/** What is read into a statement: its clauses, and what is found wrong with it but for its indentation, in words. */
function understood({ clauses, problems }: ShapedStatement): string {
  const found = problems.filter(({ slug }) => slug !== 'indented-statement').map(({ message }) => unspaced(message));
  return [...clauses.map(({ spec, segment }) => `${spec.id} ${segment}`), ...found].join();
}

/** A message may quote what is written, with more space or less, and `mm2` for `mm²`. */
const unspaced = (message: string) => message.normalize('NFKC').replace(/\s+/g, '');

function said({ atoms, comments }: StatementNode): string {
  const words = atoms.map((atom) => (atom.kind === 'line' ? '\n' : `${atom.kind} ${canonicalText(atom)}`));
  // The line end at the statement's end may be missing in either.
  if (words.at(-1) === '\n') words.pop();
  return [...words, ...comments.map(({ text }) => text.trimEnd())].join('\u0000');
}

/** Width of the head's column for every statement: the longest of those that follow each other without a line between. */
function headWidths(tree: ShapedTree): Map<ShapedPlaced, number> {
  const widths = new Map<ShapedPlaced, number>();
  let group: ShapedPlaced[] = [];
  const close = () => {
    const lengths = group.map((one) => headText(one.node).length).filter((length) => length <= widestHead);
    const width = lengths.reduce((most, length) => Math.max(most, length), 0);
    for (const one of group) widths.set(one, width);
    group = [];
  };
  for (const item of tree.items) {
    if (item.kind === 'gap' || item.node.names.length === 0 || !isReadable(item)) {
      close();
      continue;
    }
    // Runs are read down their own column; a part's long title is not theirs.
    if (group[0] !== undefined && columnOf(group[0]) !== columnOf(item)) close();
    group.push(item);
  }
  close();
  return widths;
}

/** Parts of all kinds share a column; of other statements each word has its own. */
function columnOf({ shaped }: ShapedPlaced): string {
  const spec = shaped.wrapper ?? shaped.spec;
  return spec?.category === 'kind' ? '' : (spec?.word ?? '');
}
