/** A vocabulary made ready for reading: forms compiled once, words looked up by what they begin. */
import { clauseWords, compileForm, type Form, type MatchWords, openingWords } from './forms.ts';
import type { StatementSpec, Vocabulary } from './vocabulary.ts';

export interface CompiledSpec {
  readonly spec: StatementSpec;
  readonly forms: readonly Form[];
  readonly byWord: ReadonlyMap<string, readonly Form[]>;
  /** Forms that begin with a value, tried at every place. */
  readonly open: readonly Form[];
  /** Clauses by id, for `joins`. */
  readonly clauseIds: ReadonlySet<string>;
}

export interface CompiledVocabulary {
  readonly vocabulary: Vocabulary;
  readonly words: MatchWords;
  readonly specs: ReadonlyMap<string, CompiledSpec>;
  /** Every keyword that begins a clause somewhere, with the statements and kinds that have it. */
  readonly openers: ReadonlyMap<string, readonly CompiledSpec[]>;
}

const compiled = new WeakMap<Vocabulary, CompiledVocabulary>();

export function compile(vocabulary: Vocabulary): CompiledVocabulary {
  const known = compiled.get(vocabulary);
  if (known) return known;
  const specs = new Map<string, CompiledSpec>();
  const openers = new Map<string, CompiledSpec[]>();
  for (const spec of vocabulary.statements.values()) {
    const forms = spec.clauses.map(compileForm);
    const byWord = new Map<string, Form[]>();
    const open: Form[] = [];
    for (const form of forms) {
      const { words, slot } = openingWords(form);
      for (const word of words) byWord.set(word, [...(byWord.get(word) ?? []), form]);
      if (slot) open.push(form);
    }
    const own = { spec, forms, byWord, open, clauseIds: new Set(spec.clauses.map(({ id }) => id)) };
    specs.set(spec.word, own);
    for (const word of byWord.keys()) openers.set(word, [...(openers.get(word) ?? []), own]);
  }
  const made = { vocabulary, words: { colours: vocabulary.colours, reserved: vocabulary.reserved }, specs, openers };
  compiled.set(vocabulary, made);
  return made;
}

/** Every keyword of every clause of a statement or kind. */
export function wordsOf(spec: StatementSpec): string[] {
  return spec.clauses.flatMap((clause) => clauseWords(compileForm(clause)));
}
