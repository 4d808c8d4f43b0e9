import { pairTerminals } from './define.ts';
import type { KindSpec } from './kind.ts';
import { switchContacts, switchingClauses } from './switching-clauses.ts';

export const kind: KindSpec = {
  word: 'isolator',
  alsoCalled: ['trennschalter', 'sectionneur', 'coupe-batterie', 'disconnector', 'disconnect', 'cut-off'],
  category: 'kind',
  family: 'switching',
  title: 'switch-disconnector',
  withArticle: 'an isolator',
  meaning: 'Parts a circuit from its source so that it can be worked on; it must be rated for direct current.',
  head: 'names',
  example: 'isolator Q1 4 poles, 25 A dc, 150 V, category DC-PV2',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'isolator',
  clauses: switchingClauses,
  terminals: pairTerminals,
  contacts: switchContacts,
};
