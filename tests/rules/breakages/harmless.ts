/** Unusual writing that reads as it stands: nothing is found. */
import type { Harmless } from './breakage.ts';

export const harmless: readonly Harmless[] = [
  [
    'a statement cut behind a comma',
    '30 A, bolt-in, 58 V, breaks 5 kA, at GARAGE\nrun W17',
    '30 A, bolt-in, 58 V, breaks 5 kA,\nrun W17',
  ],
  ['a tab for the indent', '    way 3 fuse 10 A', '\tway 3 fuse 10 A'],
  ['tabs between words', 'fuse F2 "Sun fuse"  30 A', 'fuse F2\t"Sun fuse"\t30 A'],
  ['a unit glued to its number', '1.1 m, along GARAGE, F2', '1.1m, along GARAGE, F2'],
  ['a lone comma on an indented line', 'run W18  = feed-6', '    ,\nrun W18  = feed-6'],
  ['two commas', '1.1 m, along GARAGE, F2', '1.1 m,, along GARAGE, F2'],
  ['a comma at the end', 'U1:bat+\nrun W19', 'U1:bat+,\nrun W19'],
  ['curly quotes', 'fuse F2 "Sun fuse"', 'fuse F2 “Sun fuse”'],
  ['one curly quote', 'fuse F2 "Sun fuse"', 'fuse F2 “Sun fuse"'],
  ['a no-break space before a unit', '1.1 m, along GARAGE, F2', '1.1\u00a0m, along GARAGE, F2'],
  ['no-break spaces for the indent', '    way 3 fuse 10 A', '\u00a0\u00a0\u00a0\u00a0way 3 fuse 10 A'],
  ['a byte order mark between lines', 'run W18  =', '\ufeffrun W18  ='],
  ['one line end of another system', 'U1:bat+\nrun W19', 'U1:bat+\r\nrun W19'],
];
