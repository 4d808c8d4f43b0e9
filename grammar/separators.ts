/** Other signs that people write where a comma parts two clauses. */

import type { CompiledSpec } from './compiled.ts';
import { insert, problem, quoted } from './phrases.ts';
import { isSemicolon } from './segments.ts';
import type { Atom, Problem, QuantityAtom, StatementNode } from './tree.ts';

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

/** Signs for commas and commas that are missing in one statement are one habit: both are mended together. */
export function signsAndCommas(signs: Problem, commas: Problem): Problem {
  const edits = [signs, commas].flatMap(({ fixes = [] }) => fixes.flatMap((fix) => fix.edits));
  return { ...signs, fixes: [{ title: 'Put commas', safe: true, edits }] };
}

/** `350 W/700 W`, `1.2 m + 0.3 m`: one clause is said twice with a sign between. */
export function figuresWithSign(sign: Atom, before: Atom, behind: Atom, spec: CompiledSpec): Problem {
  const span = { start: before.span.start, end: behind.span.end };
  const both = `${before.text}${sign.text === '+' ? ' + ' : '/'}${behind.text}`;
  const sum =
    sign.text === '+' && before.kind === 'quantity' && behind.kind === 'quantity' && before.unit === behind.unit
      ? Number(((before.value ?? Number.NaN) + (behind.value ?? Number.NaN)).toPrecision(12))
      : Number.NaN;
  const right = Number.isFinite(sum) && before.kind === 'quantity' ? `${sum} ${before.unit}` : undefined;
  const surge = before.kind === 'quantity' && behind.kind === 'quantity' && isSurge(before, behind, spec);
  if (sign.text !== '+' && surge) {
    const meant = `${before.text}, surge ${behind.text}`;
    const told = `${quoted(both)} is two figures where one is said: if the greater is for a moment, write ${meant}.`;
    return problem('clause-twice', span, told, [
      { title: `Write ${meant}`, safe: false, edits: [{ span, newText: meant }] },
    ]);
  }
  return problem(
    'clause-twice',
    span,
    `${quoted(both)} is two figures where one is said: write ${right === undefined ? 'one of them, and the other behind the word that it belongs to' : `their sum, ${right}`}.`,
    right === undefined ? [] : [{ title: `Write ${right}`, safe: false, edits: [{ span, newText: right }] }],
  );
}

/** `350 W/700 W` of what says how much it takes, or gives, for a moment. */
function isSurge(before: QuantityAtom, behind: QuantityAtom, { byWord }: CompiledSpec): boolean {
  const [less, more] = [before.si ?? Number.NaN, behind.si ?? Number.NaN];
  return byWord.has('surge') && before.dimension === 'power' && behind.dimension === 'power' && more > less;
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

/** How many words a message about missing commas names. */
const mostNamed = 4;

/** One problem for all places of a statement where no comma parts two clauses. */
export function commasMissing(places: readonly (readonly [before: Atom, behind: Atom])[]): Problem {
  const [[before, behind] = []] = places as readonly [readonly [Atom, Atom]];
  const span = { start: before?.span.start ?? 0, end: behind?.span.end ?? 0 };
  const named = places.slice(0, mostNamed).map(([, { text }]) => quoted(text));
  const last = places.length > mostNamed ? `${places.length - mostNamed} more` : named.pop();
  const where = named.length === 0 ? last : `${named.join(', ')} and ${last}`;
  const message =
    places.length === 1
      ? `A comma is missing before ${where}: clauses are separated by a comma or a new line.`
      : `Commas are missing before ${where}: clauses are separated by a comma or a new line.`;
  const edits = places.map(
    ([
      {
        span: { end },
      },
    ]) => insert('', end, ',', true).edits[0],
  );
  const title = places.length === 1 ? 'Put a comma between them' : 'Put commas between them';
  return problem('missing-separator', span, message, [
    { title, safe: true, edits: edits.filter((edit) => edit !== undefined) },
  ]);
}
