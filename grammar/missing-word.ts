/** A quantity whose unit alone tells before which word it belongs: `fuse F1 30 A, 2 kA` for `breaks 2 kA`. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { quantityTypes } from './forms.ts';
import { type Match, matchOf } from './match.ts';
import { type Mend, word, writtenAs } from './mend.ts';
import { insert, problem, quoted } from './phrases.ts';
import type { Repaired } from './repair.ts';
import type { Atom, QuantityAtom } from './tree.ts';
import { symbolsOf, usualSymbol } from './units.ts';

/**
 * The clause that the quantity at `at` was meant for, where one alone that is not said yet takes it behind a word and in that
 * unit, which is not the plain one of its dimension. `commaMissing` where no comma parts it from what is before.
 */
export function wordMissing(
  atoms: readonly Atom[],
  at: number,
  { spec, compiled, words, commaMissing }: Beside,
): Repaired | undefined {
  const only = clauseByUnit(atoms[at], spec, compiled, words);
  if (only === undefined) return undefined;
  const { keyword, match, quantity } = only;
  const { span, text } = quantity;
  const before = commaMissing ? (atoms[at - 1] as Atom).span.end : span.start;
  const told = problem('unknown-clause', span, `${quoted(keyword)} is missing before ${quoted(text)}.`, [
    insert(`Write ${keyword} ${text}`, before, commaMissing ? `, ${keyword}` : `${keyword} `, true),
  ]);
  return { match: { ...match, end: at + 1 }, problems: [told] };
}

/** `breaking capacity 5 kA` for `breaks 5 kA`: words that are none here before a quantity that tells what they mean. */
export function otherWords(atoms: readonly Atom[], spec: CompiledSpec, compiled: CompiledVocabulary): Mend[] {
  const end = atoms.findIndex(({ kind }) => kind !== 'word');
  if (end < 1 || end > 3) return [];
  const only = clauseByUnit(atoms[end], spec, compiled, new Set());
  if (only === undefined) return [];
  const some = atoms.slice(0, end);
  return [writtenAs(some, 0, only.keyword, [word(only.keyword, some)])];
}

interface ByUnit {
  readonly keyword: string;
  readonly match: Match;
  readonly quantity: QuantityAtom;
}

function clauseByUnit(
  quantity: Atom | undefined,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  words: ReadonlySet<string>,
): ByUnit | undefined {
  if (quantity?.kind !== 'quantity') return undefined;
  const { dimension, unit } = quantity;
  if (symbolsOf(dimension)[0] === unit) return undefined;
  const found: { keyword: string; match: Match }[] = [];
  for (const form of spec.forms) {
    const [first, second] = form.steps;
    if (first?.is !== 'word' || second?.is !== 'slot' || words.has(first.word)) continue;
    if (!second.types.some((type) => quantityTypes.get(type)?.includes(dimension) === true)) continue;
    if (usualSymbol(dimension, form.clause.example) !== unit) continue;
    const match = matchOf(form, [word(first.word, [quantity]), quantity], 0, compiled.words);
    if (match?.end === 2) found.push({ keyword: first.word, match });
  }
  const [only, another] = found;
  return only === undefined || another !== undefined ? undefined : { ...only, quantity };
}

interface Beside {
  readonly spec: CompiledSpec;
  readonly compiled: CompiledVocabulary;
  /** All that the statement has already. */
  readonly words: ReadonlySet<string>;
  readonly commaMissing: boolean;
}
