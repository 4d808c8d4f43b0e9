import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

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
      '{subject:name<part|run>|terminal} {what=voltage|current|drop|temperature|charge} at {bound=least|most} {limit:quantity} [ in {case:name<case>} ( and {case:name<case>} )* ]',
      'A part or run, what of it, and its bound.',
      'FRIDGE voltage at least 11.6 V in dusk',
      ['expect-not-met'],
      { required: true },
    ),
  ],
};
