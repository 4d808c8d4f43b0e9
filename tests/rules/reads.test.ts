/** What a rule says that it decides from is there to be said. */
import { describe, expect, it } from 'vitest';
import { allKinds, allStatements } from '../../server/kinds/all.ts';
import { commonClauses } from '../../server/kinds/common.ts';
import { allRules } from '../../server/rules/all.ts';

/** `part.at` is the clause of any part. */
const clauses = new Set([
  ...commonClauses.map(({ id }) => `part.${id}`),
  ...[...allKinds, ...allStatements].flatMap(({ word, clauses: own }) => own.map(({ id }) => `${word}.${id}`)),
]);

describe.each(allRules.map((rule) => [rule.slug, rule] as const))('%s', (_, { group, reads }) => {
  it('reads clauses that a kind or statement has, each named once', () => {
    expect(reads.filter((one) => !clauses.has(one))).toEqual([]);
    expect(new Set(reads).size).toBe(reads.length);
  });

  it('says what it decides from, unless it is about the words themselves or about the whole', () => {
    if (group === 'language' || group === 'spec') return;
    expect(reads.length).toBeGreaterThan(0);
  });
});
