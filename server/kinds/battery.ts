import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'battery',
  alsoCalled: ['batterie', 'accumulator', 'cell', 'leisure-battery'],
  category: 'kind',
  family: 'source',
  title: 'secondary battery',
  withArticle: 'a battery',
  meaning: 'A battery. It cannot be switched off, and its fault current is large.',
  head: 'names',
  example:
    'battery B1 lithium-iron-phosphate, 12.8 V, 150 Ah, discharge 150 A, charge 75 A, internal 5 mΩ, frost cut-off',
  behaviour: { is: 'battery' },
  oneNode: false,
  symbol: 'battery',
  clauses: [
    clause(
      'chemistry',
      '{chemistry=lithium-iron-phosphate|lead-acid|agm|gel|lithium-ion}',
      'What it is made of; decides its voltage and its care.',
      'lithium-iron-phosphate',
      ['answers', 'hover:battery'],
      { required: true },
    ),
    clause('voltage', '{voltage:voltage}', 'Nominal voltage.', '12.8 V', ['answers', 'drop-over-limit'], {
      required: true,
      standardValues: ['12 V', '12.8 V', '24 V', '25.6 V', '48 V', '51.2 V'],
    }),
    clause('capacity', '{capacity:charge}', 'Rated capacity.', '150 Ah', ['answers', 'hover:battery'], {
      required: true,
      standardValues: ['50 Ah', '80 Ah', '100 Ah', '150 Ah', '200 Ah', '300 Ah'],
    }),
    clause('discharge', 'discharge {current:current}', 'Greatest continuous discharge current.', 'discharge 150 A', [
      'hover:battery',
      'discharge-over-battery',
    ]),
    clause('charge', 'charge {current:current}', 'Greatest charge current.', 'charge 75 A', [
      'hover:battery',
      'charge-current-over-battery',
    ]),
    clause(
      'internal',
      'internal {resistance:resistance}',
      'Internal resistance, terminal to terminal.',
      'internal 5 mΩ',
      ['answers', 'hover:battery'],
    ),
    clause(
      'charge-voltage',
      'charge voltage {voltage:voltage}',
      'Charging voltage its maker asks for.',
      'charge voltage 14.4 V',
      ['answers', 'hover:battery'],
    ),
    clause('casing', '{casing=sealed|vented}', 'Whether it gives off gas in ordinary use.', 'sealed', [
      'hover:battery',
      'vented-battery-indoors',
      'ignition-near-vented-battery',
    ]),
    clause('frost-cut-off', 'frost cut-off', 'It refuses to be charged when frozen.', 'frost cut-off', [
      'hover:battery',
      'lithium-charged-in-frost',
    ]),
    clause('heated', 'heated', 'It warms itself before it is charged.', 'heated', [
      'hover:battery',
      'lithium-charged-in-frost',
    ]),
    ...commonClauses,
  ],
  terminals: () => plusMinus('the battery'),
  contacts: noContacts,
};
