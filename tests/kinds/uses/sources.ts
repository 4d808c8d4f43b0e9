/** Batteries, panels, alternators: what their clauses change. */
import type { Scene } from '../effect.ts';

const battery: Scene = {
  word: 'battery',
  name: 'B1',
  base: { chemistry: 'lead-acid', voltage: '12 V', capacity: '100 Ah' },
  spec: `
battery B1 @
fuse F1 15 A
load LAMP 60 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 4 m, F1:out to LAMP:+
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
case night charge 60 %, LAMP on`,
  uses: [
    { clause: 'chemistry', first: 'lead-acid', instead: 'lithium-iron-phosphate', shows: ['answers', 'hover'] },
    { clause: 'voltage', first: '12 V', instead: '24 V', shows: ['answers', 'hover'] },
    { clause: 'voltage', first: '12 V', instead: '6 V', shows: ['drop-over-limit'] },
    { clause: 'capacity', first: '100 Ah', instead: '20 Ah', shows: ['answers', 'hover'] },
    {
      clause: 'charge-voltage',
      first: '',
      instead: 'charge voltage 14.0 V',
      scene: `
battery B1 @
charger U2 12 V, 20 A, from mains
run W1 6 mm² red, 1 m, U2:out+ to B1:+
run W2 6 mm² black, 1 m, U2:out- to B1:-
case shore U2 on, B1 at 13.9 V`,
      shows: ['answers', 'hover'],
    },
    {
      clause: 'discharge',
      first: 'discharge 10 A',
      instead: 'discharge 4 A',
      shows: ['discharge-over-battery', 'hover'],
    },
    {
      clause: 'charge',
      first: 'charge 10 A',
      instead: 'charge 8 A',
      more: 'charger U1 12 V, 10 A, from mains, insulated case\nrun W4 6 mm² red, 1 m, U1:out+ to F1:out\nrun W5 6 mm² black, 1 m, U1:out- to B1:-',
      shows: ['charge-current-over-battery', 'hover'],
    },
    {
      clause: 'casing',
      first: 'vented',
      instead: 'sealed',
      besides: 'at HALL',
      more: 'place HALL indoors',
      shows: ['vented-battery-indoors', 'hover'],
    },
    {
      clause: 'casing',
      first: 'vented',
      instead: 'sealed',
      besides: 'in CRATE',
      more: 'enclosure CRATE plastic\nswitch S1 1 pole, 10 A dc, in CRATE',
      shows: ['ignition-near-vented-battery', 'hover'],
    },
    ...['frost cut-off', 'heated'].map((clause) => ({
      clause: clause.replace(' ', '-'),
      first: clause,
      instead: '',
      without: ['chemistry'],
      besides: 'lithium-iron-phosphate',
      more: 'system coldest -5 °C\nalternator A1 14.2 V, 10 A\nrun W4 6 mm² red, 1 m, A1:+ to F1:out\nrun W5 6 mm² black, 1 m, A1:- to B1:-',
      shows: ['lithium-charged-in-frost', 'hover'],
    })),
    { clause: 'internal', first: '', instead: 'internal 20 mΩ', shows: ['answers', 'hover'] },
  ],
};

/** A panel where its controller bears little more, and in the heat gives little more than the battery asks for. */
const atItsLimits = `
system coldest -10 °C, hottest 70 °C
panel P1 @
controller U1 mppt, pv 25 V 20 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
run W1 2.5 mm² red, 3 m, P1:+ to U1:pv+
run W2 2.5 mm² black, 3 m, P1:- to U1:pv-
run W3 4 mm² red, 1 m, U1:bat+ to B1:+
run W4 4 mm² black, 1 m, U1:bat- to B1:-`;

const panel: Scene = {
  word: 'panel',
  name: 'P1',
  base: { power: '120 W', voc: 'voc 23.0 V', isc: 'isc 6.9 A', vmp: 'vmp 19.2 V', imp: 'imp 6.3 A' },
  spec: `
panel P1 @
isolator Q1 2 poles, 10 A dc, 60 V
controller U1 mppt, pv 50 V 20 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
run W1 2.5 mm² red, 3 m, P1:+ to Q1:1
run W2 2.5 mm² black, 3 m, P1:- to Q1:3
run W3 2.5 mm² red, 3 m, Q1:2 to U1:pv+
run W4 2.5 mm² black, 3 m, Q1:4 to U1:pv-
run W5 4 mm² red, 1 m, U1:bat+ to F1:out
run W6 4 mm² red, 0.1 m, F1:in to B1:+
run W7 4 mm² black, 1 m, U1:bat- to B1:-
case noon sun 100 %`,
  uses: [
    {
      clause: 'isc',
      first: 'isc 6.9 A',
      instead: 'isc 30 A',
      shows: ['answers', 'cable-too-small', 'switch-below-load'],
    },
    { clause: 'imp', first: 'imp 6.3 A', instead: 'imp 5.0 A', shows: ['answers', 'hover'] },
    {
      clause: 'most-series-fuse',
      first: 'most series fuse 15 A',
      instead: 'most series fuse 10 A',
      scene: `
panel P1 @
panel P2 and P3 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A, most series fuse 15 A
splice JP and JN
controller U1 mppt, pv 50 V 30 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
run W1 4 mm² red, 3 m, P1:+ to JP
run W2 4 mm² red, 3 m, P2:+ to JP
run W3 4 mm² red, 3 m, P3:+ to JP
run W4 4 mm² black, 3 m, P1:- to JN
run W5 4 mm² black, 3 m, P2:- to JN
run W6 4 mm² black, 3 m, P3:- to JN
run W7 6 mm² red, 3 m, JP to U1:pv+
run W8 6 mm² black, 3 m, JN to U1:pv-
run W9 4 mm² red, 1 m, U1:bat+ to F1:out
run W10 4 mm² red, 0.1 m, F1:in to B1:+
run W11 4 mm² black, 1 m, U1:bat- to B1:-`,
      shows: ['string-fuse-needed', 'hover'],
    },
    { clause: 'power', first: '120 W', instead: '150 W', shows: ['panel-figures-disagree', 'hover'] },
    {
      clause: 'voc',
      first: 'voc 23.0 V',
      instead: 'voc 19.0 V',
      shows: ['panel-figures-disagree', 'answers', 'hover'],
    },
    { clause: 'vmp', first: 'vmp 19.2 V', instead: 'vmp 12 V', shows: ['panel-figures-disagree', 'answers', 'hover'] },
    {
      clause: 'voc',
      first: 'voc 23.0 V',
      instead: 'voc 21.5 V',
      besides: 'voc drift -0.30 %/°C',
      scene: atItsLimits,
      shows: ['pv-voltage-over-controller', 'answers', 'hover'],
    },
    {
      clause: 'voc-drift',
      first: 'voc drift -0.30 %/°C',
      instead: 'voc drift -0.20 %/°C',
      scene: atItsLimits,
      shows: ['pv-voltage-over-controller', 'answers', 'hover'],
    },
    {
      clause: 'vmp',
      first: 'vmp 19.2 V',
      instead: 'vmp 16.8 V',
      scene: atItsLimits,
      shows: ['pv-below-charging-voltage', 'answers', 'hover'],
    },
    {
      clause: 'power-drift',
      first: 'power drift -0.35 %/°C',
      instead: 'power drift -0.60 %/°C',
      scene: atItsLimits,
      shows: ['pv-below-charging-voltage', 'answers', 'hover'],
    },
    {
      clause: 'isc',
      first: 'isc 6.9 A',
      instead: 'isc 10 A',
      without: ['imp'],
      besides: 'imp 6.3 A',
      scene: atItsLimits.replace('25 V 20 A', '25 V 8 A'),
      shows: ['pv-current-over-controller', 'answers'],
    },
    ...(['isc', 'imp'] as const).map((clause) => ({
      clause,
      first: clause === 'isc' ? 'isc 6.9 A' : 'imp 6.3 A',
      instead: clause === 'isc' ? 'isc 4.0 A' : 'imp 4.2 A',
      scene: `${atItsLimits.replace('P1:- to U1', 'P2:- to U1').replace('25 V', '80 V')}
panel P2 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
run W5 2.5 mm² black, 1 m, P1:- to P2:+`,
      shows: ['panels-mismatched', 'answers'],
    })),
    { clause: 'vmp', first: 'vmp 19.2 V', instead: 'vmp 18.2 V', shows: ['answers', 'hover'] },
    { clause: 'vmp', first: 'vmp 19.2 V', instead: '', shows: ['missing-required-clause', 'hover'] },
    { clause: 'voc', first: 'voc 23.0 V', instead: 'voc 22.0 V', shows: ['answers', 'hover'] },
    { clause: 'voc', first: 'voc 23.0 V', instead: '', shows: ['missing-required-clause', 'hover'] },
    { clause: 'voc-drift', first: '', instead: 'voc drift -0.26 %/°C', shows: ['answers', 'hover'] },
    { clause: 'voc-drift', first: '', instead: 'voc drift -60 mV/°C', shows: ['answers', 'hover'] },
    { clause: 'isc-drift', first: '', instead: 'isc drift 0.06 %/°C', shows: ['answers', 'hover'] },
    { clause: 'isc-drift', first: '', instead: 'isc drift 4 mA/°C', shows: ['answers', 'hover'] },
    { clause: 'power-drift', first: '', instead: 'power drift -0.35 %/°C', shows: ['answers', 'hover'] },
    { clause: 'noct', first: '', instead: 'noct 42 °C', shows: ['answers', 'hover'] },
  ],
};

const alternator: Scene = {
  word: 'alternator',
  name: 'A1',
  base: { voltage: '14.2 V', current: '70 A' },
  spec: `
alternator A1 @
battery B1 lead-acid, 12 V, 80 Ah, internal 100 mΩ
fuse F1 100 A
load HEATER 200 W
run W1 35 mm² red, 1 m, A1:+ to F1:out
run W2 35 mm² red, 0.1 m, F1:in to B1:+
run W3 35 mm² black, 1 m, A1:- to B1:-
run W4 70 mm² red, 1 m, F1:out to HEATER:+
run W5 70 mm² black, 1 m, HEATER:- to B1:-
case driving A1 and HEATER on`,
  uses: [
    { clause: 'voltage', first: '14.2 V', instead: '14.4 V', shows: ['answers', 'hover'] },
    { clause: 'voltage', first: '14.2 V', instead: '15.6 V', shows: ['charge-voltage-and-chemistry'] },
    { clause: 'current', first: '70 A', instead: '180 A', shows: ['answers'] },
    {
      clause: 'regulation',
      first: 'smart',
      instead: 'fixed',
      more: [
        'battery B2 agm, 12 V, 80 Ah',
        'relay K1 coil 12 V, contact 100 A',
        'run W6 35 mm² red, 1 m, F1:out to K1:30',
        'run W7 35 mm² red, 1 m, K1:87 to B2:+',
        'run W8 35 mm² black, 1 m, B2:- to B1:-',
      ].join('\n'),
      shows: ['alternator-without-limit', 'hover'],
    },
    {
      clause: 'current',
      first: '20 A',
      instead: '180 A',
      scene: `
alternator A1 @
load HEATER 200 W
run W1 4 mm² red, 1 m, A1:+ to HEATER:+
run W2 4 mm² black, 1 m, A1:- to HEATER:-
case driving A1 and HEATER on`,
      shows: ['cable-too-small'],
    },
  ],
};

export const sources = [battery, panel, alternator];
