/** Loads and sockets: what their clauses change. */
import type { Scene } from '../effect.ts';

const fed = (part: string) => `
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 7.5 A
${part}
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 5 m, F1:out to L1:+
run W3 2.5 mm² black, 5 m, L1:- to B1:-
case day all loads on`;

const load: Scene = {
  word: 'load',
  name: 'L1',
  base: { power: '60 W' },
  spec: fed('load L1 @'),
  uses: [
    { clause: 'power', first: '60 W', instead: '120 W', shows: ['answers', 'fuse-below-load', 'hover'] },
    {
      clause: 'current',
      first: '5 A',
      instead: '9 A',
      without: ['power'],
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'resistance',
      first: '4 Ω',
      instead: '1 Ω',
      without: ['power'],
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'lowest',
      first: 'lowest 11.0 V',
      instead: 'lowest 9.0 V',
      without: ['power'],
      besides: '75 W',
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'highest',
      first: 'highest 15 V',
      instead: 'highest 10 V',
      shows: ['load-above-highest-voltage', 'hover'],
    },
    {
      clause: 'most-fuse',
      first: 'most fuse 10 A',
      instead: 'most fuse 5 A',
      shows: ['fuse-above-appliance', 'hover'],
    },
    { clause: 'essential', first: '', instead: 'essential', shows: ['drop-over-limit', 'hover'] },
    {
      clause: 'surge',
      first: 'surge 30 A for 3 s',
      instead: 'surge 30 A for 0.1 s',
      without: ['power'],
      besides: '5 A',
      scene: fed('load L1 @').replace('fuse F1 7.5 A', 'fuse F1 7.5 A, maxi-blade'),
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'surge',
      first: 'surge 60 A for 90 s',
      instead: '',
      without: ['power'],
      besides: '5 A',
      shows: ['answers', 'cable-too-small', 'hover'],
    },
    {
      clause: 'for',
      first: 'for 4 s',
      instead: '',
      without: ['power'],
      besides: '9 A',
      scene: fed('load L1 @').replace('fuse F1 7.5 A', 'fuse F1 7.5 A, maxi-blade'),
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'for',
      first: 'for 4 s',
      instead: 'for 5 min',
      without: ['power'],
      besides: '36 A',
      scene: fed('load L1 @').replace('fuse F1 7.5 A', 'fuse F1 20 A, maxi-blade'),
      shows: ['answers', 'cable-too-small', 'hover'],
    },
    {
      clause: 'hours',
      first: '20 h/day',
      instead: '0.1 h/day',
      without: ['power'],
      besides: '36 A, for 20 s',
      scene: fed('load L1 @').replace('fuse F1 7.5 A', 'fuse F1 20 A, maxi-blade'),
      shows: ['answers', 'cable-too-small', 'hover'],
    },
    {
      clause: 'cranking',
      first: '',
      instead: 'cranking',
      scene: fed('load L1 @')
        .replace('fuse F1 7.5 A', 'switch F1 1 pole, 300 A dc')
        .replace('F1:in', 'F1:1')
        .replace('F1:out', 'F1:2'),
      shows: ['supply-unfused', 'answers'],
    },
    {
      clause: 'cranking',
      first: '',
      instead: 'cranking',
      without: ['power'],
      besides: '500 A',
      shows: ['cable-too-small', 'fuse-below-load'],
    },
    {
      clause: 'cranking',
      first: 'cranking',
      instead: '',
      without: ['power'],
      besides: '90 A, lowest 10.5 V',
      shows: ['drop-over-limit'],
    },
    {
      clause: 'terminal',
      first: 'terminal dimmer',
      instead: '',
      shows: ['unknown-terminal', 'hover'],
      more: 'run W4 1 mm² red, 1 m, F1:out to L1:dimmer',
    },
  ],
};

const socket: Scene = {
  word: 'socket',
  name: 'L1',
  base: { rating: '7.5 A' },
  spec: fed('socket L1 @'),
  uses: [
    { clause: 'rating', first: '7.5 A', instead: '10 A', shows: ['answers', 'fuse-below-load', 'hover'] },
    { clause: 'rating', first: '7.5 A', instead: '5 A', shows: ['connector-below-fuse', 'hover'] },
    {
      clause: 'plugged',
      first: 'plugged in 36 W',
      instead: 'plugged in 110 W',
      shows: ['answers', 'connector-below-fuse', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'lowest',
      first: '',
      instead: 'lowest 9 V',
      besides: 'plugged in 75 W',
      shows: ['answers', 'fuse-below-load', 'hover'],
    },
    {
      clause: 'highest',
      first: '',
      instead: 'highest 10 V',
      besides: 'plugged in 60 W',
      shows: ['load-above-highest-voltage', 'hover'],
    },
    { clause: 'essential', first: '', instead: 'essential', shows: ['drop-over-limit', 'hover'] },
  ],
};

export const loads = [load, socket];
