import { commonClauses } from './common.ts';
import { clause, noContacts, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'connector',
  category: 'kind',
  family: 'joint',
  title: 'connector',
  withArticle: 'a connector',
  meaning: 'A plug and its socket; each pin is one node for both halves. Never part it under load.',
  head: 'names',
  example: 'connector X1 2 pins, 30 A, 60 V',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'connector',
  clauses: [
    clause('pins', '{count:number} (pin|pins)', 'Number of pins.', '2 pins', ['unknown-terminal', 'answers'], {
      required: true,
    }),
    clause('rating', '{current:current}', 'Rated current of one pin.', '30 A', [
      'hover:connector',
      'connector-below-fuse',
    ]),
    clause('voltage', '{voltage:voltage}', 'Rated voltage.', '60 V', [
      'hover:connector',
      'later: insulation-for-place',
    ]),
    ...commonClauses,
  ],
  terminals: (facts) =>
    Array.from({ length: Math.min(facts.number('pins') ?? 2, 60) }, (_, i) =>
      terminal(String(i + 1), `pin ${i + 1}, both halves`, { optional: true }),
    ),
  contacts: noContacts,
};
