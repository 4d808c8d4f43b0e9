/** Runs, cable, places, cases and the other statements: what their clauses change. */
import type { Scene, Use } from '../effect.ts';

/** A lamp of 60 W on a fuse of 20 A; W2 is what is tested. */
const lamp = (out: string, fuse = '20 A') => `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 ${fuse}
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
${out}
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
case night LAMP on`;

const cableUses = (own: 'run' | 'stock'): Use[] => [
  {
    clause: 'size',
    first: '2.5 mm²',
    instead: '1 mm²',
    shows: ['cable-too-small', 'answers', 'hover'],
  },
  {
    clause: 'size',
    first: '2.5 mm²',
    instead: '1 mm²',
    scene: lamp(
      own === 'run' ? 'run W2 @, 4 m, F1:out to LAMP:+' : 'stock thin cable @\nrun W2 = thin, 4 m, F1:out to LAMP:+',
      '7.5 A',
    ),
    shows: ['drop-over-limit', 'answers', 'hover'],
  },
  { clause: 'size', first: '2.5 mm²', instead: '', shows: ['missing-required-clause', 'answers', 'hover'] },
  { clause: 'size', first: '2.5 mm²', instead: '2 x 2.5 mm²', shows: ['cores-miscounted', 'hover'] },
  { clause: 'class', first: '', instead: 'class 2', shows: ['answers', 'hover'] },
  {
    clause: 'strands',
    first: 'stranded',
    instead: 'solid',
    without: ['size'],
    besides: '14 AWG',
    shows: ['answers', 'hover'],
  },
  { clause: 'coating', first: '', instead: 'tinned', shows: ['answers', 'hover'] },
  { clause: 'material', first: '', instead: 'aluminium', shows: ['answers', 'hover'] },
  { clause: 'insulation', first: '', instead: '105 °C', shows: ['answers', 'hover'] },
  {
    clause: 'insulation',
    first: '105 °C',
    instead: '',
    without: ['size'],
    besides: '1.5 mm²',
    shows: ['cable-too-small', 'answers'],
    more: 'place SHED 45 °C',
    scene: lamp(
      own === 'run'
        ? 'run W2 @, 4 m, along SHED, F1:out to LAMP:+'
        : 'stock thin cable @\nrun W2 = thin, 4 m, along SHED, F1:out to LAMP:+',
    ),
  },
  { clause: 'insulation-voltage', first: '', instead: '6 V', shows: ['insulation-for-place', 'hover'] },
  {
    clause: 'outdoors',
    first: 'outdoors',
    instead: '',
    more: 'place YARD outdoors',
    scene: lamp(
      own === 'run'
        ? 'run W2 @, 4 m, along YARD, F1:out to LAMP:+'
        : 'stock thin cable @\nrun W2 = thin, 4 m, along YARD, F1:out to LAMP:+',
    ),
    shows: ['insulation-for-place', 'hover'],
  },
  {
    clause: 'od',
    first: 'od 4.0 mm',
    instead: 'od 14 mm',
    scene: lamp(
      own === 'run'
        ? 'run W2 @, 4 m, F1:out to LAMP:+, enters BOX open'
        : 'stock thin cable @\nrun W2 = thin, 4 m, F1:out to LAMP:+, enters BOX open',
    ),
    shows: ['entry-without-gland', 'hover'],
  },
  {
    clause: 'od',
    first: 'od 11.0 mm',
    instead: 'od 13 mm',
    scene: lamp(
      own === 'run'
        ? 'run W2 @, 4 m, F1:out to LAMP:+, enters BOX by gland M20'
        : 'stock thin cable @\nrun W2 = thin, 4 m, F1:out to LAMP:+, enters BOX by gland M20',
    ),
    shows: ['gland-and-cable', 'hover'],
  },
];

const run: Scene = {
  word: 'run',
  name: 'W2',
  base: { size: '2.5 mm²', length: '4 m', ends: 'F1:out to LAMP:+' },
  spec: lamp('run W2 @'),
  uses: [
    ...cableUses('run').map((use) =>
      use.scene === undefined ? use : { ...use, without: [...(use.without ?? []), 'length', 'ends'] },
    ),
    {
      clause: 'stock',
      first: '= thin',
      instead: '= thick',
      without: ['size'],
      more: 'stock thin cable 1 mm²\nstock thick cable 6 mm²',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    { clause: 'length', first: '4 m', instead: '20 m', shows: ['drop-over-limit', 'answers', 'hover'] },
    { clause: 'length', first: '4 m', instead: '', shows: ['missing-required-clause', 'answers', 'hover'] },
    {
      clause: 'length',
      first: '1 m',
      instead: '8 m',
      without: ['ends'],
      scene: lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+').replace('2.5 mm² red, 0.1 m, B1', '@, B1'),
      shows: ['protection-too-far', 'answers'],
      hoverOf: 'W1',
    },
    {
      clause: 'colour',
      first: 'red',
      instead: 'brown',
      without: ['ends'],
      besides: 'F1:out to LAMP:+',
      shows: ['answers', 'hover'],
    },
    {
      clause: 'sheathed',
      first: 'sheathed',
      instead: '',
      without: ['size'],
      besides: '0.75 mm²',
      scene: lamp('run W2 @', '6 A'),
      shows: ['below-least-size', 'hover'],
    },
    {
      clause: 'core',
      first: 'core 2',
      instead: '',
      without: ['size', 'length', 'ends'],
      scene: lamp('run W2 2 x 2.5 mm², 4 m\n    @ F1:out to LAMP:+\n    spare'),
      shows: ['answers', 'hover'],
    },
    {
      clause: 'ends',
      first: 'F1:out to LAMP:+',
      instead: 'B1:+ to LAMP:+',
      shows: ['terminal-unconnected', 'supply-unfused', 'answers', 'hover'],
    },
    {
      clause: 'ends',
      first: 'S1:2 to LAMP:+',
      instead: 'S1:4 to LAMP:+',
      more: 'switch S1 2 poles, 20 A dc\nrun W4 2.5 mm² red, 1 m, F1:out to S1:1',
      shows: ['poles-crossed', 'answers', 'hover'],
    },
    { clause: 'ends', first: 'F1:out to LAMP:+', instead: '', shows: ['end-missing', 'answers'] },
    {
      clause: 'spare',
      first: 'black spare',
      instead: '',
      without: ['size', 'length', 'ends'],
      scene: lamp('run W2 2 x 2.5 mm², 4 m\n    red F1:out to LAMP:+\n    @'),
      shows: ['cores-miscounted', 'hover'],
    },
    {
      clause: 'along',
      first: 'along OVEN',
      instead: '',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    { clause: 'bunched', first: 'bunched with 7', instead: '', shows: ['cable-too-small', 'answers', 'hover'] },
    {
      clause: 'method',
      first: 'in conduit',
      instead: '',
      scene: lamp('place SHED 35 °C\nrun W2 @', '25 A'),
      besides: 'along SHED',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    {
      clause: 'enters',
      first: 'enters BOX by gland M16',
      instead: 'enters BOX open',
      shows: ['entry-without-gland', 'hover'],
    },
    { clause: 'enters', first: 'enters BOX by gland M16', instead: 'enters BOX', shows: ['entry-unstated', 'hover'] },
  ],
};

const cable: Scene = {
  word: 'cable',
  name: 'thin',
  base: { size: '2.5 mm²' },
  spec: lamp('stock thin cable @\nrun W2 = thin, 4 m, F1:out to LAMP:+'),
  uses: [
    ...cableUses('stock'),
    { clause: 'colour', first: 'red', instead: 'brown', shows: ['answers', 'hover'] },
    {
      clause: 'stock',
      first: '= reel',
      instead: '= other',
      without: ['size'],
      more: 'stock reel cable 1 mm²\nstock other cable 6 mm²',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
  ],
};

/** A bunch of four, of which only one carries much. */
const bunch = `
fuse F2 2 A
load TINY 1 W
run W5 2.5 mm² red, 4 m, bunched with W2 and W3, F2:out to TINY:+
run W6 2.5 mm² black, 4 m, TINY:- to B1:-
run W7 2.5 mm² red, 0.1 m, B1:+ to F2:in`;

const held = (clauses: string, more = lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+', '20 A')) =>
  `system 12 V, limits ours\nstock ours limit-set ${clauses}\n${more}`;

const limitSet: Scene = {
  word: 'limit-set',
  name: 'ours',
  base: { base: 'based on iec-60364-5-52' },
  spec: held('@'),
  uses: [
    {
      clause: 'base',
      first: 'based on iec-60364-5-52',
      instead: 'based on iso-13297',
      scene: held('@', lamp('run W2 1.5 mm² red, 7 m, F1:out to LAMP:+', '25 A').replace('0.1 m, B1', '1 m, B1')),
      shows: ['cable-too-small', 'protection-too-far', 'answers', 'hover'],
    },
    {
      clause: 'base',
      first: 'based on iec-60364-5-52',
      instead: 'based on iso-13297',
      scene: held('@', lamp('run W2 1.5 mm² red, 7 m, F1:out to LAMP:+', '7.5 A')),
      shows: ['drop-over-limit', 'answers', 'hover'],
    },
    { clause: 'base', first: 'based on iec-60364-5-52', instead: '', shows: ['missing-required-clause'] },
    { clause: 'factor', first: 'factor 0.6', instead: '', shows: ['cable-too-small', 'answers', 'hover'] },
    { clause: 'factor', first: 'factor 0.6', instead: 'factor 0', shows: ['contradictory-limits'] },
    {
      clause: 'capacity',
      first: 'capacity 2.5 mm² 18 A',
      instead: '',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    {
      clause: 'capacity',
      first: 'capacity 2.5 mm² 30 A',
      instead: 'capacity 2.5 mm² 30 A insulation 90 °C',
      shows: ['answers', 'hover'],
    },
    {
      clause: 'capacity',
      first: 'capacity 2.5 mm² 30 A, capacity 4 mm² 38 A',
      instead: 'capacity 2.5 mm² 30 A, capacity 4 mm² 28 A',
      shows: ['contradictory-limits'],
    },
    { clause: 'device', first: 'device 70 %', instead: '', shows: ['cable-too-small', 'hover'] },
    { clause: 'device', first: 'device 70 %', instead: 'device 700 %', shows: ['contradictory-limits'] },
    { clause: 'drop', first: 'drop 4 %', instead: 'drop 1 %', shows: ['drop-over-limit', 'hover'] },
    { clause: 'drop', first: 'drop 4 %', instead: 'drop 400 %', shows: ['contradictory-limits'] },
    {
      clause: 'essential-drop',
      first: 'essential drop 4 %',
      instead: 'essential drop 1 %',
      scene: held('@', lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+').replace('60 W', '60 W, essential')),
      shows: ['drop-over-limit', 'hover'],
    },
    {
      clause: 'essential-drop',
      first: 'essential drop 3 %',
      instead: 'essential drop 6 %',
      besides: 'drop 5 %',
      shows: ['contradictory-limits'],
    },
    { clause: 'unfused', first: 'unfused 0.2 m', instead: 'unfused 0.05 m', shows: ['protection-too-far', 'hover'] },
    {
      clause: 'unfused',
      first: 'unfused 0.2 m',
      instead: 'unfused 0.4 m',
      besides: 'sheathed unfused 0.3 m',
      shows: ['contradictory-limits'],
    },
    {
      clause: 'sheathed-unfused',
      first: 'sheathed unfused 0.2 m',
      instead: '',
      besides: 'unfused 0.05 m',
      scene: held('@', lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+').replace('0.1 m,', '0.1 m, sheathed,')),
      shows: ['protection-too-far', 'hover'],
    },
    {
      clause: 'sheathed-unfused',
      first: 'sheathed unfused 0.3 m',
      instead: 'sheathed unfused 0.1 m',
      besides: 'unfused 0.2 m',
      shows: ['contradictory-limits'],
    },
    ...(['tail', 'sheathed-tail'] as const).flatMap((clause): Use[] => {
      const words = clause.replace('-', ' ');
      const bare = clause === 'tail';
      return [
        {
          clause,
          first: `${words} 0.5 m`,
          instead: bare ? `${words} 0.2 m` : '',
          ...(bare ? {} : { besides: 'tail 0.2 m' }),
          scene: held(
            '@',
            `battery B1 lead-acid, 12 V, 100 Ah
fuse F0 60 A
fuse F1 10 A
load LAMP 60 W
run W1 16 mm² red, 0.1 m, B1:+ to F0:in
run W2 2.5 mm² red, 0.4 m, ${bare ? '' : 'sheathed, '}F0:out to F1:in
run W3 2.5 mm² red, 2 m, F1:out to LAMP:+
run W4 2.5 mm² black, 2 m, LAMP:- to B1:-`,
          ),
          shows: ['cable-too-small', 'hover'],
        },
        {
          clause,
          first: `${words} 0.3 m`,
          instead: bare ? `${words} 0.6 m` : `${words} 0.1 m`,
          besides: bare ? 'sheathed tail 0.4 m' : 'tail 0.2 m',
          shows: ['contradictory-limits'],
        },
      ];
    }),
    {
      clause: 'lightly-loaded',
      first: 'lightly loaded 30 %',
      instead: 'lightly loaded 0 %',
      more: bunch,
      shows: ['answers', 'hover'],
    },
    {
      clause: 'lightly-loaded',
      first: 'lightly loaded 30 %',
      instead: 'lightly loaded 300 %',
      shows: ['contradictory-limits'],
    },
    {
      clause: 'pv-factor',
      first: 'pv factor 1.25',
      instead: 'pv factor 3',
      scene: held(
        '@',
        `panel P1 190 W, voc 23 V, isc 10.3 A, vmp 19 V, imp 9.8 A
controller U1 mppt, pv 50 V 30 A, output 20 A, common negative
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 30 A
run W1 2.5 mm² red, 2 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 2 m, P1:- to U1:pv-
run W3 6 mm² red, 0.5 m, U1:bat+ to F1:in
run W4 6 mm² red, 0.2 m, F1:out to B1:+
run W5 6 mm² black, 0.5 m, U1:bat- to B1:-`,
      ),
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    { clause: 'pv-factor', first: 'pv factor 1.25', instead: 'pv factor 0.5', shows: ['contradictory-limits'] },
    {
      clause: 'source',
      first: 'source "Workshop rules"',
      instead: 'source "The insurer’s letter"',
      besides: 'factor 0.6, drop 1 %, unfused 0.05 m',
      shows: ['cable-too-small', 'drop-over-limit', 'protection-too-far', 'hover'],
    },
    {
      clause: 'stock',
      first: '= strict',
      instead: '= mild',
      more: 'stock strict limit-set based on iec-60364-5-52, factor 0.5\nstock mild limit-set based on iec-60364-5-52',
      shows: ['cable-too-small', 'answers', 'hover'],
    },
  ],
};

const place: Scene = {
  word: 'place',
  name: 'LOFT',
  base: {},
  spec: `place LOFT @\n${lamp('run W2 2.5 mm² red, 4 m, along LOFT, F1:out to LAMP:+')}`,
  uses: [
    { clause: 'temperature', first: '30 °C', instead: '62 °C', shows: ['cable-too-small', 'answers', 'hover'] },
    { clause: 'engine-space', first: 'engine space', instead: '', shows: ['answers', 'hover'] },
    {
      clause: 'gas-locker',
      first: 'gas locker',
      instead: '',
      more: 'switch S1 1 pole, 10 A dc, at LOFT',
      shows: ['switch-in-gas-locker', 'hover'],
    },
    { clause: 'heat-source', first: 'heat source', instead: '', shows: ['heat-source-near-cable', 'hover'] },
    {
      clause: 'exposure',
      first: 'outdoors',
      instead: 'indoors',
      more: 'enclosure CRATE plastic, IP20, at LOFT',
      shows: ['box-ip-for-place', 'hover'],
    },
    {
      clause: 'engine-space',
      first: 'engine space',
      instead: '',
      shows: ['cable-too-small'],
      scene: `place LOFT @\n${lamp('run W2 2.5 mm² red, 4 m, along LOFT, F1:out to LAMP:+', '20 A')}`,
    },
  ],
};

const system: Scene = {
  word: 'system',
  name: 'system',
  base: {},
  spec: `system @\n${lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+')}`,
  uses: [
    { clause: 'ambient', first: 'ambient 30 °C', instead: 'ambient 65 °C', shows: ['cable-too-small', 'answers'] },
    {
      clause: 'both-poles',
      first: 'both poles',
      instead: '',
      more: 'isolator Q1 1 pole, 25 A dc, 48 V\nrun W8 2.5 mm² red, 1 m, F1:out to Q1:1\nrun W9 2.5 mm² red, 1 m, Q1:2 to LAMP:+',
      shows: ['one-conductor-switched', 'hover'],
    },
    { clause: 'coldest', first: 'coldest -20 °C', instead: 'coldest 0 °C', shows: ['answers', 'hover'] },
    {
      clause: 'coldest',
      first: 'coldest -20 °C',
      instead: 'coldest 20 °C',
      scene: `
system @
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 17.0 V, imp 6.4 A, voc drift -0.30 %/°C
controller U1 mppt, pv 24 V 20 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 4 mm² red, 1 m, U1:bat+ to B1:+
run W4 4 mm² black, 1 m, U1:bat- to B1:-`,
      shows: ['pv-voltage-over-controller', 'hover'],
    },
    {
      clause: 'hottest',
      first: 'hottest 95 °C',
      instead: 'hottest 60 °C',
      scene: `
system @
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 17.0 V, imp 6.4 A, voc drift -0.30 %/°C
controller U1 mppt, pv 24 V 20 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 4 mm² red, 1 m, U1:bat+ to B1:+
run W4 4 mm² black, 1 m, U1:bat- to B1:-`,
      shows: ['pv-below-charging-voltage', 'answers', 'hover'],
    },
    {
      clause: 'limits',
      first: 'limits iec-60364-5-52',
      instead: 'limits cfr-33-183',
      scene: `system @\n${lamp('run W2 1.5 mm² red, 7 m, F1:out to LAMP:+', '25 A').replace('0.1 m, B1', '2.5 m, B1')}`,
      shows: ['cable-too-small', 'drop-over-limit', 'protection-too-far', 'answers'],
    },
    {
      clause: 'voltage',
      first: '12 V',
      instead: '60 V',
      scene: `system @, limits cfr-33-183\n${lamp('run W2 14 AWG red, 4 m, bunched with 4, F1:out to LAMP:+')}`,
      shows: ['answers'],
    },
    {
      clause: 'voltage',
      first: '12 V',
      instead: '24 V',
      hoverOf: '60 W',
      shows: ['hover'],
    },
  ],
};

const night: Scene = {
  word: 'case',
  name: 'day',
  base: {},
  spec: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 mppt, pv 50 V 20 A, output 20 A, common negative
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
load LAMP 60 W
load FAN 24 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 4 m, F1:out to LAMP:+
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
run W4 2.5 mm² red, 4 m, F1:out to FAN:+
run W5 2.5 mm² black, 4 m, FAN:- to B1:-
run W6 2.5 mm² red, 4 m, P1:+ to U1:pv+
run W7 2.5 mm² black, 4 m, P1:- to U1:pv-
run W8 2.5 mm² red, 4 m, U1:bat+ to F1:out
run W9 2.5 mm² black, 4 m, U1:bat- to B1:-
case day @`,
  uses: [
    { clause: 'sun', first: 'sun 100 %', instead: 'sun 50 %', shows: ['answers', 'hover'] },
    { clause: 'charge', first: 'charge 90 %', instead: 'charge 30 %', besides: 'LAMP on', shows: ['answers', 'hover'] },
    {
      clause: 'charge-of',
      first: 'B1 charge 90 %',
      instead: 'B1 charge 30 %',
      besides: 'LAMP on',
      shows: ['answers', 'hover'],
    },
    {
      clause: 'volts-of',
      first: 'B1 at 12.5 V',
      instead: 'B1 at 11.8 V',
      besides: 'LAMP on',
      shows: ['answers', 'hover'],
    },
    { clause: 'all', first: 'all loads on', instead: 'all loads off', shows: ['answers', 'hover'] },
    {
      clause: 'all',
      first: 'all sources on',
      instead: 'all sources off',
      besides: 'sun 100 %',
      shows: ['answers', 'hover'],
    },
    { clause: 'state', first: 'LAMP and FAN on', instead: 'LAMP on', shows: ['answers', 'hover'] },
    {
      clause: 'position',
      first: 'S9 at 2',
      instead: 'S9 at off',
      besides: 'LAMP on',
      scene: `
battery B1 and B2 lead-acid, 12 V, 100 Ah
fuse F1 and F2 15 A
selector S9 100 A
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 0.1 m, B2:+ to F2:in
run W3 2.5 mm² red, 1 m, F1:out to S9:1
run W4 2.5 mm² red, 1 m, F2:out to S9:2
run W5 2.5 mm² red, 4 m, S9:common to LAMP:+
run W6 2.5 mm² black, 4 m, LAMP:- to B1:-
run W7 2.5 mm² black, 0.5 m, B2:- to B1:-
case day @`,
      shows: ['answers', 'hover'],
    },
    {
      clause: 'ambient',
      first: 'ambient 5 °C',
      instead: 'ambient 45 °C',
      besides: 'LAMP on',
      shows: ['answers', 'hover'],
    },
    {
      clause: 'conductors',
      first: 'conductors at 20 °C',
      instead: '',
      besides: 'LAMP on',
      shows: ['answers', 'hover'],
    },
  ],
};

const link: Scene = {
  word: 'link',
  name: 'Q1',
  base: {},
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
isolator Q1 2 poles, 10 A dc, 2 in parallel 30 A
load HEATER 120 W, lowest 10 V
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 1 m, F1:out to Q1:1
run W3 6 mm² red, 1 m, Q1:2 to HEATER:+
run W4 6 mm² black, 1 m, HEATER:- to B1:-
link Q1 @
case day HEATER on`,
  uses: [
    {
      clause: 'bar',
      first: '1-3, 2-4',
      instead: '1-3',
      shows: ['bar-on-one-side', 'switch-below-load', 'answers', 'hover'],
    },
    {
      clause: 'bar',
      first: '1-3, 2-4',
      instead: '1-3',
      scene: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
isolator Q1 2 poles, 15 A dc, 2 in parallel 30 A
load HEATER 120 W, lowest 10 V
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 1 m, F1:out to Q1:1
run W3 6 mm² red, 1 m, Q1:2 to HEATER:+
run W4 6 mm² black, 1 m, HEATER:- to B1:-
link Q1 @
case day HEATER on`,
      shows: ['switch-below-fuse'],
    },
  ],
};

const allow: Scene = {
  word: 'allow',
  name: 'W2',
  base: {},
  spec: `${lamp('run W2 1 mm² red, 4 m, F1:out to LAMP:+')}\nallow @`,
  uses: [
    {
      clause: 'finding',
      first: 'cable-too-small on W2 "a test lamp"',
      instead: 'cable-too-small on W3 "a test lamp"',
      shows: ['cable-too-small', 'allow-unused', 'hover'],
    },
    {
      clause: 'reason',
      hoverOf: 'W2',
      first: 'cable-too-small on W2 "a test lamp"',
      instead: 'cable-too-small on W2',
      shows: ['missing-required-clause', 'hover'],
    },
    {
      clause: 'reason',
      hoverOf: 'W2',
      first: 'cable-too-small on W2 "a test lamp"',
      instead: 'cable-too-small on W2 "a bench lamp"',
      shows: ['hover'],
    },
  ],
};

const useFile: Scene = {
  word: 'use',
  name: 'W2',
  base: {},
  spec: `use @\n${lamp('run W2 = thin red, 4 m, F1:out to LAMP:+')}`,
  uses: [
    {
      clause: 'path',
      first: '"reel.amps"',
      instead: '"drum.amps"',
      files: { 'reel.amps': 'stock thin cable 1 mm²\n', 'drum.amps': 'stock thin cable 6 mm²\n' },
      shows: ['cable-too-small', 'answers', 'hover'],
    },
    {
      clause: 'path',
      first: '"reel.amps"',
      instead: '"gone.amps"',
      files: { 'reel.amps': 'stock thin cable 1 mm²\n' },
      shows: ['use-missing'],
    },
    {
      clause: 'path',
      first: '"reel.amps"',
      instead: '"spec.amps"',
      files: { 'reel.amps': 'stock thin cable 1 mm²\n' },
      shows: ['circle-of-use'],
    },
  ],
};

const expectation: Scene = {
  word: 'expect',
  name: 'LAMP',
  base: {},
  spec: `${lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+')}\nexpect @`,
  uses: [
    {
      clause: 'what',
      first: 'LAMP voltage at least 11 V in night',
      instead: 'LAMP voltage at least 13 V in night',
      shows: ['expect-not-met'],
    },
  ],
};

/** Always outside what is expected, so that what is expected is told. */
const measured: Scene = {
  word: 'reading',
  name: 'LAMP',
  base: { taken: '2026-04-18 LAMP:+ 5 V' },
  spec: `${lamp('run W2 2.5 mm² red, 4 m, F1:out to LAMP:+')}\nreading @`,
  uses: [
    {
      clause: 'taken',
      first: '2026-04-18 LAMP:+ 5 V',
      instead: '2026-04-18 LAMP:+ 12.2 V',
      besides: 'LAMP on, B1 at 12.5 V',
      shows: ['reading-outside-expectation'],
    },
    ...(
      [
        ['with-volts-of', 'with B1 at 12.5 V', 'with B1 at 12.9 V', 'LAMP on'],
        ['with-charge-of', 'with B1 charge 90 %', 'with B1 charge 40 %', 'LAMP on'],
        ['with-charge', 'with charge 90 %', 'with charge 40 %', 'LAMP on'],
        ['with-all', 'with all loads on', 'with all loads off', 'B1 at 12.5 V'],
        ['with-state', 'with LAMP on', 'with LAMP off', 'B1 at 12.5 V'],
        ['with-ambient', 'with ambient 60 °C', 'with ambient -20 °C', 'LAMP on, B1 at 12.5 V'],
        ['with-conductors', 'with conductors at 70 °C', 'with conductors at 20 °C', 'LAMP on, B1 at 12.5 V'],
      ] as const
    ).map(([clause, first, instead, besides]) => ({
      clause,
      first,
      instead,
      besides,
      shows: ['reading-outside-expectation'],
    })),
    {
      clause: 'with-position',
      first: 'with S9 at 1',
      instead: 'with S9 at off',
      besides: 'LAMP on, B1 at 12.5 V',
      scene: `${lamp('run W2 2.5 mm² red, 4 m, F1:out to S9:1')}
selector S9 100 A
run W9 2.5 mm² red, 1 m, S9:common to LAMP:+
reading @`,
      shows: ['reading-outside-expectation'],
    },
    {
      clause: 'with-sun',
      first: 'with sun 100 %',
      instead: 'with sun 0 %',
      besides: 'B1 at 12.5 V',
      scene: `
battery B1 lead-acid, 12 V, 100 Ah, internal 20 mΩ
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 mppt, pv 100 V 30 A, output 20 A, common negative
fuse F1 20 A, blade, 32 V
load LAMP 60 W
run W1 4 mm² red, 3 m, P1:+ to U1:pv+
run W2 4 mm² black, 3 m, P1:- to U1:pv-
run W3 4 mm² red, 1 m, U1:bat+ to F1:out
run W4 4 mm² red, 0.2 m, F1:in to B1:+
run W5 4 mm² black, 1 m, U1:bat- to B1:-
run W6 4 mm² red, 1 m, F1:out to LAMP:+
run W7 4 mm² black, 1 m, LAMP:- to B1:-
reading @`,
      shows: ['reading-outside-expectation'],
    },
  ],
};

export const statements = [run, measured, expectation, cable, limitSet, place, system, night, link, allow, useFile];
