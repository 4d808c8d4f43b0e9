/** Statements of the analysed file as actions deal with them: which is meant, where it ends, what is put before or behind it. */
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { TextInBlocks } from '../../../grammar/text-in-blocks.ts';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import type { Run } from '../../model/model.ts';
import { statementBefore } from '../at.ts';
import type { Asked } from './offered.ts';
import type { Change } from './patched.ts';

export function newlineOf({ text }: Analysis): string {
  return text.charAt(text.indexOf('\n') - 1) === '\r' ? '\r\n' : '\n';
}

export function spanOf({ offset, node }: ShapedPlaced): Span {
  return { start: offset, end: offset + node.text.length };
}

/**
 * The statement that the selection begins in; the place behind its last word is still its own. Where it begins with a remark or
 * a blank line, the first statement that it reaches.
 */
export function statementAt({ analysis, span }: Asked): ShapedPlaced | undefined {
  const statement = statementBefore(analysis, span.start);
  const words = statement === undefined ? -1 : statement.offset + statement.node.text.trimEnd().length;
  if (span.start <= words) return statement;
  const next = span.end > span.start ? analysis.tree.statements.find(({ offset }) => offset > span.start) : undefined;
  return next !== undefined && next.offset < span.end ? next : undefined;
}

/** All that the selection reaches, the first as `statementAt` has it. */
export function statementsIn(asked: Asked): ShapedPlaced[] {
  const { analysis, span } = asked;
  const first = statementAt(asked);
  if (first === undefined) return [];
  const others = analysis.tree.statements.filter(({ offset }) => offset > first.offset && offset < span.end);
  return [first, ...others];
}

const troubled = new WeakMap<Analysis, ReadonlySet<string | undefined>>();

/** Names of whatever cannot be read as it is meant: a run with a core too few, one whose stock is of another kind. */
function troubledNames(analysis: Analysis): ReadonlySet<string | undefined> {
  let names = troubled.get(analysis);
  if (names === undefined) {
    names = new Set(analysis.model.problems.map(({ subject }) => subject));
    troubled.set(analysis, names);
  }
  return names;
}

/** The run that a statement lays, if it is sound: read whole, and declared by this statement and no other. */
export function runOf(analysis: Analysis, statement: ShapedPlaced | undefined): Run | undefined {
  const { model } = analysis;
  if (statement?.shaped.spec?.word !== 'run' || statement.shaped.wrapper !== undefined || !isSound(statement))
    return undefined;
  const run = model.runs.get(statement.node.names[0]?.value ?? '');
  return run?.origin.statement === statement && !troubledNames(analysis).has(run.name) ? run : undefined;
}

/** Nothing in it is unread, and no clause has a comment within it: else it cannot be written anew without harm. */
export function isSound({ node, shaped }: ShapedPlaced): boolean {
  if (node.problems.length > 0 || shaped.problems.length > 0 || shaped.unknown.length > 0) return false;
  return !node.comments.some((comment) =>
    shaped.clauses.some(({ span }) => span.start < comment.span.start && comment.span.start < span.end),
  );
}

/** A statement's text for another. */
export function rewritten(statement: ShapedPlaced, newText: string): Change {
  return { span: spanOf(statement), newText };
}

/** Whole lines behind a statement. */
export function behind(analysis: Analysis, statement: ShapedPlaced, lines: readonly string[]): Change {
  const { end } = spanOf(statement);
  const newline = newlineOf(analysis);
  const before = statement.node.text.endsWith('\n') ? '' : newline;
  return { span: { start: end, end }, newText: `${before}${lines.join(newline)}${newline}` };
}

/** Whole lines above a statement, and above the comment lines that are its notes. */
export function above(analysis: Analysis, statement: ShapedPlaced, lines: readonly string[]): Change {
  const newline = newlineOf(analysis);
  const start = notesStart(analysis.text, statement);
  return { span: { start, end: start }, newText: lines.map((line) => `${line}${newline}`).join('') };
}

/** Where the notes of a statement begin; its own beginning where it has none. */
export function notesStart(text: TextInBlocks, { offset, notes }: ShapedPlaced): number {
  let start = offset;
  if (notes === '') return start;
  for (let lines = notes.split('\n').length; lines > 0 && start > 0; lines -= 1) start = text.lineStart(start - 1);
  return start;
}
