/** Characters that come along from elsewhere. */
import type { Breakage } from './breakage.ts';

export const characters: readonly Breakage[] = [
  [
    'a wide colon',
    'F2:out to U1:bat+',
    'F2：out to U1：bat+',
    'stray-character',
    '：',
    'Write “:” for its wide form “：”, and the same for the others in this statement.',
  ],
  [
    'wide digits',
    '1.1 m, along GARAGE, F2',
    '１.１ m, along GARAGE, F2',
    'stray-character',
    '１',
    'Write “1” for its wide form “１”, and the same for the others in this statement.',
  ],
  [
    'a zero-width space before an end',
    'F2:out to U1:bat+',
    'F2:out to \u200bU1:bat+',
    'stray-character',
    'U1:bat+',
    'A character that cannot be seen stands beside “U1:bat+”; such come along with pasted text: take it out.',
  ],
  [
    'a zero-width space in a name',
    'run W18  =',
    'run W\u200b18  =',
    'stray-character',
    'W\u200b18',
    'A character that cannot be seen stands beside “W18”; such come along with pasted text: take it out.',
  ],
  [
    'a soft hyphen in a name',
    'along GARAGE, F2',
    'along GAR\u00adAGE, F2',
    'stray-character',
    'GAR\u00adAGE',
    'A character that cannot be seen stands beside “GARAGE”; such come along with pasted text: take it out.',
  ],
  [
    'a zero-width space at the end of a line',
    'U1:bat+\nrun W19',
    'U1:bat+\u200b\nrun W19',
    'stray-character',
    'U1:bat+',
    'A character that cannot be seen stands beside “U1:bat+”; such come along with pasted text: take it out.',
  ],
  [
    'a soft hyphen before a comma',
    'red, 1.1 m, along GARAGE, F2',
    'red, 1.1 m\u00ad, along GARAGE, F2',
    'stray-character',
    '1.1 m',
    'A character that cannot be seen stands beside “1.1 m”; such come along with pasted text: take it out.',
  ],
  [
    'a control character',
    'run W18  =',
    '\u0007run W18  =',
    'stray-character',
    'run',
    'A character that cannot be seen stands beside “run”; such come along with pasted text: take it out.',
  ],
];
