import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';
import { caseClauses } from './case.ts';

const withCase = caseClauses.map((c) => ({
  ...c,
  id: `with-${c.id}`,
  form: `[with] ${c.form}`,
  readBy: ['reading-outside-expectation'],
}));

export const statement: StatementSpec = {
  word: 'reading',
  category: 'statement',
  title: 'measurement',
  meaning: 'What a meter showed, when, and with what switched on or off.',
  head: 'none',
  example: 'reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω with Q1 on',
  clauses: [
    clause(
      'taken',
      '{date:date} [{time:clock}] ( {from:end} to {to:end} {value:voltage|current|resistance|temperature} | {from:end} to {to:end} {state=continuity|open} | {from:end} {value:voltage|current|resistance|temperature} )',
      'The date, the places, and what was read.',
      '2026-04-18 Q1:1 to Q1:2 0.2 Ω',
      ['reading-outside-expectation'],
      { required: true, joins: withCase.map((c) => c.id) },
    ),
    ...withCase,
  ],
};
