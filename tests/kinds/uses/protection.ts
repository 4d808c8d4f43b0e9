/** Fuses, breakers and fuse-boards: what their clauses change. */
import type { Scene } from '../effect.ts';

const circuit = (device: string, way = 'F1:in', out = 'F1:out') => `
battery B1 lead-acid, 12 V, 100 Ah
${device}
switch S1 1 pole, 10 A dc, 24 V
load LAMP 60 W, lowest 10 V
run W1 1.5 mm² red, 0.1 m, B1:+ to ${way}
run W2 1.5 mm² red, 2 m, ${out} to S1:1
run W3 1.5 mm² red, 1 m, S1:2 to LAMP:+
run W4 1.5 mm² black, 3 m, LAMP:- to B1:-
case night LAMP on`;

const fuse: Scene = {
  word: 'fuse',
  name: 'F1',
  base: { rating: '10 A' },
  spec: circuit('fuse F1 @'),
  uses: [
    {
      clause: 'rating',
      first: '10 A',
      instead: '40 A',
      shows: ['cable-too-small', 'switch-below-fuse', 'answers', 'hover'],
    },
    { clause: 'rating', first: '10 A', instead: '5 A', shows: ['fuse-below-load'] },
    { clause: 'rating', first: '10 A', instead: '? A', shows: ['answers', 'hover'] },
    { clause: 'voltage', first: '32 V', instead: '6 V', shows: ['fuse-voltage', 'hover'] },
    { clause: 'voltage', first: '32 V', instead: '', shows: ['ratings-unstated', 'hover'] },
    { clause: 'breaks', first: 'breaks 1 kA', instead: '', shows: ['ratings-unstated', 'hover'] },
    {
      clause: 'breaks',
      first: 'breaks 1 kA',
      instead: 'breaks 5 kA',
      shows: ['fuse-breaking-capacity', 'answers', 'hover'],
    },
    { clause: 'style', first: 'blade', instead: 'class-t', shows: ['fuse-breaking-capacity', 'answers', 'hover'] },
    {
      clause: 'operates',
      first: 'operates 200 % in 0.15 s to 5 s',
      instead: 'operates 200 % in 1 s to 50 s',
      shows: ['answers', 'hover'],
    },
  ],
};

const breaker: Scene = {
  word: 'breaker',
  name: 'F1',
  base: { rating: '10 A' },
  spec: circuit('breaker F1 @'),
  uses: [
    {
      clause: 'rating',
      first: '10 A',
      instead: '40 A',
      shows: ['cable-too-small', 'switch-below-fuse', 'answers', 'hover'],
    },
    { clause: 'rating', first: '10 A', instead: '5 A', shows: ['fuse-below-load'] },
    {
      clause: 'breaks',
      first: 'breaks 1 kA',
      instead: 'breaks 5 kA',
      shows: ['fuse-breaking-capacity', 'answers', 'hover'],
    },
    {
      clause: 'face',
      first: 'face 1 3 over 2 4',
      instead: 'face 2 4 over 1 3',
      besides: '2 poles',
      scene: circuit('breaker F1 @', 'F1:1', 'F1:2'),
      shows: ['card', 'hover'],
    },
    { clause: 'voltage', first: '60 V dc', instead: '230 V ac', shows: ['breaker-not-dc', 'hover'] },
    {
      clause: 'polarity',
      first: 'polarised',
      instead: 'unpolarised',
      scene: circuit('breaker F1 @', 'F1:out', 'F1:in'),
      shows: ['breaker-reversed', 'hover'],
    },
    {
      clause: 'series-voltage',
      first: '10 V dc',
      instead: '10 V dc, 2 in series 20 V',
      besides: '2 poles',
      scene: circuit('breaker F1 @', 'F1:1', 'F1:2').replace('F1:2 to S1:1', 'F1:4 to S1:1\nlink F1 2-3'),
      shows: ['fuse-voltage', 'hover'],
    },
    { clause: 'poles', first: '', instead: '2 poles', shows: ['unknown-terminal', 'answers'] },
    {
      clause: 'poles',
      first: '2 poles',
      instead: '3 poles',
      scene: circuit('breaker F1 @', 'F1:1', 'F1:2'),
      more: 'run W5 1.5 mm² red, 1 m, B1:+ to F1:5',
      shows: ['unknown-terminal', 'terminal-unconnected'],
    },
    {
      clause: 'pairs',
      first: '2 poles',
      instead: '2 poles, pairs 1-3 2-4',
      scene: circuit('breaker F1 @', 'F1:1', 'F1:2'),
      shows: ['poles-crossed', 'answers'],
    },
  ],
};

const fusebox: Scene = {
  word: 'fusebox',
  name: 'FB',
  base: { ways: '4 ways' },
  spec: circuit('fusebox FB @', 'FB:in', 'FB:1'),
  uses: [
    { clause: 'ways', first: '4 ways', instead: '', shows: ['missing-required-clause', 'answers'] },
    {
      clause: 'ways',
      first: '4 ways',
      instead: '2 ways',
      scene: circuit('fusebox FB @', 'FB:in', 'FB:3'),
      shows: ['unknown-terminal', 'answers', 'hover'],
    },
    {
      clause: 'way',
      first: 'way 1 fuse 10 A',
      instead: 'way 1 fuse 40 A',
      shows: ['cable-too-small', 'switch-below-fuse', 'answers', 'hover'],
    },
    {
      clause: 'way',
      first: 'ways 1 to 2 fuse 10 A',
      instead: 'ways 1 to 2 fuse 5 A',
      shows: ['fuse-below-load', 'hover'],
    },
    {
      clause: 'breaks',
      first: 'breaks 1 kA',
      instead: 'breaks 5 kA',
      besides: 'way 1 fuse 10 A',
      shows: ['fuse-breaking-capacity', 'answers', 'hover'],
    },
    {
      clause: 'way',
      first: 'way 1 fuse 10 A',
      instead: 'way 1 fuse 10 A most 5 A',
      shows: ['fusebox-total'],
    },
    {
      clause: 'way',
      first: 'way 1 fuse 10 A',
      instead: 'way 1 fuse 9 A',
      shows: ['fuse-odd-rating'],
    },
    {
      clause: 'most',
      first: 'way 1 fuse 10 A, most 15 A',
      instead: 'way 1 fuse 10 A, most 7.5 A',
      shows: ['fusebox-total'],
    },
    {
      clause: 'total',
      first: 'total 20 A',
      instead: 'total 5 A',
      besides: 'way 1 fuse 10 A',
      shows: ['fusebox-total', 'hover'],
    },
    {
      clause: 'spares',
      first: 'spares 2 x 10 A',
      instead: 'spares 2 x 20 A',
      besides: 'way 1 fuse 10 A',
      shows: ['spare-fuse-mismatch', 'hover'],
    },
    {
      clause: 'negative',
      first: 'negative bar',
      instead: '',
      besides: 'way 1 fuse 10 A',
      scene: circuit('fusebox FB @', 'FB:in', 'FB:1').replace(
        'LAMP:- to B1:-',
        'LAMP:- to FB:neg\nrun W5 1.5 mm² black, 1 m, FB:neg to B1:-',
      ),
      shows: ['unknown-terminal', 'answers', 'hover'],
    },
  ],
};

export const protection = [fuse, breaker, fusebox];
