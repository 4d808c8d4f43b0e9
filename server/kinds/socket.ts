import { socketAmps } from '../tables/sizes.ts';
import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'socket',
  alsoCalled: ['steckdose', 'prise', 'outlet'],
  category: 'kind',
  family: 'load',
  title: 'socket-outlet',
  withArticle: 'a socket',
  meaning: 'A low-voltage outlet. It is worked out with what is said to be plugged in, else with its rating.',
  head: 'names',
  example: 'socket USB1 15 A, plugged in 36 W',
  behaviour: { is: 'socket' },
  oneNode: false,
  symbol: 'socket',
  clauses: [
    clause(
      'rating',
      '{current:current}',
      'Rated current.',
      '15 A',
      ['answers', 'connector-below-fuse', 'fuse-below-load'],
      {
        required: true,
        standardValues: socketAmps.map((a) => `${a} A`),
      },
    ),
    clause('plugged', 'plugged in {power:power|current}', 'What is plugged in.', 'plugged in 36 W', [
      'answers',
      'connector-below-fuse',
      'fuse-below-load',
    ]),
    clause('hours', '{hours:daily-time}', 'How long it is used in a day.', '3 h/day', [
      'hover:socket',
      'later: energy balance',
    ]),
    clause('lowest', 'lowest {voltage:voltage}', 'Lowest voltage what is plugged in works at.', 'lowest 11.0 V', [
      'answers',
      'fuse-below-load',
    ]),
    clause('highest', 'highest {voltage:voltage}', 'Highest voltage what is plugged in bears.', 'highest 15 V', [
      'hover:socket',
      'load-above-highest-voltage',
    ]),
    clause('essential', 'essential', 'It must not fail; stricter limits apply.', 'essential', [
      'drop-over-limit',
      'hover:socket',
    ]),
    ...commonClauses,
  ],
  terminals: () => plusMinus('the socket'),
  contacts: noContacts,
};
