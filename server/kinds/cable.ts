import { cableClauses } from './cable-clauses.ts';
import { clause, noContacts } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'cable',
  category: 'kind',
  family: 'material',
  title: 'cable',
  withArticle: 'a cable',
  meaning: 'A cable on the drum; runs take it from stock.',
  head: 'names',
  example: 'stock thin6 cable 6 mm², class 5, 105 °C, od 4.8 mm',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'cable',
  clauses: [
    ...cableClauses,
    clause('colour', '{colour:colour}', 'Colour of its insulation, for a cable with one core.', 'red', [
      'answers',
      'hover:run',
    ]),
    clause(
      'stock',
      '= {stock:name<stock>}',
      'Takes everything another stock says; clauses after it override.',
      '= thin6',
      ['answers', 'hover:stock'],
      { joins: ['colour'] },
    ),
    clause(
      'reference',
      'reference {reference:text}',
      'The maker’s reference, for the parts list.',
      'reference "TC-6"',
      ['hover:stock', 'later: parts list'],
    ),
    clause(
      'price',
      'price {amount:number} {currency:word} [a {per:word}]',
      'What it costs.',
      'price 1.90 EUR a metre',
      ['hover:stock', 'later: parts list'],
    ),
  ],
  terminals: () => [],
  contacts: noContacts,
};
