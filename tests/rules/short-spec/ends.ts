import type { Mistake } from './mistake.ts';

/** Where a core leads. */
export const ofEnds: readonly Mistake[] = [
  {
    what: 'an end that goes to another',
    find: 'F1:out to LAMP:+',
    put: 'F1:out goes to LAMP:+',
    slug: 'unknown-clause',
    at: 'goes to',
    message: '“goes to” is written to here.',
  },
  {
    what: 'an end connected to another',
    find: 'F1:out to LAMP:+',
    put: 'F1:out connected to LAMP:+',
    slug: 'unknown-clause',
    at: 'connected to',
    message: '“connected to” is written to here.',
  },
  {
    what: 'an end into another',
    find: 'F1:out to LAMP:+',
    put: 'F1:out into LAMP:+',
    slug: 'unknown-clause',
    at: 'into',
    message: '“into” is written to here.',
  },
  {
    what: 'an end that feeds another',
    find: 'F1:out to LAMP:+',
    put: 'F1:out feeds LAMP:+',
    slug: 'unknown-clause',
    at: 'feeds',
    message: '“feeds” is written to here.',
  },
  {
    what: 'between two ends',
    find: 'F1:out to LAMP:+',
    put: 'between F1:out and LAMP:+',
    slug: 'unknown-clause',
    at: 'between F1:out and LAMP:+',
    message: '“between F1:out and LAMP:+” is written F1:out to LAMP:+ here.',
  },
  {
    what: 'the far end first',
    find: 'F1:out to LAMP:+',
    put: 'to LAMP:+ from F1:out',
    slug: 'unknown-clause',
    at: 'to LAMP:+ from F1:out',
    message: '“to LAMP:+ from F1:out” is written F1:out to LAMP:+ here.',
  },
  {
    what: 'what connects',
    find: 'F1:out to LAMP:+',
    put: 'connects F1:out to LAMP:+',
    slug: 'unknown-clause',
    at: 'connects',
    message: '“connects” need not be said before “F1:out”: leave it out.',
  },
  {
    what: 'a cable with its ends',
    find: 'run W2  1.5',
    put: 'cable W2  1.5',
    slug: 'unknown-statement',
    at: 'cable',
    message: 'A cable that is laid is a run: write run W2.',
  },
];
