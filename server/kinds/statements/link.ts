import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'link',
  category: 'statement',
  title: 'link',
  meaning: 'Solid bars between terminals of one part. Poles are in parallel only when both of their sides are linked.',
  head: 'name',
  example: 'link Q1 1-3, 2-4',
  clauses: [
    clause(
      'bar',
      '{bar:range}',
      'A bar between two terminals.',
      '1-3',
      ['bar-on-one-side', 'switch-below-fuse', 'answers'],
      { required: true, repeatable: true },
    ),
  ],
};
