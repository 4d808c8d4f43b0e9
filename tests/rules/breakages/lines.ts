/** Lines that stand where they do not belong, or run together. */
import type { Breakage } from './breakage.ts';

export const lines: readonly Breakage[] = [
  [
    'a stray indent',
    'fuse F2 "Sun fuse"',
    '    fuse F2 "Sun fuse"',
    'indented-statement',
    'fuse',
    'This fuse is a statement of its own: begin it at the margin, or it reads as part of the line above.',
  ],
  [
    'a core without its indent',
    '    red    FB:2 to CABIN:+',
    'red    FB:2 to CABIN:+',
    'unknown-statement',
    'red',
    '“red” is no statement: indent the line so that it continues the statement above.',
  ],
  [
    'a way without its indent',
    '    way 3 fuse 10 A',
    'way 3 fuse 10 A',
    'unknown-statement',
    'way',
    '“way” is no statement; it belongs to a fusebox: indent the line so that it continues the statement above.',
  ],
  [
    'two statements on one line',
    'U1:bat+\nrun W19',
    'U1:bat+ run W19',
    'missing-separator',
    'run W19',
    '“run W19” begins a statement of its own: put it on a new line.',
  ],
  [
    'two cores on one line',
    'to CABIN:+\n    black',
    'to CABIN:+ black',
    'missing-separator',
    'CABIN:+ black',
    'A comma is missing before “black”: clauses are separated by a comma or a new line.',
  ],
  [
    'a lone comma',
    'run W18  = feed-6',
    ',\nrun W18  = feed-6',
    'unknown-statement',
    ',',
    'A statement begins with a word such as run, fuse or load, not with “,”; a line that belongs to the statement above is indented.',
  ],
  [
    'a name given twice',
    'run W18  = feed-6',
    'run W17  = feed-6',
    'name-twice',
    'W17',
    '“W17” is the name of a run already: give this run another name.',
  ],
];
