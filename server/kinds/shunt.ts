import { shuntAmps } from '../tables/sizes.ts';
import { commonClausesWithContacts } from './common.ts';
import { clause, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'shunt',
  category: 'kind',
  family: 'measurement',
  title: 'measuring shunt',
  withArticle: 'a shunt',
  meaning: 'Measures the battery’s current by a small voltage across it; everything must pass through it.',
  head: 'names',
  example: 'shunt SH1 150 A, 50 mV',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'shunt',
  clauses: [
    clause(
      'rating',
      '{current:current}',
      'Rated current.',
      '150 A',
      ['answers', 'connector-below-fuse', 'hover:shunt'],
      {
        required: true,
        standardValues: shuntAmps.map((a) => `${a} A`),
      },
    ),
    clause('voltage', '{voltage:voltage}', 'Voltage across it at rated current.', '50 mV', ['answers', 'hover:shunt'], {
      standardValues: ['50 mV', '60 mV', '75 mV'],
    }),
    ...commonClausesWithContacts,
  ],
  terminals: () => [terminal('battery', 'side of the battery'), terminal('load', 'side of everything else')],
  contacts: () => [{ from: 'battery', to: 'load', pole: 1, operated: 'fixed', protects: false }],
};
