/** Joints, measurement, the body: what their clauses change. */
import type { Scene, Use } from '../effect.ts';

const jointUses: Use[] = [
  { clause: 'rating', first: '20 A', instead: '10 A', shows: ['connector-below-fuse', 'hover'] },
  { clause: 'studs', first: '6 studs', instead: '', shows: ['hover'] },
  {
    clause: 'studs',
    first: '6 studs',
    instead: '2 studs',
    more: 'load FAN 10 W\nrun W5 2.5 mm² red, 1 m, J1:4 to FAN:+\nrun W6 2.5 mm² black, 1 m, FAN:- to B1:-',
    shows: ['unknown-terminal', 'answers'],
  },
];

const joint = (word: string): Scene => ({
  word,
  name: 'J1',
  base: {},
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
${word} J1 @
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to J1
run W3 2.5 mm² red, 1 m, J1 to LAMP:+
run W4 2.5 mm² black, 2 m, LAMP:- to B1:-
case night LAMP on`,
  uses: jointUses,
});

const connector: Scene = {
  word: 'connector',
  name: 'X1',
  base: { pins: '2 pins' },
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
connector X1 @
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to X1:1
run W3 2.5 mm² red, 1 m, X1:1 to LAMP:+
run W4 2.5 mm² black, 1 m, LAMP:- to X1:2
run W5 2.5 mm² black, 1 m, X1:2 to B1:-
case night LAMP on`,
  uses: [
    { clause: 'pins', first: '2 pins', instead: '1 pin', shows: ['unknown-terminal', 'answers', 'hover'] },
    { clause: 'rating', first: '20 A', instead: '10 A', shows: ['connector-below-fuse', 'hover'] },
  ],
};

const diode: Scene = {
  word: 'diode',
  name: 'D1',
  base: { rating: '20 A' },
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
diode D1 @
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to D1:in
run W3 2.5 mm² red, 1 m, D1:out to LAMP:+
run W4 2.5 mm² black, 2 m, LAMP:- to B1:-
case night LAMP on`,
  uses: [
    { clause: 'rating', first: '20 A', instead: '3 A', shows: ['connector-below-fuse', 'hover'] },
    { clause: 'loses', first: 'loses 0.3 V', instead: 'loses 0.9 V', shows: ['answers', 'hover'] },
    { clause: 'outputs', first: '', instead: '2 outputs', shows: ['terminal-unconnected', 'hover'] },
    {
      clause: 'outputs',
      first: '2 outputs',
      instead: '',
      more: 'load FAN 10 W\nrun W5 2.5 mm² red, 1 m, D1:out2 to FAN:+\nrun W6 2.5 mm² black, 1 m, FAN:- to B1:-',
      shows: ['unknown-terminal', 'answers'],
    },
  ],
};

const shunt: Scene = {
  word: 'shunt',
  name: 'SH1',
  base: { rating: '150 A', voltage: '50 mV' },
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
shunt SH1 @
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to SH1:load
run W4 2.5 mm² black, 1 m, SH1:battery to B1:-
case night LAMP on`,
  uses: [
    { clause: 'rating', first: '150 A', instead: '50 A', shows: ['answers', 'hover'] },
    { clause: 'rating', first: '150 A', instead: '10 A', shows: ['connector-below-fuse', 'hover'] },
    { clause: 'voltage', first: '50 mV', instead: '75 mV', shows: ['answers', 'hover'] },
  ],
};

const chassis: Scene = {
  word: 'chassis',
  name: 'G1',
  base: {},
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
chassis G1 @
chassis G2
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to G1
run W4 2.5 mm² black, 1 m, B1:- to G2
case night LAMP on`,
  uses: [{ clause: 'body', first: '', instead: 'body 20 mΩ', shows: ['answers', 'hover'] }],
};

export const joints = [joint('busbar'), joint('splice'), joint('block'), connector, diode, shunt, chassis];
