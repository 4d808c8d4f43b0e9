/** Controllers, chargers, converters and inverters: what their clauses change. */
import type { Scene } from '../effect.ts';

const controller: Scene = {
  word: 'controller',
  name: 'U1',
  base: { method: 'mppt', pv: 'pv 50 V 20 A', output: 'output 5 A' },
  spec: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 2.5 mm² red, 1 m, U1:bat+ to F1:out
run W4 2.5 mm² red, 0.1 m, F1:in to B1:+
run W5 2.5 mm² black, 1 m, U1:bat- to B1:-
case noon sun 100 %`,
  uses: [
    { clause: 'method', first: 'mppt', instead: 'pwm', shows: ['answers', 'hover'] },
    {
      clause: 'pv',
      first: 'pv 50 V 20 A',
      instead: 'pv 50 V 2 A',
      shows: ['answers', 'hover', 'pv-current-over-controller'],
    },
    {
      clause: 'pv',
      first: 'pv 50 V 20 A',
      instead: 'pv 22 V 20 A',
      shows: ['pv-voltage-over-controller', 'answers', 'hover'],
    },
    { clause: 'pv', first: 'pv 50 V 20 A', instead: '', shows: ['missing-required-clause', 'hover'] },
    {
      clause: 'charge-voltage',
      first: '',
      instead: 'charge voltage 14.0 V',
      scene: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 @
battery B1 lead-acid, 12 V, 100 Ah
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 2.5 mm² red, 1 m, U1:bat+ to B1:+
run W4 2.5 mm² black, 1 m, U1:bat- to B1:-
case noon sun 100 %, B1 at 13.95 V`,
      shows: ['answers', 'hover'],
    },
    { clause: 'output', first: 'output 5 A', instead: 'output 8 A', shows: ['answers', 'hover'] },
    {
      clause: 'battery-first',
      first: 'connect battery first',
      instead: '',
      scene: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
isolator Q1 2 poles, 16 A dc, 60 V
isolator Q2 1 pole, 50 A dc, 48 V
controller U1 @
battery B1 lead-acid, 12 V, 100 Ah
run W1 2.5 mm² red, 3 m, P1:+ to Q1:1
run W2 2.5 mm² black, 3 m, P1:- to Q1:3
run W3 2.5 mm² red, 1 m, Q1:2 to U1:pv+
run W4 2.5 mm² black, 1 m, Q1:4 to U1:pv-
run W5 2.5 mm² red, 1 m, U1:bat+ to Q2:1
run W6 2.5 mm² red, 0.1 m, Q2:2 to B1:+
run W7 2.5 mm² black, 1 m, U1:bat- to B1:-`,
      shows: ['battery-opened-before-panels', 'hover'],
    },
    {
      clause: 'charge-voltage',
      first: 'charge voltage 14.4 V',
      instead: 'charge voltage 15.0 V',
      shows: ['charge-voltage-and-chemistry', 'hover'],
    },
    {
      clause: 'output',
      first: 'output 10 A',
      instead: 'output 60 A',
      scene: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 @
load FAN 30 W
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 1.5 mm² red, 1 m, U1:bat+ to FAN:+
run W4 1.5 mm² black, 1 m, U1:bat- to FAN:-`,
      shows: ['cable-too-small'],
    },
    {
      clause: 'load-output',
      first: 'load output 15 A',
      instead: 'load output 20 A',
      more: 'load FAN 30 W\nrun W6 2.5 mm² red, 2 m, U1:load+ to FAN:+\nrun W7 2.5 mm² black, 2 m, U1:load- to FAN:-',
      shows: ['answers', 'hover'],
    },
    {
      clause: 'load-output',
      first: 'load output 15 A',
      instead: '',
      more: 'load FAN 30 W\nrun W6 2.5 mm² red, 2 m, U1:load+ to FAN:+\nrun W7 2.5 mm² black, 2 m, U1:load- to FAN:-',
      shows: ['unknown-terminal', 'hover'],
    },
    {
      clause: 'common',
      first: 'common negative',
      instead: 'isolated',
      scene: `
panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
controller U1 @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 15 A
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to B1:-
run W3 2.5 mm² red, 1 m, U1:bat+ to F1:out
run W4 2.5 mm² red, 0.1 m, F1:in to B1:+
run W5 2.5 mm² black, 1 m, U1:bat- to B1:-
case noon sun 100 %`,
      shows: ['answers', 'hover', 'terminal-unconnected'],
    },
  ],
};

const drive = `
battery B2 lead-acid, 12 V, 80 Ah
fuse F2 40 A
charger U2 @
fuse F1 30 A
battery B1 lead-acid, 12 V, 100 Ah
run W1 6 mm² red, 0.1 m, B2:+ to F2:in
run W2 6 mm² red, 5 m, F2:out to U2:in+
run W3 6 mm² black, 5 m, U2:in- to B2:-
run W4 4 mm² red, 1 m, U2:out+ to F1:out
run W5 4 mm² red, 0.1 m, F1:in to B1:+
run W6 4 mm² black, 1 m, U2:out- to B1:-
case driving all sources on`;

const mains = `
charger U2 @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 30 A
chassis G1
run W4 4 mm² red, 1 m, U2:out+ to F1:out
run W5 4 mm² red, 0.1 m, F1:in to B1:+
run W6 4 mm² black, 1 m, U2:out- to B1:-`;

const charger: Scene = {
  word: 'charger',
  name: 'U2',
  base: { voltage: '12 V', current: '18 A' },
  spec: drive,
  uses: [
    { clause: 'voltage', first: '12 V', instead: '24 V', shows: ['answers', 'hover'] },
    { clause: 'current', first: '18 A', instead: '10 A', shows: ['answers', 'hover'] },
    { clause: 'current', first: '18 A', instead: '80 A', shows: ['cable-too-small'] },
    { clause: 'efficiency', first: 'efficiency 90 %', instead: 'efficiency 80 %', shows: ['answers', 'hover'] },
    { clause: 'inputs', first: '', instead: 'inputs 2', shows: ['unknown-terminal', 'answers', 'hover'] },
    {
      clause: 'inputs',
      first: 'inputs 2',
      instead: 'inputs 3',
      scene: drive.replaceAll('U2:in', 'U2:in1'),
      more: 'run W7 6 mm² red, 5 m, F2:out to U2:in2+\nrun W8 6 mm² black, 5 m, U2:in2- to B2:-',
      shows: ['terminal-unconnected', 'hover'],
    },
    { clause: 'pv', first: '', instead: 'pv 50 V 15 A', shows: ['terminal-unconnected', 'hover'] },
    { clause: 'from-mains', first: '', instead: 'from mains', shows: ['answers', 'unknown-terminal'] },
    {
      clause: 'from-mains',
      first: '',
      instead: 'from mains',
      scene: mains,
      shows: ['terminal-unconnected', 'case-not-bonded'],
    },
    {
      clause: 'bond',
      first: 'bond 6 mm²',
      instead: 'bond 10 mm²',
      scene: `${mains}\nrun W7 6 mm² green/yellow, 1 m, U2:case to G1`,
      besides: 'from mains',
      shows: ['case-not-bonded', 'hover'],
    },
    {
      clause: 'insulated-case',
      first: 'insulated case',
      instead: '',
      scene: mains,
      besides: 'from mains',
      shows: ['case-not-bonded', 'hover'],
    },
    {
      clause: 'common',
      first: 'common negative',
      instead: 'isolated',
      scene: drive.replace('run W3 6 mm² black, 5 m, U2:in- to B2:-', 'run W3 6 mm² black, 5 m, B1:- to B2:-'),
      shows: ['answers', 'hover', 'terminal-unconnected'],
    },
    { clause: 'lowest', first: '', instead: 'lowest 11.5 V', shows: ['answers', 'hover'] },
    { clause: 'highest', first: '', instead: 'highest 10 V', shows: ['load-above-highest-voltage', 'hover'] },
  ],
};

const converter: Scene = {
  word: 'converter',
  name: 'U3',
  base: { voltage: '5 V', current: '6 A' },
  spec: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 10 A
converter U3 @
load TABLET 10 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 2 m, F1:out to U3:in+
run W3 1.5 mm² black, 2 m, U3:in- to B1:-
run W4 1 mm² red, 2 m, U3:out+ to TABLET:+
run W5 1 mm² black, 2 m, TABLET:- to U3:out-
case day TABLET on`,
  uses: [
    { clause: 'voltage', first: '5 V', instead: '19 V', shows: ['answers', 'hover'] },
    {
      clause: 'voltage',
      first: '5 V',
      instead: '12 V',
      more: 'load READER 5 W\nrun W6 1 mm² red, 7 m, U3:out+ to READER:+\nrun W7 1 mm² black, 7 m, READER:- to U3:out-\ncase read READER on',
      shows: ['drop-over-limit'],
    },
    { clause: 'current', first: '6 A', instead: '40 A', shows: ['answers', 'cable-too-small', 'hover'] },
    { clause: 'efficiency', first: 'efficiency 90 %', instead: 'efficiency 80 %', shows: ['answers', 'hover'] },
    { clause: 'lowest', first: '', instead: 'lowest 8 V', shows: ['answers', 'hover'] },
    { clause: 'highest', first: '', instead: 'highest 10 V', shows: ['load-above-highest-voltage', 'hover'] },
    {
      clause: 'common',
      first: 'common negative',
      instead: 'isolated',
      scene: `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 10 A
converter U3 @
load TABLET 10 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 2 m, F1:out to U3:in+
run W3 1.5 mm² black, 2 m, U3:in- to B1:-
run W4 1 mm² red, 2 m, U3:out+ to TABLET:+
run W5 1 mm² black, 2 m, TABLET:- to B1:-
case day TABLET on`,
      shows: ['answers', 'hover', 'terminal-unconnected'],
    },
  ],
};

const bare = `
battery B1 lead-acid, 12 V, 200 Ah
fuse F1 30 A
inverter INV @
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W2 16 mm² red, 4 m, F1:out to INV:+
run W3 16 mm² black, 4 m, INV:- to B1:-`;

const inverterFed = `
battery B1 lead-acid, 12 V, 200 Ah
fuse F1 30 A
inverter INV @
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W2 16 mm² red, 4 m, F1:out to INV:+
run W3 16 mm² black, 4 m, INV:- to B1:-
run W4 6 mm² green/yellow, 1 m, INV:case to G1
chassis G1
case work INV on
case shore all sources on`;

const inverter: Scene = {
  word: 'inverter',
  name: 'INV',
  base: { power: '350 W' },
  spec: inverterFed,
  uses: [
    { clause: 'power', first: '350 W', instead: '500 W', shows: ['answers', 'fuse-below-load', 'hover'] },
    {
      clause: 'most-fuse',
      first: 'most fuse 40 A',
      instead: 'most fuse 25 A',
      shows: ['fuse-above-appliance', 'hover'],
    },
    {
      clause: 'efficiency',
      first: 'efficiency 90 %',
      instead: 'efficiency 80 %',
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'lowest',
      first: 'lowest 11.5 V',
      instead: 'lowest 10.5 V',
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'highest',
      first: 'highest 16 V',
      instead: 'highest 10 V',
      shows: ['load-above-highest-voltage', 'hover'],
    },
    {
      clause: 'bond',
      first: 'bond 6 mm²',
      instead: 'bond 10 mm²',
      shows: ['case-not-bonded', 'hover'],
    },
    {
      clause: 'insulated-case',
      first: 'insulated case',
      instead: '',
      scene: bare,
      shows: ['case-not-bonded', 'hover'],
    },
    {
      clause: 'surge',
      first: 'surge 700 W for 20 s',
      instead: 'surge 700 W for 1 s',
      scene: inverterFed.replace('fuse F1 30 A', 'fuse F1 40 A, bolt-in'),
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'surge',
      first: 'surge 2000 W for 2 min',
      instead: '',
      shows: ['answers', 'cable-too-small', 'hover'],
    },
    { clause: 'charges', first: '', instead: 'charges 40 A', shows: ['answers', 'hover'] },
    {
      clause: 'essential',
      first: '',
      instead: 'essential',
      without: ['power'],
      besides: '450 W',
      shows: ['drop-over-limit', 'hover'],
    },
  ],
};

export const conversion = [controller, charger, converter, inverter];
