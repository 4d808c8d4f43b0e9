import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'use',
  alsoCalled: ['include', 'import', 'require'],
  category: 'statement',
  title: 'used file',
  meaning: 'Brings in another file’s stock and parts.',
  head: 'none',
  example: 'use "../stock.amps"',
  clauses: [
    clause(
      'path',
      '{path:text}',
      'The file, from where this one stands.',
      '"../stock.amps"',
      ['use-missing', 'circle-of-use'],
      { required: true },
    ),
  ],
};
