/** Enclosures and entries: what their clauses change. */
import type { Scene } from '../effect.ts';

const enclosure: Scene = {
  word: 'enclosure',
  name: 'BAY',
  base: { material: 'plastic' },
  spec: `
enclosure BAY @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 5 A, in BAY
load LAMP 30 W
run W1 1 mm² red, 0.1 m, B1:+ to F1:in, enters BAY by gland M16
run W2 1 mm² red, 1 m, F1:out to LAMP:+, enters BAY by gland M16
run W3 1 mm² black, 2 m, LAMP:- to B1:-`,
  uses: [],
};

const entry: Scene = {
  word: 'entry',
  name: 'E1',
  base: { way: 'gland M20', in: 'in BOX' },
  spec: `
entry E1 @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 5 A, in BOX
load LAMP 30 W
run W1 1 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by E1
run W2 1 mm² red, 1 m, F1:out to LAMP:+, enters BOX by E1
run W3 1 mm² black, 2 m, LAMP:- to B1:-`,
  uses: [
    { clause: 'way', first: 'gland M20', instead: 'grommet 12 mm', shows: ['hover'] },
    { clause: 'way', first: 'gland M20', instead: '', shows: ['missing-required-clause'] },
    { clause: 'holes', first: '', instead: '2 holes', shows: ['hover'] },
  ],
};

export const enclosures = [enclosure, entry];
