import type { Mistake } from './mistake.ts';

const added =
  'load P1 and P2 9 W\nrun W4  1.5 mm² red, 3 m, F1:out to P1:+\nrun W5  1.5 mm² black, 3 m, P1:- to B1:-\nrun W6  1.5 mm² red, 3 m, F1:out to P2:+\nrun W7  1.5 mm² black, 3 m, P2:- to B1:-\n';
const added2 =
  'load LAMP-A and LAMP-B 9 W\nrun W4  1.5 mm² red, 3 m, F1:out to LAMP-A:+\nrun W5  1.5 mm² black, 3 m, LAMP-A:- to B1:-\nrun W6  1.5 mm² red, 3 m, F1:out to LAMP-B:+\nrun W7  1.5 mm² black, 3 m, LAMP-B:- to B1:-\n';
const added3 =
  'load LEFT and RIGHT 9 W\nrun W4  1.5 mm² red, 3 m, F1:out to LEFT:+\nrun W5  1.5 mm² black, 3 m, LEFT:- to B1:-\nrun W6  1.5 mm² red, 3 m, F1:out to RIGHT:+\nrun W7  1.5 mm² black, 3 m, RIGHT:- to B1:-\n';

/** Names that belong together, and names that stand elsewhere. */
export const ofNames: readonly Mistake[] = [
  {
    what: 'two names and no and',
    add: added,
    find: 'load P1 and P2 9 W',
    put: 'load P1 P2 9 W',
    slug: 'unknown-clause',
    at: 'P2',
    message: 'Names that belong together are joined with “and”: write P1 and P2.',
  },
  {
    what: 'two names with a text each',
    add: added,
    find: 'load P1 and P2 9 W',
    put: 'load P1 "a" and P2 "b" 9 W',
    slug: 'bad-name',
    at: 'and P2',
    message: 'Names that belong together are joined with “and”, and a text stands behind the last: write P1 and P2.',
  },
  {
    what: 'a text between two names',
    add: added,
    find: 'load P1 and P2 9 W',
    put: 'load P1 "a" and P2 9 W',
    slug: 'bad-name',
    at: 'and P2',
    message: 'Names that belong together are joined with “and”, and a text stands behind the last: write P1 and P2.',
  },
  {
    what: 'two names with a figure each',
    add: added,
    find: 'load P1 and P2 9 W',
    put: 'load P1 9 W and P2 9 W',
    slug: 'unknown-clause',
    at: 'and P2',
    message:
      'Names that belong together stand before what is said of them: write “and P2” behind the first name, or give P2 a load of its own.',
  },
  {
    what: 'one name twice',
    add: added,
    find: 'load P1 and P2 9 W',
    put: 'load P1 and P1 9 W',
    slug: 'name-twice',
    at: 'P1',
    message: '“P1” is the name of a load already: give this load another name.',
  },
  {
    what: 'two names with a letter each and no and',
    add: added2,
    find: 'LAMP-A and LAMP-B',
    put: 'LAMP-A LAMP-B',
    slug: 'unknown-clause',
    at: 'LAMP-B',
    message: 'Names that belong together are joined with “and”: write LAMP-A and LAMP-B.',
  },
  {
    what: 'one name with its letter twice',
    add: added2,
    find: 'LAMP-A and LAMP-B',
    put: 'LAMP-A and LAMP-A',
    slug: 'name-twice',
    at: 'LAMP-A',
    message: '“LAMP-A” is the name of a load already: give this load another name.',
  },
  {
    what: 'a name with another letter',
    add: added2,
    find: 'load LAMP-A and LAMP-B',
    put: 'load LAMP-A',
    slug: 'unknown-name',
    at: 'LAMP-B',
    message: 'There is no part “LAMP-B”: did you mean LAMP or LAMP-A? 2 places name it.',
  },
  {
    what: 'two words that may be one name',
    add: added3,
    find: 'LEFT and RIGHT',
    put: 'LEFT RIGHT',
    slug: 'unknown-clause',
    at: 'RIGHT',
    message:
      '“RIGHT” stands by itself: write LEFT-RIGHT as one name, or LEFT and RIGHT for two that are alike, a load each.',
  },
  {
    what: 'two words with a figure each',
    add: added3,
    find: 'load LEFT and RIGHT 9 W',
    put: 'load LEFT 9 W and RIGHT 9 W',
    slug: 'unknown-clause',
    at: 'and RIGHT',
    message:
      'Names that belong together stand before what is said of them: write “and RIGHT” behind the first name, or give RIGHT a load of its own.',
  },
  {
    what: 'a name behind the figure',
    find: 'fuse F1     5 A,',
    put: 'fuse 5 A F1,',
    slug: 'missing-name',
    at: 'F1',
    message: 'The name comes behind the first word: write fuse F1.',
  },
  {
    what: 'a load’s name behind the figure',
    find: 'load LAMP   9 W,',
    put: 'load 9 W LAMP,',
    slug: 'missing-name',
    at: 'LAMP',
    message: 'The name comes behind the first word: write load LAMP.',
  },
  {
    what: 'a run that begins with its ends',
    find: 'run W2  1.5 mm² red, 3 m, F1:out to LAMP:+',
    put: 'run F1:out to LAMP:+, 1.5 mm² red, 3 m',
    slug: 'missing-name',
    at: 'run',
    message: 'This run has no name: give it one of letters and digits, such as W1.',
  },
  {
    what: 'a run that begins with from',
    find: 'run W2  1.5 mm² red, 3 m, F1:out to LAMP:+',
    put: 'run from F1:out to LAMP:+, 1.5 mm² red, 3 m',
    slug: 'missing-name',
    at: 'run',
    message: 'This run has no name: give it one of letters and digits, such as W1.',
  },
];
