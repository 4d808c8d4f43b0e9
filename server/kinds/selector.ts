import { commonClausesWithContacts } from './common.ts';
import { clause, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'selector',
  category: 'kind',
  family: 'switching',
  title: 'selector switch',
  withArticle: 'a selector',
  meaning:
    'Joins its common terminal to one of two supplies, to both, or to none: the 1-2-both battery selector, also with an off position.',
  head: 'names',
  example: 'selector S9 200 A, positions off 1 2 both',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'selector',
  clauses: [
    clause(
      'rating',
      '{current:current} [dc]',
      'Rated d.c. current.',
      '200 A',
      ['switch-below-fuse', 'switch-below-load'],
      { required: true, standardValues: ['100 A', '150 A', '200 A', '300 A'] },
    ),
    clause('voltage', '{voltage:voltage} [dc]', 'Rated d.c. voltage.', '48 V', ['hover:selector', 'switch-voltage']),
    clause(
      'positions',
      'positions [off] [{first:number}] [{second:number}] [both]',
      'The positions it has.',
      'positions off 1 2 both',
      ['answers', 'hover:selector'],
    ),
    ...commonClausesWithContacts,
  ],
  terminals: () => [
    terminal('common', 'common terminal'),
    terminal('1', 'first supply', { optional: true }),
    terminal('2', 'second supply', { optional: true }),
  ],
  contacts: (facts) => {
    const amps = facts.number('rating');
    return ['1', '2'].map((to, index) => ({
      from: to,
      to: 'common',
      pole: index + 1,
      operated: 'position' as const,
      protects: false,
      ...(amps === undefined ? {} : { ratedAmps: amps }),
    }));
  },
};
