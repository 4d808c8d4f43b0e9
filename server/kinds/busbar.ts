import { noContacts } from './define.ts';
import { jointClauses, jointTerminals } from './joint-clauses.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'busbar',
  alsoCalled: ['sammelschiene', 'bar', 'bus', 'bus-bar'],
  category: 'kind',
  family: 'joint',
  title: 'busbar',
  withArticle: 'a busbar',
  meaning: 'A bar that many conductors meet at: one node, written by its name alone.',
  head: 'names',
  example: 'busbar POS 150 A, 6 studs, stud M8',
  behaviour: { is: 'none' },
  oneNode: true,
  symbol: 'busbar',
  clauses: jointClauses,
  terminals: jointTerminals,
  contacts: noContacts,
};
