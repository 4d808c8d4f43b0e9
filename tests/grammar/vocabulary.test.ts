/** The real vocabulary, as far as the grammar depends on it. */
import { describe, expect, it } from 'vitest';
import { readStatement } from '../../grammar/atoms.ts';
import { compile, wordsOf } from '../../grammar/compiled.ts';
import { openingWords } from '../../grammar/forms.ts';
import { matchOf } from '../../grammar/match.ts';
import { headsOf, parseDocument } from '../../grammar/parse.ts';
import { formatDocument } from '../../grammar/printer.ts';
import { isStockOnly, kindOf, vocabulary } from '../../server/kinds/vocabulary.ts';

const { specs, words } = compile(vocabulary);
const all = [...specs.values()];

/** A statement of that kind with one clause. */
function withClause(word: string, example: string): string {
  const { spec } = specs.get(word) as (typeof all)[number];
  const head = isStockOnly(kindOf(word)) ? `stock NEW ${word}` : spec.head === 'none' ? word : `${word} NEW`;
  return `${head} ${example}`;
}

const problems = (text: string) =>
  parseDocument(text, vocabulary).statements.flatMap(({ shaped }) =>
    shaped.problems.map(({ slug, message }) => `${slug}: ${message}`),
  );

describe('every statement and kind', () => {
  it.each(all.map(({ spec }) => [spec.word, spec.example]))('%s: its example reads without a problem', (_, example) => {
    expect(problems(example)).toEqual([]);
  });

  it.each(all.map(({ spec }) => [spec.word]))(
    '%s: every clause’s example is read as that clause, and stays so formatted',
    (word) => {
      for (const { clause } of specs.get(word)?.forms ?? []) {
        const text = withClause(word, clause.example);
        const ids = (source: string) =>
          parseDocument(source, vocabulary).statements[0]?.shaped.clauses.map(({ spec: { id } }) => id);
        const read = ids(text) ?? [];
        expect([text, problems(text).filter((found) => !found.startsWith('missing-separator'))]).toEqual([text, []]);
        expect([text, read]).toEqual([text, expect.arrayContaining([clause.id])]);
        expect(ids(formatDocument(parseDocument(text, vocabulary)))).toEqual(read);
      }
    },
  );

  it.each(all.map(({ spec }) => [spec.word]))('%s: an example fits its own form whole', (word) => {
    for (const form of specs.get(word)?.forms ?? []) {
      const { body } = readStatement(`use ${form.clause.example}`, headsOf(vocabulary));
      // A clause that others join is shown with them.
      const match = matchOf(form, body, 0, words);
      expect([form.clause.id, match?.end]).toEqual([form.clause.id, body.length]);
    }
  });
});

describe('words', () => {
  it('that begin a clause begin no statement, but where the clause’s second word tells them apart', () => {
    const clashes = all.flatMap(({ spec, forms }) =>
      forms.flatMap((form) => {
        const second = form.elements[1];
        return openingWords(form)
          .words.filter((word) => vocabulary.statements.has(word) && second?.is !== 'word')
          .map((word) => `${spec.word}: ${word}`);
      }),
    );
    expect(clashes).toEqual([]);
  });

  it('are lower case, so that a name may always be told by its case', () => {
    for (const { spec } of all) for (const word of [spec.word, ...wordsOf(spec)]) expect(word).toBe(word.toLowerCase());
  });

  it('that are reserved are words of the notation', () => {
    const used = new Set(all.flatMap(({ spec }) => wordsOf(spec)));
    for (const word of vocabulary.reserved) expect(['with', 'and'].includes(word) || used.has(word)).toBe(true);
  });
});
