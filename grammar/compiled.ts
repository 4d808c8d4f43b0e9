/** A vocabulary made ready for reading: forms compiled once, found by what an atom may begin. */
import { clauseWords, compileForm, type Form, openingSteps, quantityTypes } from './forms.ts';
import type { MatchWords } from './match.ts';
import type { Atom } from './tree.ts';
import type { StatementSpec, Vocabulary } from './vocabulary.ts';

export interface CompiledSpec {
  readonly spec: StatementSpec;
  readonly forms: readonly Form[];
  /** Forms by a keyword they may begin with. */
  readonly byWord: ReadonlyMap<string, readonly Form[]>;
  /** Forms that may begin with a value. */
  readonly open: readonly Form[];
  /** Forms that an atom may begin, in the table's order. */
  beginningWith(atom: Atom): readonly Form[];
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
    const own = compileSpec(spec);
    specs.set(spec.word, own);
    for (const word of own.byWord.keys()) openers.set(word, [...(openers.get(word) ?? []), own]);
  }
  const made = { vocabulary, words: { colours: vocabulary.colours, reserved: vocabulary.reserved }, specs, openers };
  compiled.set(vocabulary, made);
  return made;
}

const wordTypes = new Set(['word', 'colour', 'thread', 'ip', 'end']);
const none: readonly Form[] = [];

function compileSpec(spec: StatementSpec): CompiledSpec {
  const forms = spec.clauses.map(compileForm);
  const byWord = new Map<string, Form[]>();
  const byKind = new Map<string, Form[]>();
  const open: Form[] = [];
  const put = (map: Map<string, Form[]>, key: string, form: Form) => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [form]);
    else if (list.at(-1) !== form) list.push(form);
  };
  for (const form of forms) {
    for (const step of openingSteps(form)) {
      if (step.is === 'word') put(byWord, step.word, form);
      else if (step.is === 'choice') for (const word of step.words) put(byWord, word, form);
      else {
        if (open.at(-1) !== form) open.push(form);
        for (const type of step.types) for (const key of kindKeys(type)) put(byKind, key, form);
      }
    }
  }
  // A word may be a keyword here and a value there.
  const words = byKind.get('word') ?? none;
  const either = new Map(
    [...byWord].map(([word, own]) => [word, forms.filter((f) => own.includes(f) || words.includes(f))]),
  );
  const equals = byWord.get('=') ?? none;
  const beginningWith = (atom: Atom): readonly Form[] => {
    switch (atom.kind) {
      case 'word':
        return either.get(atom.value) ?? words;
      case 'quantity':
        return byKind.get(atom.dimension) ?? none;
      case 'equals':
        return equals;
      default:
        return byKind.get(atom.kind) ?? none;
    }
  };
  return { spec, forms, byWord, open, beginningWith };
}

/** Kinds of atom that a slot's type may take: a dimension stands for a quantity in it. */
function kindKeys(type: string): readonly string[] {
  const dimensions = quantityTypes.get(type);
  if (dimensions !== undefined) return dimensions;
  if (type === 'number') return ['number', 'blank'];
  if (type === 'end') return ['terminal', 'word'];
  if (type.startsWith('name<') || wordTypes.has(type)) return ['word'];
  return [type];
}

/** Every keyword of every clause of a statement or kind. */
export function wordsOf(spec: StatementSpec): string[] {
  return spec.clauses.flatMap((clause) => clauseWords(compileForm(clause)));
}
