/** The vocabulary handed to the grammar: every statement, every kind, the colours and the words that cannot be names. */
import type { StatementSpec, Vocabulary } from '../../grammar/vocabulary.ts';
import { allKinds, allStatements } from './all.ts';
import { colours } from './colours.ts';
import type { KindSpec } from './kind.ts';

export const vocabulary: Vocabulary = {
  statements: new Map<string, StatementSpec>([...allStatements, ...allKinds].map((spec) => [spec.word, spec])),
  colours,
  reserved: new Set([
    'sun',
    'all',
    'loads',
    'sources',
    'to',
    'and',
    'in',
    'at',
    'on',
    'off',
    'with',
    'charge',
    'spare',
    'core',
  ]),
};

const kinds = new Map<string, KindSpec>(allKinds.map((kind) => [kind.word, kind]));

export function kindOf(word: string): KindSpec | undefined {
  return kinds.get(word);
}

/** By its own word or one that people say for it. */
export function kindCalled(word: string): KindSpec | undefined {
  return kinds.get(word) ?? allKinds.find(({ alsoCalled }) => alsoCalled?.includes(word));
}

/** Stands in stock and is no part: `cable`, `limit-set`. */
export function isStockOnly(kind: Pick<KindSpec, 'family'> | undefined): boolean {
  return kind?.family === 'material' || kind?.family === 'limits';
}
