import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'controller',
  alsoCalled: ['laderegler', 'solarregler', 'mppt', 'pwm', 'regulator', 'solar-controller'],
  category: 'kind',
  family: 'conversion',
  title: 'photovoltaic charge controller',
  withArticle: 'a controller',
  meaning: 'Stands between panels and battery and limits what goes into the battery.',
  head: 'names',
  example: 'controller U1 mppt, pv 100 V 30 A, output 20 A, common negative',
  behaviour: { is: 'converter', inputs: ['pv'], outputs: ['bat', 'load'] },
  oneNode: false,
  symbol: 'controller',
  clauses: [
    clause(
      'method',
      '{method=mppt|pwm}',
      'How it follows the panels: at their greatest power, or tied to the battery’s voltage.',
      'mppt',
      ['answers', 'hover:controller'],
      { required: true },
    ),
    clause(
      'pv',
      'pv {voltage:voltage} [{current:current}] [{power:power}]',
      'Greatest panel voltage, and greatest panel current or power.',
      'pv 100 V 30 A',
      ['answers', 'hover:controller', 'pv-voltage-over-controller', 'pv-current-over-controller'],
      { required: true },
    ),
    clause(
      'output',
      'output {current:current}',
      'Greatest charging current.',
      'output 20 A',
      ['answers', 'cable-too-small'],
      { required: true, standardValues: ['10 A', '15 A', '20 A', '30 A', '40 A', '50 A', '60 A'] },
    ),
    clause(
      'load-output',
      'load output {current:current}',
      'Greatest current of its load terminals.',
      'load output 15 A',
      ['answers', 'hover:controller'],
    ),
    clause(
      'charge-voltage',
      'charge voltage {voltage:voltage}',
      'Charging voltage it is set to.',
      'charge voltage 14.4 V',
      ['answers', 'charge-voltage-and-chemistry', 'hover:controller'],
    ),
    clause(
      'common',
      '{common=common|isolated} [{pole=negative|positive}]',
      'Whether panel and battery sides share a conductor inside.',
      'common negative',
      ['answers', 'hover:controller'],
    ),
    clause(
      'battery-first',
      'connect battery first',
      'The maker wants the battery connected before the panels.',
      'connect battery first',
      ['hover:controller', 'battery-opened-before-panels'],
    ),
    ...commonClauses,
  ],
  terminals: (facts) => [
    ...plusMinus('the panel side', 'pv', 'pv'),
    ...plusMinus('the battery side', 'bat', 'bat'),
    ...(facts.says('load-output')
      ? plusMinus('the load side', 'load', 'load').map((t) => ({ ...t, optional: true }))
      : []),
  ],
  contacts: noContacts,
};
