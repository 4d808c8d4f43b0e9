/**
 * Characters that no one meant to write: those that cannot be seen, which come along when text is pasted, and the wide forms
 * of signs and digits that keyboards for Chinese, Japanese and Korean give. Each statement tells of them once.
 */
import { problem, quoted } from './phrases.ts';
import type { Atom, Problem, ProblemFix } from './tree.ts';

/**
 * For the inside of a character class: zero-width spaces, marks of direction, the soft hyphen, and control characters
 * that are no white space. Joiners of letters, which some scripts need, are not among them.
 */
export const unseen = '\\u00ad\\u200b\\u200e\\u200f\\u202a-\\u202e\\u2060-\\u2064\\0-\\x08\\x0e-\\x1f\\x7f-\\x9f';
const anyUnseen = new RegExp(`[${unseen}]`);
const allUnseen = new RegExp(`[${unseen}]+`, 'g');

/** Wide signs anywhere, wide digits only where they begin a number: in a name of such letters they are at home. */
const wide = /[\u3001\uff01-\uff0f\uff1a-\uff20\uff3b-\uff40\uff5b-\uff5e]|(?<![\p{L}\p{M}\p{N}_-])[\uff10-\uff19]+/gu;
const mayBeWide = /[\u3001\uff01-\uff5e]/;

/** The text with every wide form as its usual one, and as long as before. */
export function narrowed(text: string): string {
  if (!mayBeWide.test(text)) return text;
  return text.replace(wide, (found) =>
    [...found].map((one) => (one === '、' ? ',' : String.fromCharCode(one.charCodeAt(0) - 0xfee0))).join(''),
  );
}

/** A word without what cannot be seen in it. */
export function seen(word: string): string {
  return anyUnseen.test(word) ? word.replace(allUnseen, '') : word;
}

/** At most one problem of either sort. Texts in quotes and comments may hold whatever they like. */
export function strayCharacters(text: string, atoms: readonly Atom[], trailing: string): Problem[] {
  return [...unseenIn(text, atoms, trailing), ...wideIn(text, atoms)];
}

function unseenIn(text: string, atoms: readonly Atom[], trailing: string): Problem[] {
  if (!anyUnseen.test(text)) return [];
  const places: { start: number; end: number }[] = [];
  const look = (piece: string, from: number) => {
    for (const { 0: found, index } of piece.matchAll(allUnseen))
      places.push({ start: from + index, end: from + index + found.length });
  };
  const lookBetween = (piece: string, from: number) => {
    if (!piece.includes('#')) look(piece, from);
  };
  for (const { kind, span, leading } of atoms) {
    lookBetween(leading, span.start - leading.length);
    if (kind !== 'text') look(text.slice(span.start, span.end), span.start);
  }
  lookBetween(trailing, text.length - trailing.length);
  const [first] = places;
  if (first === undefined) return [];
  const beside = besideOf(atoms, first.start);
  const span = beside === undefined ? first : beside.span;
  const fix: ProblemFix = {
    title: places.length === 1 ? 'Take it out' : 'Take them out',
    safe: true,
    edits: places.map((place) => ({ span: place, newText: '' })),
  };
  const where = beside === undefined ? 'here' : `beside ${quoted(seen(text.slice(span.start, span.end)))}`;
  const message =
    places.length === 1
      ? `A character that cannot be seen stands ${where}; such come along with pasted text: take it out.`
      : `Characters that cannot be seen stand in this statement, the first ${where}; such come along with pasted text: take them out.`;
  return [problem('stray-character', span, message, [fix])];
}

/** What cannot be seen cannot be underlined: the word it stands in is, or one beside it on its line; undefined where there is none. */
function besideOf(atoms: readonly Atom[], at: number): Atom | undefined {
  const next = atoms.findIndex(({ span }) => span.end > at);
  const sides = (next === -1 ? [atoms.at(-1)] : [atoms[next], atoms[next - 1]]).filter((atom) => atom?.kind !== 'line');
  return sides.find((atom) => atom?.kind !== 'comma') ?? sides[0];
}

function wideIn(text: string, atoms: readonly Atom[]): Problem[] {
  if (!mayBeWide.test(text)) return [];
  const edits = atoms.flatMap(({ kind, span }) => {
    const piece = text.slice(span.start, span.end);
    if (kind === 'text') return [];
    return [...piece.matchAll(wide)].map(({ 0: found, index }) => ({
      span: { start: span.start + index, end: span.start + index + found.length },
      newText: narrowed(found),
      found,
    }));
  });
  const [first] = edits;
  if (first === undefined) return [];
  const more = edits.length === 1 ? '' : ', and the same for the others in this statement';
  return [
    problem(
      'stray-character',
      first.span,
      `Write “${first.newText}” for its wide form ${quoted(first.found)}${more}.`,
      [{ title: 'Write the usual forms', safe: true, edits: edits.map(({ span, newText }) => ({ span, newText })) }],
    ),
  ];
}
