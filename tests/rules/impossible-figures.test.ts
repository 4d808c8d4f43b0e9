/** Figures that cannot be, where other findings stand beside them: what is told, and what is offered. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const told = (statement: string) =>
  analyseText(`${statement}\n`)
    .findings.filter(({ slug }) => slug === 'impossible-value')
    .map(({ message, fixes }) => [message.split(';')[0], ...fixes.map(({ title }) => title)].join(' | '));

const panel = 'panel P1 120 W, voc 23 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A';

it.each([
  [
    `${panel}, voc drift 0.3 %/°C`,
    'The voltage of a panel falls as it warms, and rises in the cold: write -0.3 %/°C. | Write -0.3 %/°C',
  ],
  [
    `${panel}, power drift +0.4 %/°C`,
    'The power of a panel falls as it warms, and rises in the cold: write -0.4 %/°C. | Write -0.4 %/°C',
  ],
  ['fusebox FB 4 ways, ways 4 to 2 fuse 5 A', 'Ways are told upwards: write 2 to 4. | Write 2 to 4'],
  ['fusebox FB 4 ways, ways 2 to 9 fuse 5 A', 'This board has 4 ways, and there is no way 9: write one from 1 to 4.'],
  ['fuse F1 5 A, operates 200 % in 12 s to 2 s', '12 s cannot be: the less is said first, and this is above 2 s'],
  ['inverter INV 350 W, efficiency 188 %', '188 % cannot be: nothing gives more than it takes'],
  [
    'case day sun 140 %',
    '140 % cannot be: full sun is 100 %, and between bright clouds it is hardly 130 % for a moment',
  ],
  ['link Q1 1-1', '1-1 cannot be: a bar joins two terminals'],
  ['system "V" 12 V, site 147.1° north 15° east', '147.1° cannot be: the poles are at 90°'],
])('%s', (statement, message) => {
  expect(told(statement)).toEqual([message]);
});

it.each([
  `${panel}, voc drift -0.3 %/°C, isc drift 0.05 %/°C`,
  'fusebox FB 4 ways, way 1 fuse 5 A, ways 2 to 4 fuse 10 A',
  'case day sun 120 %',
  'fuse F1 5 A, operates 200 % in 2 s to 12 s',
  'busbar POS 150 A, terminals 2.5 to 50 mm²',
  'isolator Q1 2 poles, 25 A dc, category DC-22B',
])('%s may be', (statement) => {
  expect(told(statement)).toEqual([]);
});
