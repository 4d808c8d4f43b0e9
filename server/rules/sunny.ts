/** One panel, a controller and a battery, for examples on the panel side and on charging. */
import { example } from './language.ts';
import type { Example } from './rule.ts';

interface Sunny {
  /** What the panel says after its name. */
  readonly panel?: string;
  /** What the controller says after `mppt, pv 150 V 15 A`. */
  readonly controller?: string;
  readonly battery?: string;
  /** How the panel is led to the controller. */
  readonly between?: readonly string[];
  /** How the controller is led to the battery’s fuse. */
  readonly onward?: readonly string[];
  readonly system?: string;
}

/** An isolator of two poles between panel and controller. */
export const throughIsolator: readonly string[] = [
  'isolator Q1 2 poles, 16 A dc, 150 V, category DC-PV2',
  'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
  'run W2 4 mm² black, 2 m, P1:- to Q1:3',
  'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
  'run W4 4 mm² black, 3 m, Q1:4 to U1:pv-',
];

export function sunny({
  panel = '100 W, voc 23.0 V, isc 5.6 A, vmp 19.4 V, imp 5.15 A',
  controller = '',
  battery = 'agm, 12 V, 100 Ah, internal 15 mΩ',
  between = throughIsolator,
  onward = ['run W5 4 mm² red, 0.4 m, U1:bat+ to F1:out'],
  system = 'system "Shed" 12 V',
}: Sunny): Example {
  return example(
    system,
    `panel P1 ${panel}`,
    `controller U1 mppt, pv 150 V 15 A, output 15 A, common negative${controller}`,
    `battery B1 ${battery}`,
    'fuse F1 20 A, bolt-in, 58 V, breaks 5 kA',
    ...between,
    ...onward,
    'run W6 4 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 4 mm² black, 0.4 m, U1:bat- to B1:-',
  );
}
