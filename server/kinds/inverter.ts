import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'inverter',
  alsoCalled: ['wechselrichter', 'onduleur'],
  category: 'kind',
  family: 'load',
  title: 'inverter',
  withArticle: 'an inverter',
  meaning: 'Makes mains voltage of the battery’s. Its mains side is not checked and belongs to a licensed person.',
  head: 'names',
  example: 'inverter INV 350 W, surge 700 W, efficiency 88 %, lowest 10.5 V',
  behaviour: { is: 'inverter' },
  oneNode: false,
  symbol: 'inverter',
  clauses: [
    clause('power', '{power:power}', 'Continuous output power.', '350 W', ['answers', 'fuse-below-load'], {
      required: true,
      standardValues: ['150 W', '300 W', '350 W', '500 W', '1000 W', '1500 W', '2000 W', '3000 W'],
    }),
    clause('surge', 'surge {power:power} [for {time:time}]', 'Greatest output for a short time.', 'surge 700 W', [
      'answers',
      'fuse-below-load',
      'cable-too-small',
      'hover:inverter',
    ]),
    clause(
      'efficiency',
      'efficiency {ratio:ratio}',
      'Output power over input power; 90 % when unsaid.',
      'efficiency 88 %',
      ['answers', 'fuse-below-load'],
    ),
    clause('lowest', 'lowest {voltage:voltage}', 'Lowest input voltage it works at.', 'lowest 10.5 V', [
      'answers',
      'fuse-below-load',
    ]),
    clause('highest', 'highest {voltage:voltage}', 'Highest input voltage it bears.', 'highest 16 V', [
      'hover:inverter',
      'load-above-highest-voltage',
    ]),
    clause(
      'charges',
      'charges {current:current}',
      'It also charges the battery from the mains, with this current.',
      'charges 40 A',
      ['answers', 'hover:inverter'],
    ),
    clause('bond', 'bond {size:conductor}', 'Least size of the conductor that bonds its case.', 'bond 10 mm²', [
      'hover:inverter',
      'case-not-bonded',
    ]),
    clause(
      'insulated-case',
      'insulated case',
      'Its case is of plastic or doubly insulated, so there is nothing to bond.',
      'insulated case',
      ['hover:inverter', 'case-not-bonded'],
    ),
    clause('hours', '{hours:daily-time}', 'How long it runs in a day.', '1 h/day', [
      'hover:inverter',
      'later: energy balance',
    ]),
    clause('essential', 'essential', 'It must not fail; stricter limits apply.', 'essential', [
      'drop-over-limit',
      'hover:inverter',
    ]),
    clause(
      'most-fuse',
      'most fuse {current:current}',
      'The largest fuse its maker allows in front of it.',
      'most fuse 60 A',
      ['hover:inverter', 'fuse-above-appliance'],
    ),
    ...commonClauses,
  ],
  terminals: () => [...plusMinus('the battery side'), terminal('case', 'bond of the metal case', { optional: true })],
  contacts: noContacts,
};
