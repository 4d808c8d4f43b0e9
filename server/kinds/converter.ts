import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'converter',
  alsoCalled: ['step-down', 'buck'],
  category: 'kind',
  family: 'conversion',
  title: 'd.c. converter',
  withArticle: 'a converter',
  meaning:
    'Makes one direct voltage of another (a d.c. to d.c. converter, step-down or step-up); its output begins a supply of its own.',
  head: 'names',
  example: 'converter U3 5 V, 6 A, efficiency 88 %, common negative',
  behaviour: { is: 'converter', inputs: ['in'], outputs: ['out'] },
  oneNode: false,
  symbol: 'converter',
  clauses: [
    clause('voltage', '{voltage:voltage}', 'Output voltage.', '5 V', ['answers', 'drop-over-limit'], {
      required: true,
      standardValues: ['5 V', '12 V', '19 V', '24 V'],
    }),
    clause('current', '{current:current}', 'Greatest output current.', '6 A', ['answers', 'cable-too-small'], {
      required: true,
      standardValues: ['3 A', '5 A', '10 A', '20 A'],
    }),
    clause(
      'efficiency',
      'efficiency {ratio:ratio}',
      'Output power over input power; 90 % when unsaid.',
      'efficiency 88 %',
      ['answers', 'hover:converter'],
    ),
    clause(
      'common',
      '{common=common|isolated} [{pole=negative|positive}]',
      'Whether input and output share a conductor inside.',
      'common negative',
      ['answers', 'hover:converter'],
    ),
    clause('lowest', 'lowest {voltage:voltage}', 'Lowest input voltage it works at.', 'lowest 10.5 V', [
      'answers',
      'hover:converter',
    ]),
    clause('highest', 'highest {voltage:voltage}', 'Highest input voltage it bears.', 'highest 32 V', [
      'hover:converter',
      'load-above-highest-voltage',
    ]),
    ...commonClauses,
  ],
  terminals: () => [...plusMinus('the input', 'in', 'in'), ...plusMinus('the output', 'out', 'out')],
  contacts: noContacts,
};
