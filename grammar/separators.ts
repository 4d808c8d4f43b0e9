/** Other signs that people write where a comma parts two clauses. */
import { problem, quoted } from './phrases.ts';
import { isSemicolon } from './segments.ts';
import type { Atom, Problem, StatementNode } from './tree.ts';

/** What people write between clauses for a comma; semicolons part them already. */
export function isStandInForComma(atom: Atom): boolean {
  return atom.kind === 'junk' ? /^[/|&+·]$/.test(atom.text) : atom.kind === 'word' && atom.value === 'and';
}

/** One problem for all of them; those with nothing behind them are no commas either. */
export function semicolonsInstead(semicolons: readonly Atom[], node: StatementNode): Problem {
  const solid = node.body.filter((atom) => atom.kind !== 'line' && !isSemicolon(atom)).at(-1)?.span.end ?? 0;
  const between = semicolons.filter(({ span }) => span.start < solid);
  const behind = semicolons.slice(between.length);
  const takenOut = behind.map(({ span }) => ({ span, newText: '' }));
  if (between.length === 0) {
    const { span, text } = semicolons[0] as Atom;
    return problem('unknown-clause', span, `${quoted(text)} means nothing here: take it out.`, [
      { title: 'Take it out', safe: false, edits: takenOut },
    ]);
  }
  const found = standInForComma(between, node);
  return { ...found, fixes: (found.fixes ?? []).map((fix) => ({ ...fix, edits: [...fix.edits, ...takenOut] })) };
}

export function standInForComma(stands: readonly Atom[], { text }: StatementNode): Problem {
  const first = stands[0] as Atom;
  const edits = stands.map(({ span, leading }) => ({
    // At a line's beginning a comma stays there, and its comment stays whole.
    span: { start: span.start - (/[\n#]/.test(leading) ? 0 : leading.length), end: span.end },
    newText: /^\s|^$/.test(text.slice(span.end, span.end + 1)) ? ',' : ', ',
  }));
  return problem(
    'missing-separator',
    first.span,
    `Clauses are separated by a comma or a new line, not by ${quoted(first.text)}.`,
    [{ title: stands.length === 1 ? 'Put a comma instead' : 'Put commas instead', safe: true, edits }],
  );
}
