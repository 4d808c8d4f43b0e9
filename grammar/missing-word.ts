/** A quantity whose unit alone tells before which word it belongs: `fuse F1 30 A, 2 kA` for `breaks 2 kA`. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { quantityTypes } from './forms.ts';
import { type Match, matchOf } from './match.ts';
import { word } from './mend.ts';
import { insert, problem, quoted } from './phrases.ts';
import type { Repaired } from './repair.ts';
import type { Atom } from './tree.ts';
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
  const quantity = atoms[at];
  if (quantity?.kind !== 'quantity') return undefined;
  const { dimension, unit, span, text } = quantity;
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
  if (only === undefined || another !== undefined) return undefined;
  const { keyword, match } = only;
  const before = commaMissing ? (atoms[at - 1] as Atom).span.end : span.start;
  const told = problem('unknown-clause', span, `${quoted(keyword)} is missing before ${quoted(text)}.`, [
    insert(`Write ${keyword} ${text}`, before, commaMissing ? `, ${keyword}` : `${keyword} `, true),
  ]);
  return { match: { ...match, end: at + 1 }, problems: [told] };
}

interface Beside {
  readonly spec: CompiledSpec;
  readonly compiled: CompiledVocabulary;
  /** All that the statement has already. */
  readonly words: ReadonlySet<string>;
  readonly commaMissing: boolean;
}
