import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const caseClauses = [
  clause('sun', 'sun {sun:ratio}', 'How much of full sun there is; none when unsaid.', 'sun 80 %', [
    'answers',
    'hover:case',
  ]),
  clause('charge', 'charge {charge:ratio}', 'State of charge of every battery.', 'charge 60 %', [
    'answers',
    'hover:case',
  ]),
  clause(
    'charge-of',
    '{battery:name<part>} charge {charge:ratio}',
    'State of charge of one battery.',
    'B1 charge 60 %',
    ['answers', 'hover:case'],
    { repeatable: true },
  ),
  clause(
    'volts-of',
    '{battery:name<part>} at {voltage:voltage}',
    'Electromotive force of one battery.',
    'B1 at 12.5 V',
    ['answers', 'hover:case'],
    { repeatable: true },
  ),
  clause(
    'all',
    'all {group=loads|sources} {state=on|off}',
    'Every load, or every source, on or off; a starter motor (cranking) is on only where it is named.',
    'all loads on',
    ['answers', 'hover:case'],
    { repeatable: true },
  ),
  clause(
    'state',
    '{part:name<part>} ( and {part:name<part>} )* {state=on|off}',
    'Parts that are on or off; loads are off and switches closed when unsaid.',
    'LAMPS and FAN on',
    ['answers', 'hover:case'],
    { repeatable: true },
  ),
  clause(
    'position',
    '{selector:name<part>} at ( {position:number} | {position=off} | {position=both} )',
    'Position of one selector: 1, 2, off or both. When unsaid it is at both, or else at the first supply it has.',
    'S9 at 2',
    ['answers', 'hover:case'],
    { repeatable: true },
  ),
  clause('ambient', 'ambient {temperature:temperature}', 'Temperature everywhere in this case.', 'ambient 5 °C', [
    'answers',
    'hover:case',
  ]),
  clause(
    'conductors',
    'conductors at {temperature:temperature}',
    'Temperature of all conductors, instead of working it out.',
    'conductors at 20 °C',
    ['answers', 'hover:case'],
  ),
];

export const statement: StatementSpec = {
  word: 'case',
  alsoCalled: ['scenario', 'fall', 'cas'],
  category: 'statement',
  title: 'operating condition',
  meaning: 'A condition to work out: sun, charge, what is on and off.',
  head: 'name',
  example: 'case dusk sun 0 %, charge 60 %, LAMPS on',
  clauses: caseClauses,
};
