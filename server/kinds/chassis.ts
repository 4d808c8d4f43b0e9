import { commonClauses } from './common.ts';
import { clause, noContacts, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'chassis',
  alsoCalled: ['masse', 'ground', 'earth', 'body', 'frame'],
  category: 'kind',
  family: 'return',
  title: 'bonding point on the vehicle body',
  withArticle: 'a chassis point',
  meaning: 'A bonding point on the vehicle’s body. All of them are one body.',
  head: 'names',
  example: 'chassis G1 stud M8',
  behaviour: { is: 'none' },
  oneNode: true,
  symbol: 'chassis',
  clauses: [
    clause(
      'body',
      'body {resistance:resistance}',
      'Resistance from this point to the body; 0 Ω when unsaid.',
      'body 2 mΩ',
      ['answers', 'hover:chassis'],
    ),
    ...commonClauses,
  ],
  terminals: () => [terminal('', 'its one node', { optional: true })],
  contacts: noContacts,
};
