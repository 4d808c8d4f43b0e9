import type { Mistake } from './mistake.ts';

const box = 'enclosure BOX plastic, IP65, knockouts 4 x M20, blanks 4\n';
const bar = 'busbar POS 50 A, 8 studs, stud M6\nrun W4 1.5 mm² red, 0.2 m, F1:out to POS\n';
const board =
  'fusebox FB 2 ways, total 30 A, breaks 2 kA, way 1 fuse 5 A\nfuse F2 10 A, blade, 32 V, breaks 5 kA\nrun W7 2.5 mm² red, 0.2 m, B1:+ to F2:in\nrun W8 2.5 mm² red, 0.2 m, F2:out to FB:in\n';
const relay = 'relay K1 coil 12 V 150 mA, contact 30 A\n';
const two = 'load L2 9 W, 2 h/day\nload L3 12 W, 3 h/day\n';

const knockouts = (put: string): Mistake => ({
  what: put,
  add: box,
  find: 'knockouts 4 x M20',
  put,
  slug: 'unknown-clause',
  at: put,
  message: `“${put}” is written knockouts 4 x M20 here.`,
});

const fed = (put: string, at: string): Mistake => ({
  what: put,
  find: '9 W, lowest',
  put: `9 W${put}, lowest`,
  slug: 'unknown-clause',
  at,
  message: `What a load is joined to is said by its cables, as in run W9 1.5 mm² red, 2 m, F1:out to LAMP:+: leave “${at}” out, and lead a run to it.`,
});

/** What parts have, in another order or by another name. */
export const ofParts: readonly Mistake[] = [
  knockouts('4 knockouts M20'),
  knockouts('M20 knockouts 4'),
  knockouts('4 x M20 knockouts'),
  knockouts('knockouts 4 M20'),
  knockouts('knockouts M20 x 4'),
  knockouts('4 m20 holes'),
  {
    what: 'clamps of a bar',
    add: bar,
    find: '8 studs',
    put: '8 clamps',
    slug: 'unknown-clause',
    at: '8 clamps',
    message: '“8 clamps” is written 8 studs here.',
  },
  {
    what: 'a way and its fuse with a comma between',
    add: board,
    find: 'way 1 fuse 5 A',
    put: 'way 1, 5 A',
    slug: 'unknown-clause',
    at: 'way 1, 5 A',
    message: '“way 1, 5 A” is written way 1 fuse 5 A here.',
  },
  {
    what: 'what contacts carry',
    add: relay,
    find: 'contact 30 A',
    put: 'contacts 30 A',
    slug: 'unknown-clause',
    at: 'contacts 30 A',
    message: '“contacts 30 A” is written contact 30 A here.',
  },
  {
    what: 'a bar that a case turns off',
    add: `${bar}case night LAMP on\n`,
    find: 'LAMP on',
    put: 'LAMP on, POS off',
    slug: 'unknown-position',
    at: 'POS',
    message: 'POS is a busbar, which nothing turns on or off: leave it out here.',
  },
  fed(' on F1', 'on F1'),
  fed(', fed from F1', 'fed from F1'),
  fed(', on fuse F1', 'on fuse F1'),
  {
    what: 'a second load on the line of the first',
    add: two,
    find: '\nload L3 12 W',
    put: ', L3 12 W',
    slug: 'unknown-clause',
    at: 'L3 12 W',
    message:
      'Each load is said on a line of its own: put load L3 12 W on a new line, or name those that are alike in a row, joined by “and”.',
  },
  {
    what: 'a voltage behind what a load takes',
    find: '9 W, lowest 10.5 V',
    put: '9 W at 12 V, lowest 10.5 V',
    slug: 'unknown-clause',
    at: 'at 12 V',
    message: '“at 12 V” need not be said behind “9 W”: the voltage there follows from the circuit.',
  },
];
