/** An alternator on a battery, with nothing but a fuse between: an example of several rules. */
import { example } from './language.ts';
import type { Example } from './rule.ts';

export function driven(battery: string, alternator = '14.2 V, 90 A, fixed'): Example {
  return example(
    'system "Van" 12 V',
    `alternator A1 ${alternator}`,
    `battery B1 ${battery}`,
    'fuse F1 100 A, cartridge, 125 V, breaks 20 kA',
    'run W1 35 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 35 mm² red, 2 m, F1:out to A1:+',
    'run W3 35 mm² black, 2 m, A1:- to B1:-',
  );
}
