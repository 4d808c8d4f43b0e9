import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import { clause } from '../define.ts';

export const statement: StatementSpec = {
  word: 'system',
  alsoCalled: ['anlage', 'système'],
  category: 'statement',
  title: 'the installation',
  meaning: 'Title, nominal voltage, temperatures and set of limits of the whole; at most one in a spec.',
  head: 'none',
  example: 'system "Spokewagon" 12 V, ambient 35 °C, limits iec-60364-5-52',
  clauses: [
    clause('voltage', '{voltage:voltage}', 'Nominal voltage.', '12 V', ['answers', 'hover:quantity'], {
      standardValues: ['12 V', '24 V', '48 V'],
    }),
    clause(
      'ambient',
      'ambient {temperature:temperature}',
      'Temperature where no place says another; 30 °C when unsaid.',
      'ambient 35 °C',
      ['cable-too-small', 'answers'],
    ),
    clause(
      'coldest',
      'coldest {temperature:temperature}',
      'Coldest it gets; panels give their highest voltage then.',
      'coldest -12 °C',
      ['pv-voltage-over-controller', 'hover:system', 'answers'],
    ),
    clause(
      'hottest',
      'hottest {temperature:temperature}',
      'Hottest it gets, the cells of panels in the sun included.',
      'hottest 70 °C',
      ['answers', 'hover:system', 'pv-below-charging-voltage'],
    ),
    clause(
      'limits',
      'limits {set:word}',
      'The set of limits that cables and drops are held to: a published one, or a limit-set in stock.',
      'limits iec-60364-5-52',
      ['cable-too-small', 'drop-over-limit', 'protection-too-far'],
      { standardValues: ['limits iec-60364-5-52', 'limits cfr-33-183', 'limits nec-310', 'limits iso-13297'] },
    ),
    clause('both-poles', 'both poles', 'Its isolators are to open both conductors.', 'both poles', [
      'one-conductor-switched',
      'hover:system',
    ]),
    clause(
      'site',
      'site {latitude:angle} {north=north|south} {longitude:angle} {east=east|west}',
      'Where it stands, for the sun.',
      'site 52.1° north 5.3° east',
      ['hover:system', 'later: energy balance'],
    ),
  ],
};
