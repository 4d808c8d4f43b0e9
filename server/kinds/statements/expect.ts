import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

/** What may be expected, with the quantities that bound it. */
const bounded = (what: string, quantities: string) => `{what=${what}} at {bound=least|most} {limit:${quantities}}`;

const bounds = [
  bounded('voltage', 'voltage'),
  bounded('current', 'current'),
  bounded('drop', 'ratio|voltage'),
  bounded('temperature', 'temperature'),
  bounded('charge', 'ratio'),
];

export const statement: StatementSpec = {
  word: 'expect',
  category: 'statement',
  title: 'expectation',
  meaning: 'What must hold, in some cases or in every one.',
  head: 'none',
  example: 'expect FRIDGE voltage at least 11.6 V in dusk',
  clauses: [
    clause(
      'what',
      `{subject:name<part|run>|terminal} ( ${bounds.join(' | ')} ) [ in {case:name<case>} ( and {case:name<case>} )* ]`,
      'A part or run, what of it, and its bound.',
      'FRIDGE voltage at least 11.6 V in dusk',
      ['expect-not-met'],
      { required: true },
    ),
  ],
};
