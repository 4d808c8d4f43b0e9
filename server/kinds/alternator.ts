import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'alternator',
  alsoCalled: ['lichtmaschine', 'alternateur'],
  category: 'kind',
  family: 'source',
  title: 'alternator',
  withArticle: 'an alternator',
  meaning: 'The engine’s generator. Its current is limited by its rating.',
  head: 'names',
  example: 'alternator A1 14.2 V, 120 A, fixed',
  behaviour: { is: 'alternator' },
  oneNode: false,
  symbol: 'alternator',
  clauses: [
    clause(
      'voltage',
      '{voltage:voltage}',
      'Regulated voltage.',
      '14.2 V',
      ['answers', 'charge-voltage-and-chemistry', 'hover:alternator'],
      {
        required: true,
        standardValues: ['14.2 V', '14.4 V', '28.4 V'],
      },
    ),
    clause('current', '{current:current}', 'Rated output current.', '120 A', ['answers', 'cable-too-small'], {
      required: true,
      standardValues: ['70 A', '90 A', '120 A', '150 A', '180 A'],
    }),
    clause(
      'regulation',
      '{regulation=fixed|smart}',
      'Whether its voltage is fixed or managed by the vehicle.',
      'fixed',
      ['hover:alternator', 'alternator-without-limit'],
    ),
    ...commonClauses,
  ],
  terminals: () => plusMinus('the alternator'),
  contacts: noContacts,
};
