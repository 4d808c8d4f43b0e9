/** A vocabulary for tests of the grammar: small, and with every feature of heads and forms, whatever the real kinds say. */
import type { ClauseSpec, ColourSpec, StatementSpec, Vocabulary } from '../../grammar/vocabulary.ts';

type More = Partial<Pick<ClauseSpec, 'required' | 'oneOf' | 'repeatable' | 'joins'>>;

export function clause(id: string, form: string, example: string, more: More = {}): ClauseSpec {
  return { id, form, meaning: id, example, readBy: [], ...more };
}

function statement(
  category: StatementSpec['category'],
  word: string,
  head: StatementSpec['head'],
  example: string,
  clauses: readonly ClauseSpec[],
): StatementSpec {
  return { word, category, title: word, meaning: word, head, example, clauses };
}

const common = [
  clause('stock', '= {stock:name<stock>}', '= thin'),
  clause('in', 'in {enclosure:name<enclosure>}', 'in BOX'),
  clause('at', 'at {place:name<place>}', 'at LOFT'),
  clause('terminals', 'terminals {least:number|area|gauge} to {most:conductor}', 'terminals 0.5 to 16 mm²'),
  clause('price', 'price {amount:number} {currency:word} [a {per:word}]', 'price 12.50 EUR'),
];

const cable = [
  clause('size', '[{cores:times}] {size:conductor}', '2 x 2.5 mm²', { required: true, joins: ['colour'] }),
  clause('class', 'class {class:number}', 'class 5'),
  clause('material', '{material=copper|aluminium}', 'copper'),
  clause('insulation', '{temperature:temperature}', '105 °C'),
  clause('od', 'od {diameter:length}', 'od 4.8 mm'),
];

export const specs: readonly StatementSpec[] = [
  statement('statement', 'system', 'none', 'system "Shed" 12 V', [
    clause('voltage', '{voltage:voltage}', '12 V'),
    clause('ambient', 'ambient {temperature:temperature}', 'ambient 35 °C'),
    clause('coldest', 'coldest {temperature:temperature}', 'coldest -12 °C'),
    clause('limits', 'limits {set:word}', 'limits strict'),
    clause('site', 'site {latitude:angle} {north=north|south}', 'site 52.1° north'),
  ]),
  statement('statement', 'use', 'none', 'use "stock.amps"', [clause('path', '{path:text}', '"stock.amps"')]),
  statement('statement', 'place', 'name', 'place LOFT indoors', [
    clause('temperature', '{temperature:temperature}', '55 °C'),
    clause('exposure', '{exposure=indoors|outdoors}', 'outdoors'),
    clause('gas-locker', 'gas locker', 'gas locker'),
  ]),
  statement('statement', 'stock', 'name', 'stock thin cable 6 mm²', []),
  statement('statement', 'link', 'name', 'link Q1 1-3, 2-4', [
    clause('bar', '{bar:range}', '1-3', { repeatable: true }),
  ]),
  statement('statement', 'run', 'name', 'run W1 6 mm² red, 4.2 m, P1:+ to Q1:1', [
    clause('stock', '= {stock:name<stock>}', '= thin', { joins: ['colour'] }),
    ...cable,
    clause('length', '{length:length}', '4.2 m', { required: true }),
    clause('colour', '{colour:colour}', 'red', { repeatable: true, joins: ['core', 'ends', 'spare'] }),
    clause('core', 'core {number:number}', 'core 2', { repeatable: true, joins: ['colour', 'ends', 'spare'] }),
    clause('ends', '{from:end} to {to:end}', 'P1:+ to Q1:1', { repeatable: true }),
    clause('spare', 'spare', 'spare', { repeatable: true }),
    clause(
      'along',
      'along {place:name<place>} [{length:length}] ( and {place:name<place>} [{length:length}] )*',
      'along LOFT 2.4 m and GARAGE 1.8 m',
      { repeatable: true },
    ),
    clause('bunched', 'bunched with {cables:number}', 'bunched with 5'),
    clause(
      'enters',
      'enters {enclosure:name<enclosure>} [ by gland [{size:thread}] | by grommet {size:length} | by {entry:name<entry>} | open ]',
      'enters BOX by gland M20',
      { repeatable: true },
    ),
  ]),
  statement('statement', 'case', 'name', 'case dusk sun 0 %', [
    clause('sun', 'sun {sun:ratio}', 'sun 80 %'),
    clause('charge', 'charge {charge:ratio}', 'charge 60 %'),
    clause('volts-of', '{battery:name<part>} at {voltage:voltage}', 'B1 at 12.5 V', { repeatable: true }),
    clause('all', 'all {group=loads|sources} {state=on|off}', 'all loads on', { repeatable: true }),
    clause('state', '{part:name<part>} ( and {part:name<part>} )* {state=on|off}', 'LAMPS and FAN on', {
      repeatable: true,
    }),
  ]),
  statement('statement', 'reading', 'none', 'reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω', [
    clause(
      'taken',
      '{date:date} [{time:clock}] ( {from:end} to {to:end} {value:quantity} | {from:end} {value:quantity} )',
      '2026-04-18 Q1:1 to Q1:2 0.2 Ω',
    ),
  ]),
  statement('kind', 'cable', 'names', 'stock thin cable 6 mm²', cable),
  statement('kind', 'panel', 'names', 'panel P1 120 W, voc 23.0 V', [
    clause('power', '{power:power}', '120 W', { required: true }),
    clause('voc', 'voc {voltage:voltage}', 'voc 23.0 V'),
    clause('voc-drift', 'voc drift {drift:drift}', 'voc drift -0.30 %/°C'),
    clause('tilt', 'tilt {angle:angle}', 'tilt 10°'),
    ...common,
  ]),
  statement('kind', 'fuse', 'names', 'fuse F1 80 A, blade', [
    clause('rating', '{rating:current}', '80 A', { required: true }),
    clause('style', '{style=blade|bolt-in|cartridge}', 'blade'),
    clause('voltage', '{voltage:voltage}', '32 V'),
    clause('breaks', 'breaks {current:current}', 'breaks 2 kA'),
    clause('operates', 'operates {share:ratio} in {least:time} to {most:time}', 'operates 200 % in 0.15 s to 5 s', {
      repeatable: true,
    }),
    ...common,
  ]),
  statement('kind', 'isolator', 'names', 'isolator Q1 4 poles, 25 A dc', [
    clause('poles', '{poles:number} (pole|poles)', '4 poles', { required: true }),
    clause('rating', '{current:current} [dc]', '25 A dc', { required: true }),
    clause('parallel', '{poles:number} in parallel {current:current}', '2 in parallel 40 A', { repeatable: true }),
    clause('pairs', 'pairs {pairs:range+}', 'pairs 1-5 2-6'),
    clause('face', 'face {top:number+} over {bottom:number+}', 'face 1 3 over 2 4'),
    ...common,
  ]),
  statement('kind', 'load', 'names', 'load LAMPS 36 W, 4 h/day', [
    clause('power', '{power:power}', '36 W', { oneOf: 'draws' }),
    clause('current', '{current:current}', '3 A', { oneOf: 'draws' }),
    clause('lowest', 'lowest {voltage:voltage}', 'lowest 11.0 V'),
    clause('hours', '{hours:daily-time}', '4 h/day'),
    clause('essential', 'essential', 'essential'),
    ...common,
  ]),
  statement('kind', 'controller', 'names', 'controller U1 mppt, output 20 A', [
    clause('method', '{method=mppt|pwm}', 'mppt'),
    clause('pv', 'pv {voltage:voltage} [{current:current}]', 'pv 100 V 30 A'),
    clause('output', 'output {current:current}', 'output 20 A'),
    clause('load-output', 'load output {current:current}', 'load output 15 A'),
    ...common,
  ]),
  statement('kind', 'enclosure', 'names', 'enclosure BOX plastic, IP65', [
    clause('material', '{material=plastic|metal}', 'plastic'),
    clause('ip', '{code:ip}', 'IP65'),
    clause('knockouts', 'knockouts {count:times} {size:thread}', 'knockouts 4 x M20', { repeatable: true }),
    ...common,
  ]),
  statement('kind', 'busbar', 'names', 'busbar POS 150 A', [clause('rating', '{current:current}', '150 A'), ...common]),
];

const colour = (word: string): [string, ColourSpec] => [
  word,
  { word, code: word.slice(0, 2).toUpperCase(), css: word },
];

export const vocabulary: Vocabulary = {
  statements: new Map(specs.map((spec) => [spec.word, spec])),
  colours: new Map(['red', 'black', 'green', 'yellow', 'light-blue'].map(colour)),
  reserved: new Set([
    'sun',
    'all',
    'loads',
    'sources',
    'to',
    'and',
    'in',
    'at',
    'on',
    'off',
    'with',
    'charge',
    'spare',
    'core',
  ]),
};
