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
  uses: [
    {
      clause: 'material',
      first: 'metal',
      instead: 'plastic',
      scene: `
enclosure BAY @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 5 A, in BAY
load LAMP 30 W
run W1 1 mm² red, 0.1 m, B1:+ to F1:in, enters BAY by gland M16
run W2 1 mm² red, 1 m, F1:out to LAMP:+, enters BAY open
run W3 1 mm² black, 2 m, LAMP:- to B1:-`,
      shows: ['chafe-without-grommet', 'entry-without-gland', 'hover'],
    },
    { clause: 'ip', first: 'IP65', instead: 'IP20', besides: 'outdoors', shows: ['box-ip-for-place', 'hover'] },
    {
      clause: 'exposure',
      first: 'outdoors',
      instead: 'indoors',
      besides: 'IP20',
      shows: ['box-ip-for-place', 'hover'],
    },
    {
      clause: 'knockouts',
      first: 'knockouts 2 x M16',
      instead: 'knockouts 1 x M16',
      shows: ['more-entries-than-knockouts', 'hover'],
    },
    {
      clause: 'knockouts',
      first: 'knockouts 2 x M16',
      instead: 'knockouts 2 x M12',
      shows: ['gland-and-knockout', 'hover'],
    },
    {
      clause: 'knockouts',
      first: 'knockouts 2 x M16',
      instead: 'knockouts 4 x M16',
      besides: 'blanks 1',
      shows: ['knockout-left-open', 'hover'],
    },
    {
      clause: 'blanks',
      first: 'blanks 2',
      instead: 'blanks 1',
      besides: 'knockouts 4 x M16',
      shows: ['knockout-left-open', 'hover'],
    },
  ],
};

const through = (od: string) => `
entry E1 @
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 5 A, in BOX
load LAMP 30 W
run W1 1 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by gland M16
run W2 1 mm² red, ${od}, 1 m, F1:out to LAMP:+, enters BOX by E1
run W3 1 mm² black, 2 m, LAMP:- to B1:-`;

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
    {
      clause: 'way',
      first: 'gland M20',
      instead: 'gland M12',
      more: 'enclosure OTHER plastic, knockouts 1 x M20',
      without: ['in'],
      besides: 'in OTHER',
      shows: ['gland-and-knockout', 'hover'],
    },
    {
      clause: 'way',
      first: 'gland M20',
      instead: 'gland M12',
      scene: through('od 9 mm'),
      besides: '1 hole',
      shows: ['gland-and-cable', 'hover'],
    },
    { clause: 'holes', first: '1 hole', instead: '2 holes', shows: ['gland-and-cable', 'hover'] },
    {
      clause: 'clamps',
      first: 'clamps 6 to 9 mm',
      instead: 'clamps 3 to 8 mm',
      scene: through('od 9 mm'),
      shows: ['gland-and-cable', 'hover'],
    },
    {
      clause: 'ip',
      first: 'IP65',
      instead: 'IP44',
      without: ['in'],
      besides: 'in OTHER',
      more: 'enclosure OTHER plastic, IP65',
      shows: ['gland-ip-below-box', 'hover'],
    },
  ],
};

export const enclosures = [enclosure, entry];
