import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus } from './define.ts';
import type { KindSpec } from './kind.ts';

const standard = ['60 W', '80 W', '100 W', '120 W', '150 W', '175 W', '200 W', '250 W', '300 W', '400 W'];

export const kind: KindSpec = {
  word: 'panel',
  alsoCalled: ['solarmodul', 'solarpanel', 'panneau', 'solar', 'solar-panel', 'module', 'pv'],
  category: 'kind',
  family: 'source',
  title: 'photovoltaic module',
  withArticle: 'a panel',
  meaning: 'A solar panel. It is live in daylight and its current is limited by the sun.',
  head: 'names',
  example: 'panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A, voc drift -0.30 %/°C',
  behaviour: { is: 'panel' },
  oneNode: false,
  symbol: 'panel',
  clauses: [
    clause(
      'power',
      '{power:power}',
      'Rated power at standard test conditions.',
      '120 W',
      ['panel-figures-disagree', 'hover:panel'],
      {
        required: true,
        standardValues: standard,
      },
    ),
    clause(
      'voc',
      'voc {voltage:voltage}',
      'Open-circuit voltage at standard test conditions.',
      'voc 23.0 V',
      ['answers', 'hover:panel', 'pv-voltage-over-controller', 'panel-figures-disagree'],
      { required: true },
    ),
    clause(
      'isc',
      'isc {current:current}',
      'Short-circuit current at standard test conditions.',
      'isc 6.9 A',
      ['answers', 'cable-too-small', 'switch-below-load', 'pv-current-over-controller', 'panels-mismatched'],
      { required: true },
    ),
    clause(
      'vmp',
      'vmp {voltage:voltage}',
      'Voltage at greatest power.',
      'vmp 19.2 V',
      ['answers', 'hover:panel', 'pv-below-charging-voltage', 'panel-figures-disagree'],
      {
        required: true,
      },
    ),
    clause(
      'imp',
      'imp {current:current}',
      'Current at greatest power.',
      'imp 6.3 A',
      ['answers', 'hover:panel', 'panels-mismatched'],
      {
        required: true,
      },
    ),
    clause(
      'voc-drift',
      'voc drift {drift:relative-drift|voltage-drift}',
      'Change of open-circuit voltage with temperature.',
      'voc drift -0.30 %/°C',
      ['answers', 'hover:panel', 'pv-voltage-over-controller'],
    ),
    clause(
      'isc-drift',
      'isc drift {drift:relative-drift|current-drift}',
      'Change of short-circuit current with temperature.',
      'isc drift 0.05 %/°C',
      ['answers', 'hover:panel'],
    ),
    clause(
      'power-drift',
      'power drift {drift:relative-drift}',
      'Change of greatest power with temperature.',
      'power drift -0.38 %/°C',
      ['answers', 'hover:panel', 'pv-below-charging-voltage'],
    ),
    clause(
      'noct',
      'noct {temperature:temperature}',
      'Cell temperature under nominal operating conditions (IEC 61215).',
      'noct 45 °C',
      ['answers', 'hover:panel'],
    ),
    clause(
      'most-series-fuse',
      'most series fuse {current:current}',
      'The largest fuse the maker allows in its string.',
      'most series fuse 15 A',
      ['string-fuse-needed', 'hover:panel'],
    ),
    clause('tilt', 'tilt {angle:angle}', 'Slope from level.', 'tilt 10°', ['hover:panel', 'later: energy balance']),
    clause(
      'facing',
      'facing {direction=north|north-east|east|south-east|south|south-west|west|north-west}',
      'Where it looks.',
      'facing south',
      ['hover:panel', 'later: energy balance'],
    ),
    ...commonClauses,
  ],
  terminals: () => plusMinus('the panel'),
  contacts: noContacts,
};
