/** Words in capitals, as from a stuck key, a telephone or a table. */
import type { Breakage } from './breakage.ts';

export const capitals: readonly Breakage[] = [
  [
    'a statement in capitals',
    'fuse F2 "Sun fuse"  30 A, bolt-in, 58 V, breaks 5 kA, at GARAGE',
    'FUSE F2 "SUN FUSE" 30 A, BOLT-IN, 58 V, BREAKS 5 KA, AT GARAGE',
    'unknown-statement',
    'FUSE',
    'Capitals count: these words are written fuse, bolt-in, breaks, kA and at.',
  ],
  [
    'a run in capitals',
    'run W18  = feed-6 red, 1.1 m, along GARAGE, F2:out to U1:bat+',
    'RUN W18 = FEED-6 RED, 1.1 M, ALONG GARAGE, F2:OUT TO U1:BAT+',
    'unknown-statement',
    'RUN',
    'Capitals count: these words are written run, feed-6, red, m, along, out, to and bat+.',
  ],
  [
    'a load in capitals',
    'load FAN "Roof fan"         30 W, 6 h/day, lowest 10.5 V',
    'LOAD FAN 30 W, 6 H/DAY, LOWEST 10.5 V',
    'unknown-statement',
    'LOAD',
    'Capitals count: these words are written load, h/day and lowest.',
  ],
  [
    'a first word with a capital',
    'fuse F2 "Sun fuse"',
    'Fuse F2 "Sun fuse"',
    'unknown-statement',
    'Fuse',
    '“Fuse” is no statement and no kind of part: did you mean fuse?',
  ],
  [
    'a note that begins with the name of a kind',
    'run W18  =',
    'Fuse holders and lamps as fitted last year.\nrun W18  =',
    'unknown-statement',
    'Fuse',
    '“Fuse” begins no statement: write fuse in small letters, or # before the line to keep it as a note.',
  ],
  [
    'words in capitals',
    'bolt-in, 58 V, breaks 5 kA, at GARAGE\nrun W17',
    'BOLT-IN, 58 V, BREAKS 5 kA, at GARAGE\nrun W17',
    'unknown-clause',
    'BOLT-IN',
    'Capitals count: these words are written bolt-in and breaks.',
  ],
];
