/** Atoms that say something in other words than the notation, and those that say it as the notation does. */
import type { CompiledSpec, CompiledVocabulary } from '../compiled.ts';
import { spanOf, textOf } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom, CommaAtom, Problem, QuantityAtom, WordAtom } from '../tree.ts';

/** So many atoms of a body, from one on, give way to others. */
export interface Rewriting {
  readonly count: number;
  readonly put: readonly Atom[];
  readonly problem: Problem;
  /** Nothing else can be meant: so it is read even where the rest of the statement is as wrong as before. */
  readonly sure?: boolean;
  /** Of several of one habit in a statement the first is told, and all are mended with it. */
  readonly habit?: string;
}

/** Looks whether a phrase begins at `at`. */
export type Rewriter = (
  body: readonly Atom[],
  at: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
) => Rewriting | undefined;

/** Told as a rule of the notation; safe where nothing but the wording changes. */
export function rewritten(some: readonly Atom[], right: string, put: readonly Atom[], safe: boolean): Rewriting {
  const span = spanOf(some);
  const told = problem('unknown-clause', span, `${quoted(textOf(some))} is written ${right} here.`, [
    replace(`Write ${right}`, span, right, safe),
  ]);
  return { count: some.length, put, problem: told };
}

/** A comma that is not written, at the place of some atoms. */
export function commaAt(some: readonly Atom[]): CommaAtom {
  return { kind: 'comma', span: spanOf(some), text: ',', leading: '' };
}

export function isWord(atom: Atom | undefined, pattern: RegExp): atom is WordAtom {
  return atom?.kind === 'word' && pattern.test(atom.value);
}

export function isQuantity(
  atom: Atom | undefined,
  ...dimensions: readonly QuantityAtom['dimension'][]
): atom is QuantityAtom {
  return atom?.kind === 'quantity' && dimensions.includes(atom.dimension);
}

/** Whether a clause may begin there. */
export function beginsClause(body: readonly Atom[], at: number): boolean {
  const before = body[at - 1];
  return before === undefined || before.kind === 'comma' || before.kind === 'line';
}

/** So much of a body is looked through for a word: none is longer, but lines of noise may be. */
const mostAtoms = 200;

/** Whether a statement says a word anywhere but at `apart`. */
export function saysWord(body: readonly Atom[], written: string, apart?: Atom): boolean {
  return body.slice(0, mostAtoms).some((one) => one.kind === 'word' && one !== apart && one.value === written);
}

/** Whether it is a name of the user's own. */
export function isName(
  atom: Atom | undefined,
  [{ byWord }, { words }]: readonly [CompiledSpec, CompiledVocabulary],
): atom is WordAtom {
  return atom?.kind === 'word' && !byWord.has(atom.value) && !words.reserved.has(atom.value);
}
