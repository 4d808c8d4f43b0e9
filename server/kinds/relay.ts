import { commonClausesWithContacts } from './common.ts';
import { clause, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'relay',
  alsoCalled: ['relais'],
  category: 'kind',
  family: 'switching',
  title: 'relay',
  withArticle: 'a relay',
  meaning:
    'A switch worked by a coil, such as a split-charge relay: 86 and 85 are the coil, 30 goes to 87 when it is energised and to 87a when not (ISO 7588).',
  head: 'names',
  example: 'relay K1 coil 12 V 150 mA, contact 40 A',
  behaviour: { is: 'coil', from: '86', to: '85' },
  oneNode: false,
  symbol: 'relay',
  clauses: [
    clause(
      'coil',
      'coil {voltage:voltage} [{current:current}]',
      'Rated voltage of its coil, and the current it takes.',
      'coil 12 V 150 mA',
      ['answers', 'hover:relay', 'coil-voltage'],
      { required: true },
    ),
    clause(
      'rating',
      'contact {current:current}',
      'Rated current of its contact.',
      'contact 40 A',
      ['switch-below-fuse', 'switch-below-load'],
      { required: true, standardValues: ['contact 30 A', 'contact 40 A', 'contact 60 A', 'contact 100 A'] },
    ),
    clause(
      'opens-below',
      'opens below {voltage:voltage}',
      'A low-voltage cut-off: it opens below this voltage.',
      'opens below 11.2 V',
      ['answers', 'hover:relay'],
    ),
    clause(
      'closes-above',
      'closes above {voltage:voltage}',
      'A low-voltage cut-off: it closes again above this voltage.',
      'closes above 12.6 V',
      ['hover:relay', 'answers'],
    ),
    ...commonClausesWithContacts,
  ],
  terminals: () => [
    terminal('86', 'coil, positive', { side: 'coil' }),
    terminal('85', 'coil, negative', { side: 'coil' }),
    terminal('30', 'common contact'),
    terminal('87', 'contact that closes when the coil is energised', { optional: true }),
    terminal('87a', 'contact that opens when the coil is energised', { optional: true }),
  ],
  contacts: (facts) => {
    const amps = facts.number('rating');
    const rated = amps === undefined ? {} : { ratedAmps: amps };
    return [
      { from: '30', to: '87', pole: 1, operated: 'coil', protects: false, ...rated },
      { from: '30', to: '87a', pole: 2, operated: 'coil-rest', protects: false, ...rated },
    ];
  },
};
