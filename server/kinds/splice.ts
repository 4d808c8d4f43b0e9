import { noContacts } from './define.ts';
import { jointClauses, jointTerminals } from './joint-clauses.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'splice',
  alsoCalled: ['crimp', 'joint', 'butt'],
  category: 'kind',
  family: 'joint',
  title: 'splice',
  withArticle: 'a splice',
  meaning: 'A joint of conductors: one node, written by its name alone.',
  head: 'names',
  example: 'splice J1 in ROOF-BOX',
  behaviour: { is: 'none' },
  oneNode: true,
  symbol: 'splice',
  clauses: jointClauses,
  terminals: jointTerminals,
  contacts: noContacts,
};
