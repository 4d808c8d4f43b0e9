/** A proposal to read some atoms otherwise, and how it is told. */
import { problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem, Span, WordAtom } from './tree.ts';

/** Atoms to be read otherwise: `remove` of them at `at` give way to `put`. */
export interface Mend {
  readonly at: number;
  readonly remove: number;
  readonly put: readonly Atom[];
  readonly problem: Problem;
}

export const word = (value: string, atoms: readonly Atom[]): WordAtom => ({
  kind: 'word',
  value,
  span: spanOf(atoms),
  text: textOf(atoms),
  leading: atoms[0]?.leading ?? '',
});

/** Of all of them, or of those between two indexes. */
export function spanOf(atoms: readonly Atom[], from = 0, to = atoms.length): Span {
  return { start: atoms[from]?.span.start ?? 0, end: atoms[to - 1]?.span.end ?? 0 };
}

/** The atoms as they are written, but for comments between them. */
export function textOf(atoms: readonly Atom[]): string {
  return atoms.map(({ text, leading }, i) => (i === 0 || leading === '' ? text : ` ${text}`)).join('');
}

/** The atoms are written another way, which is told as a rule of the notation. */
export function writtenAs(atoms: readonly Atom[], at: number, right: string, put: readonly Atom[]): Mend {
  const span = spanOf(atoms);
  const message = `${quoted(textOf(atoms))} is written ${right} here.`;
  return {
    at,
    remove: atoms.length,
    put,
    problem: problem('unknown-clause', span, message, [replace(`Write ${right}`, span, right, true)]),
  };
}
