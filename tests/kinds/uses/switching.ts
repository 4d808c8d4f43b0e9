/** Isolators, switches, selectors, relays: what their clauses change. */
import type { Scene, Use } from '../effect.ts';

/** Pole 1 in the feed; `S1` is what is tested. */
const fed = (part: string, more = '') => `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
${part}
load HEATER 180 W, lowest 10 V
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 2 m, F1:out to S1:1
run W3 6 mm² red, 1 m, S1:2 to HEATER:+
run W4 6 mm² black, 3 m, HEATER:- to B1:-
${more}
case night HEATER on`;

/** One circuit through both poles, of 48 V. */
const inSeries = (part: string) =>
  fed(part, 'run W5 6 mm² red, 0.1 m, S1:2 to S1:3')
    .replace('lead-acid, 12 V', 'lead-acid, 48 V')
    .replace('S1:2 to HEATER', 'S1:4 to HEATER');

const switchUses = (word: string): Use[] => [
  { clause: 'poles', first: '2 poles', instead: '', shows: ['missing-required-clause', 'answers'] },
  {
    clause: 'poles',
    first: '2 poles',
    instead: '1 pole',
    scene: fed(`${word} S1 @`, 'run W5 1 mm² red, 1 m, F1:out to S1:3\nrun W6 1 mm² red, 1 m, S1:4 to HEATER:+'),
    shows: ['unknown-terminal', 'answers', 'hover'],
  },
  {
    clause: 'poles',
    first: '1 pole',
    instead: '2 poles',
    scene: fed(`${word} S1 @`, 'run W5 1 mm² red, 1 m, F1:out to S1:3'),
    shows: ['terminal-unconnected', 'unknown-terminal'],
  },
  { clause: 'rating', first: '25 A dc', instead: '15 A dc', shows: ['switch-below-load', 'answers', 'hover'] },
  { clause: 'rating', first: '25 A dc', instead: '19 A dc', shows: ['switch-below-fuse', 'answers', 'hover'] },
  {
    clause: 'parallel',
    first: '2 in parallel 30 A',
    instead: '',
    without: ['rating'],
    besides: '15 A dc',
    more: 'link S1 1-3, 2-4',
    shows: ['switch-below-load', 'answers', 'hover'],
  },
  {
    clause: 'parallel',
    first: '2 in parallel 30 A',
    instead: '2 in parallel 19 A',
    without: ['rating'],
    besides: '15 A dc',
    more: 'link S1 1-3, 2-4',
    shows: ['switch-below-fuse', 'answers', 'hover'],
  },
  {
    clause: 'parallel',
    first: '2 in parallel 30 A',
    instead: '',
    more: 'link S1 1-3, 2-4',
    shows: ['linked-rating-unstated', 'answers', 'hover'],
  },
  { clause: 'rating', first: '25 A dc', instead: '25 A ac', shows: ['switch-not-dc', 'hover'] },
  {
    clause: 'voltage',
    first: '24 V dc',
    instead: '24 V ac',
    without: ['rating'],
    besides: '25 A',
    shows: ['switch-not-dc', 'hover'],
  },
  {
    clause: 'category',
    first: 'category DC-21B',
    instead: 'category AC-21B',
    without: ['rating'],
    besides: '25 A',
    shows: ['switch-not-dc', 'hover'],
  },
  { clause: 'category', first: 'category DC-21B', instead: 'category DC-20B', shows: ['switch-category', 'hover'] },
  {
    clause: 'voltage',
    first: '48 V dc',
    instead: '24 V dc',
    scene: fed(`${word} S1 @`).replace('lead-acid, 12 V', 'lead-acid, 48 V'),
    shows: ['switch-voltage', 'hover'],
  },
  {
    clause: 'series',
    first: '2 in series 48 V',
    instead: '2 in series 36 V',
    besides: '24 V dc',
    scene: inSeries(`${word} S1 @`),
    shows: ['switch-voltage', 'hover'],
  },
  {
    clause: 'series',
    first: '2 in series 48 V',
    instead: '',
    besides: '24 V dc',
    scene: inSeries(`${word} S1 @`),
    shows: ['series-rating-unstated', 'hover'],
  },
  { clause: 'face', first: 'face 1 3 over 2 4', instead: 'face 1 4 over 2 3', shows: ['card', 'hover'] },
  { clause: 'pairs', first: '', instead: 'pairs 1-3 2-4', shows: ['poles-crossed', 'answers', 'hover'] },
];

const isolator: Scene = {
  word: 'isolator',
  name: 'S1',
  base: { poles: '2 poles', rating: '25 A dc' },
  spec: fed('isolator S1 @'),
  uses: switchUses('isolator'),
};

const handSwitch: Scene = {
  word: 'switch',
  name: 'S1',
  base: { poles: '2 poles', rating: '25 A dc' },
  spec: fed('switch S1 @'),
  uses: switchUses('switch'),
};

const selector: Scene = {
  word: 'selector',
  name: 'S1',
  base: { rating: '25 A dc' },
  spec: fed('selector S1 @').replace('S1:1', 'S1:2').replace('S1:2 to HEATER', 'S1:common to HEATER'),
  uses: [
    { clause: 'rating', first: '25 A dc', instead: '15 A dc', shows: ['switch-below-load', 'answers', 'hover'] },
    { clause: 'rating', first: '25 A dc', instead: '19 A dc', shows: ['switch-below-fuse', 'answers', 'hover'] },
    {
      clause: 'voltage',
      first: '48 V',
      instead: '24 V',
      scene: fed('selector S1 @')
        .replace('S1:1', 'S1:2')
        .replace('S1:2 to HEATER', 'S1:common to HEATER')
        .replace('lead-acid, 12 V', 'lead-acid, 48 V'),
      shows: ['switch-voltage', 'hover'],
    },
    { clause: 'positions', first: 'positions off 1 2 both', instead: 'positions off 1 2', shows: ['answers', 'hover'] },
  ],
};

const relay: Scene = {
  word: 'relay',
  name: 'K1',
  base: { coil: 'coil 12 V 150 mA', rating: 'contact 30 A' },
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
relay K1 @
load HEATER 180 W, lowest 10 V
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 2 m, F1:out to K1:30
run W3 6 mm² red, 1 m, K1:87 to HEATER:+
run W4 6 mm² black, 3 m, HEATER:- to B1:-
run W5 6 mm² red, 1 m, F1:out to K1:86
run W6 6 mm² black, 1 m, K1:85 to B1:-
case night HEATER on`,
  uses: [
    { clause: 'coil', first: 'coil 12 V 150 mA', instead: 'coil 12 V 300 mA', shows: ['answers', 'hover'] },
    {
      clause: 'coil',
      first: 'coil 12 V 150 mA',
      instead: 'coil 24 V 150 mA',
      shows: ['coil-voltage', 'answers', 'hover'],
    },
    {
      clause: 'rating',
      first: 'contact 30 A',
      instead: 'contact 10 A',
      shows: ['switch-below-load', 'answers', 'hover'],
    },
    { clause: 'rating', first: 'contact 30 A', instead: 'contact 19 A', shows: ['switch-below-fuse', 'answers'] },
    { clause: 'opens-below', first: 'opens below 11.2 V', instead: 'opens below 12.4 V', shows: ['answers', 'hover'] },
    {
      clause: 'closes-above',
      first: '',
      instead: 'closes above 12.6 V',
      besides: 'opens below 11.95 V',
      shows: ['answers', 'hover'],
    },
  ],
};

export const switching = [isolator, handSwitch, selector, relay];
