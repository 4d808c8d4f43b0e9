/** A panel or two, a controller, a battery: a small complete spec round the lines that an example is about. */
import type { Example } from './rule.ts';

const usual = {
  system: 'system "Shed" 12 V, ambient 30 °C, coldest -10 °C, hottest 65 °C',
  panels: 'panel P1 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C',
  controller: 'controller U1 mppt, pv 50 V 15 A, output 15 A, common negative',
  battery: 'battery B1 lead-acid, 12 V, 100 Ah, internal 12 mΩ',
  wiring: 'run W1 4 mm² red, 3 m, P1:+ to Q1:1\nrun W2 4 mm² black, 3 m, P1:- to Q1:3',
};

export function sunSpec(changes: Partial<Record<keyof typeof usual, string>> = {}): Example {
  const lines = [
    ...Object.values({ ...usual, ...changes }),
    'isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2',
    'run W8 4 mm² red, 1 m, Q1:2 to U1:pv+',
    'run W9 4 mm² black, 1 m, Q1:4 to U1:pv-',
    'fuse F1 20 A, blade, 32 V, breaks 2 kA',
    'run W5 4 mm² red, 105 °C, 0.5 m, U1:bat+ to F1:out',
    'run W6 4 mm² red, 105 °C, 0.1 m, F1:in to B1:+',
    'run W7 4 mm² black, 105 °C, 0.5 m, U1:bat- to B1:-',
  ];
  return { spec: `${lines.join('\n')}\n` };
}

/** Two panels in series. */
export const inSeries =
  'run W1 4 mm² red, 3 m, P1:+ to Q1:1\nrun W2 4 mm² black, 1 m, P1:- to P2:+\nrun W3 4 mm² black, 3 m, P2:- to Q1:3';

/** Two panels in parallel. */
export const inParallel =
  'run W1 4 mm² red, 3 m, P1:+ to Q1:1\nrun W2 4 mm² black, 3 m, P1:- to Q1:3\nrun W3 4 mm² red, 3 m, P2:+ to Q1:1\nrun W4 4 mm² black, 3 m, P2:- to Q1:3';
