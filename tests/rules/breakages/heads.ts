/** Heads whose name is missing or cannot be one. */
import type { Breakage } from './breakage.ts';

export const heads: readonly Breakage[] = [
  [
    'a case called by a word of the notation',
    'case night    sun 0 %, charge 30 %',
    'case all sun 0 %, charge 30 %',
    'reserved-name',
    'all',
    '“all” is a word of the notation and cannot be a name: choose another, such as ALL1.',
  ],
  [
    'a case called by a word that a clause begins with',
    'case night    sun 0 %, charge 30 %',
    'case charge sun 0 %, charge 30 %',
    'reserved-name',
    'charge',
    '“charge” is a word of the notation and cannot be a name: choose another, such as CHARGE1.',
  ],
  [
    'a busbar that leads to something',
    'run W18  =',
    'busbar to the fuses\nrun W18  =',
    'missing-name',
    'busbar',
    'This busbar has no name: give it one of letters and digits, such as POS.',
  ],
  [
    'a busbar that leads to a terminal',
    'run W18  =',
    'busbar to F2:in\nrun W18  =',
    'missing-name',
    'busbar',
    'This busbar has no name: give it one of letters and digits, such as POS.',
  ],
  [
    '“to” for a name',
    'busbar NEG2                 100 A, in POWER-BOX',
    'busbar to NEG2 100 A, in POWER-BOX',
    'missing-name',
    'busbar',
    'This busbar has no name: give it one of letters and digits, such as POS.',
  ],
  [
    'a run that begins with its “to”',
    'run W18  = feed-6 red, 1.1 m, along GARAGE, F2:out to U1:bat+',
    'run to U1:bat+',
    'missing-name',
    'run',
    'This run has no name: give it one of letters and digits, such as W1.',
  ],
  [
    'a switch called on',
    'switch S2 "Bench switch"    1 pole',
    'switch on 1 pole',
    'reserved-name',
    'on',
    '“on” is a word of the notation and cannot be a name: choose another, such as ON1.',
  ],
];
