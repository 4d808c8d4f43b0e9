/** What a cable may say of itself, in a stock or in the run that uses it. */
import { gaugeText } from '../../grammar/units.ts';
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import { areasMm2, gauges } from '../tables/sizes.ts';
import { clause } from './define.ts';

export const sizesMm2 = areasMm2.map((area) => `${area} mm²`);
export const sizesAwg = gauges.map((gauge) => `${gaugeText(gauge)} AWG`);

export const cableClauses: readonly ClauseSpec[] = [
  clause(
    'size',
    '[{cores:times}] {size:conductor}',
    'Cross-section or gauge of a conductor, with the number of cores before it when there are several.',
    '2 x 2.5 mm²',
    ['cable-too-small', 'drop-over-limit', 'answers'],
    { joins: ['colour'], standardValues: [...sizesMm2, ...sizesAwg] },
  ),
  clause(
    'class',
    'class {class:number}',
    'Conductor class of IEC 60228: 1 solid, 2 stranded, 5 flexible, 6 extra flexible.',
    'class 5',
    ['answers', 'hover:run'],
    { standardValues: ['1', '2', '5', '6'] },
  ),
  clause('strands', '{strands=solid|stranded}', 'Whether an AWG conductor is one wire or many.', 'stranded', [
    'answers',
    'hover:run',
  ]),
  clause('coating', '{coating=tinned|plain}', 'Whether its wires are tinned.', 'tinned', ['answers', 'hover:run']),
  clause('material', '{material=copper|aluminium}', 'Conductor material; copper when unsaid.', 'copper', [
    'answers',
    'hover:run',
  ]),
  clause(
    'insulation',
    '{temperature:temperature}',
    'Greatest temperature of its insulation; 70 °C when unsaid.',
    '105 °C',
    ['cable-too-small', 'answers'],
  ),
  clause('insulation-voltage', '{voltage:voltage}', 'Rated voltage of its insulation.', '60 V', [
    'insulation-for-place',
    'hover:run',
  ]),
  clause('od', 'od {diameter:length}', 'Outside diameter.', 'od 4.8 mm', [
    'entry-without-gland',
    'gland-and-cable',
    'hover:run',
  ]),
  clause('outdoors', 'outdoors', 'It is made for sun and weather.', 'outdoors', ['insulation-for-place', 'hover:run']),
];
