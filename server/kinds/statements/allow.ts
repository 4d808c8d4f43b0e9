import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'allow',
  category: 'statement',
  title: 'accepted finding',
  meaning: 'A finding that is accepted, where, and why.',
  head: 'none',
  example: 'allow drop-over-limit on W9 "horn, used for a second"',
  clauses: [
    clause(
      'finding',
      '{slug:name<slug>} [ on {subject:name<part|run|place|enclosure|case|stock>} ]',
      'Which finding, and on what.',
      'drop-over-limit on W9',
      ['allow-unused', 'hover:slug'],
      { required: true, joins: ['reason'] },
    ),
    clause('reason', '{reason:text}', 'Why it is accepted.', '"horn, used for a second"', ['hover:slug'], {
      required: true,
    }),
  ],
};
