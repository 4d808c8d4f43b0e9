import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'load',
  alsoCalled: [
    'verbraucher',
    'lampe',
    'consommateur',
    'light',
    'lights',
    'lamp',
    'fan',
    'pump',
    'fridge',
    'heater',
    'motor',
    'radio',
    'appliance',
    'consumer',
  ],
  category: 'kind',
  family: 'load',
  title: 'current-using equipment',
  withArticle: 'a load',
  meaning:
    'Anything that takes current: lamps, pumps, fans, a cooler. In watts it draws constant power, in ampere constant current, in ohm it is a resistance.',
  head: 'names',
  example: 'load LAMPS 36 W, 4 h/day, lowest 11.0 V',
  behaviour: { is: 'load' },
  oneNode: false,
  symbol: 'load',
  clauses: [
    clause('power', '{power:power}', 'Rated power.', '36 W', ['answers', 'fuse-below-load'], { oneOf: 'draws' }),
    clause('current', '{current:current}', 'Rated current.', '3 A', ['answers', 'fuse-below-load'], { oneOf: 'draws' }),
    clause('resistance', '{resistance:resistance}', 'Its resistance.', '4 Ω', ['answers', 'fuse-below-load'], {
      oneOf: 'draws',
    }),
    clause(
      'surge',
      'surge {surge:power|current} [for {time:time}]',
      'What it takes when it starts, and for how long.',
      'surge 120 W for 90 s',
      ['answers', 'fuse-below-load', 'cable-too-small', 'hover:load'],
    ),
    clause(
      'for',
      'for {time:time}',
      'It runs only for this long at a time; a starter motor turns so long.',
      'for 4 s',
      ['answers', 'fuse-below-load', 'cable-too-small', 'hover:load'],
    ),
    clause('hours', '{hours:daily-time}', 'How long it runs in a day.', '4 h/day', [
      'answers',
      'cable-too-small',
      'hover:load',
    ]),
    clause('lowest', 'lowest {voltage:voltage}', 'Lowest voltage it works at.', 'lowest 11.0 V', [
      'answers',
      'fuse-below-load',
    ]),
    clause('highest', 'highest {voltage:voltage}', 'Highest voltage it bears.', 'highest 15 V', [
      'hover:load',
      'load-above-highest-voltage',
    ]),
    clause(
      'most-fuse',
      'most fuse {current:current}',
      'The largest fuse its maker allows in front of it.',
      'most fuse 10 A',
      ['hover:load', 'fuse-above-appliance'],
    ),
    clause('essential', 'essential', 'It must not fail; stricter limits apply.', 'essential', [
      'drop-over-limit',
      'hover:load',
    ]),
    clause('cranking', 'cranking', 'A starter motor: exempt from fuses and continuous ratings.', 'cranking', [
      'supply-unfused',
      'cable-too-small',
      'drop-over-limit',
    ]),
    clause(
      'terminal',
      'terminal {name:word}',
      'A further terminal, for a signal or a second feed.',
      'terminal dimmer',
      ['unknown-terminal', 'hover:load'],
      { repeatable: true },
    ),
    ...commonClauses,
  ],
  terminals: (facts) => [
    ...plusMinus('the load'),
    ...facts
      .each('terminal')
      .map((row) => terminal(row.word('terminal', 'name') ?? '', 'further terminal', { optional: true })),
  ],
  contacts: noContacts,
};
