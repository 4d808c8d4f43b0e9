import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { cableClauses } from '../cable-clauses.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'run',
  alsoCalled: ['leitung', 'kabel', 'câble', 'wire', 'lead', 'conductor', 'cable-run'],
  category: 'statement',
  title: 'cable run',
  meaning: 'One physical cable: its size, its length, its way and its cores, a line each when there are several.',
  head: 'name',
  example: 'run W1 6 mm² red, 4.2 m, P1:+ to Q1:1',
  clauses: [
    clause(
      'stock',
      '= {stock:name<stock>}',
      'Takes everything a stock says; clauses after it override.',
      '= thin6',
      ['answers', 'hover:run'],
      { joins: ['colour'] },
    ),
    ...cableClauses,
    clause(
      'length',
      '{length:length}',
      'Length of the cable.',
      '4.2 m',
      ['drop-over-limit', 'protection-too-far', 'answers'],
      { required: true },
    ),
    clause('colour', '{colour:colour}', 'Colour of a core’s insulation.', 'red', ['answers', 'hover:core'], {
      repeatable: true,
      joins: ['core', 'ends', 'spare'],
    }),
    clause('core', 'core {number:number}', 'Number of a core.', 'core 2', ['answers', 'hover:core'], {
      repeatable: true,
      joins: ['colour', 'ends', 'spare'],
    }),
    clause(
      'ends',
      '{from:end} to {to:end}',
      'The two terminals of a core.',
      'P1:+ to Q1:1',
      ['answers', 'poles-crossed'],
      { repeatable: true },
    ),
    clause('spare', 'spare', 'A core that is not used.', 'spare', ['cores-miscounted', 'hover:run'], {
      repeatable: true,
    }),
    clause(
      'along',
      'along {place:name<place>} [{length:length}] ( and {place:name<place>} [{length:length}] )*',
      'The places it lies in, with lengths if wanted; the warmest governs.',
      'along LOFT 2.4 m and GARAGE 1.8 m',
      ['cable-too-small', 'hover:run'],
      { repeatable: true },
    ),
    clause(
      'bunched',
      'bunched with ({cables:number}|{run:name<run>} ( and {run:name<run>} )*)',
      'How many other cables lie against it, or which runs; each of those then counts the others too.',
      'bunched with 5',
      ['cable-too-small', 'answers'],
    ),
    clause('method', 'in conduit', 'It lies in conduit or trunking, not clipped to a surface.', 'in conduit', [
      'cable-too-small',
      'answers',
    ]),
    clause('sheathed', 'sheathed', 'It is sheathed or enclosed over its whole length.', 'sheathed', [
      'below-least-size',
      'hover:run',
    ]),
    clause(
      'enters',
      'enters {enclosure:name<enclosure>} [ by gland [{size:thread}] | by grommet [{size:length}] | by conduit [{size:length}] | by {entry:name<entry>} | open ]',
      'A wall it passes, and how.',
      'enters ROOF-BOX by gland M20',
      ['entry-without-gland', 'entry-unstated'],
      { repeatable: true },
    ),
  ],
};
