import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'place',
  alsoCalled: ['location', 'area', 'ort', 'lieu'],
  category: 'statement',
  title: 'location',
  meaning: 'Somewhere in the vehicle: how warm it gets, and what it is like there.',
  head: 'name',
  example: 'place LOFT 55 °C, indoors',
  clauses: [
    clause('temperature', '{temperature:temperature}', 'How warm it gets.', '55 °C', ['cable-too-small', 'answers']),
    clause('exposure', '{exposure=indoors|outdoors}', 'Inside or out in the weather.', 'outdoors', [
      'hover:place',
      'box-ip-for-place',
    ]),
    clause('gas-locker', 'gas locker', 'Gas bottles are kept here.', 'gas locker', [
      'hover:place',
      'switch-in-gas-locker',
    ]),
    clause('engine-space', 'engine space', 'The engine is here: 50 °C at least.', 'engine space', [
      'cable-too-small',
      'answers',
    ]),
    clause('heat-source', 'heat source', 'Something hot is here.', 'heat source', [
      'hover:place',
      'heat-source-near-cable',
    ]),
  ],
};
