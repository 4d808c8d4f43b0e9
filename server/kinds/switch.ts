import { pairTerminals } from './define.ts';
import type { KindSpec } from './kind.ts';
import { switchContacts, switchingClauses } from './switching-clauses.ts';

export const kind: KindSpec = {
  word: 'switch',
  alsoCalled: ['schalter', 'interrupteur'],
  category: 'kind',
  family: 'switching',
  title: 'switch',
  withArticle: 'a switch',
  meaning: 'Turns a circuit on and off in ordinary use.',
  head: 'names',
  example: 'switch S1 1 pole, 10 A dc, 24 V',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'switch',
  clauses: switchingClauses,
  terminals: pairTerminals,
  contacts: switchContacts,
};
