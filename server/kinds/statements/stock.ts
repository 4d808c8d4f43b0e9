import type { StatementSpec } from '../../../grammar/vocabulary.ts';

export const statement: StatementSpec = {
  word: 'stock',
  category: 'statement',
  title: 'stock item',
  meaning:
    'A specification that several parts or runs take with =. Its name, the kind of thing, and then that kind’s clauses.',
  head: 'name',
  example: 'stock thin6 cable 6 mm², class 5, 105 °C, od 4.8 mm',
  clauses: [],
};
