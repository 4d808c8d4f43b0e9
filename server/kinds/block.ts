import { noContacts } from './define.ts';
import { jointClauses, jointTerminals } from './joint-clauses.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'block',
  category: 'kind',
  family: 'joint',
  title: 'terminal block',
  withArticle: 'a block',
  meaning: 'A row of clamps joined to one node, written by its name alone.',
  head: 'names',
  example: 'block TB1 30 A, 8 studs',
  behaviour: { is: 'none' },
  oneNode: true,
  symbol: 'block',
  clauses: jointClauses,
  terminals: jointTerminals,
  contacts: noContacts,
};
