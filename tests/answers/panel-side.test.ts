/** The panel side: sums of short-circuit currents from data. The figures of two panels on one isolator are common practice, no source. */
import { describe, expect, it } from 'vitest';
import { answersOf, limited } from './spec.ts';

const panels = (more = '') => `battery B1 lead-acid, 12 V, 80 Ah
panel P1 and P2 190 W, voc 23 V, isc 10.3 A, vmp 19 V, imp 9.8 A
controller U1 mppt, pv 60 V 40 A, output 30 A
isolator Q1 4 poles, 32 A dc, 150 V${more}
run W9 6 mm² red, 2 m, U1:bat+ to B1:+
run W10 6 mm² black, 2 m, U1:bat- to B1:-
`;

/** Joined before the isolator: pole 1 carries both. */
const parallel = `${panels()}splice PP and PN
run W1 6 mm² red, 2 m, P1:+ to PP
run W2 6 mm² red, 2 m, P2:+ to PP
run W3 6 mm² black, 2 m, P1:- to PN
run W4 6 mm² black, 2 m, P2:- to PN
run W5 6 mm² red, 2 m, PP to Q1:1
run W6 6 mm² black, 2 m, PN to Q1:3
run W7 6 mm² red, 2 m, Q1:2 to U1:pv+
run W8 6 mm² black, 2 m, Q1:4 to U1:pv-
case night sun 0 %
`;

describe('two panels of 10.3 A in parallel', () => {
  const made = answersOf(parallel);

  it('make 20.6 A, in no sun at all', () => {
    for (const run of ['W5', 'W6', 'W7', 'W8']) expect(made.core(run).shortCircuitAmps).toBeCloseTo(20.6, 12);
    for (const run of ['W1', 'W2', 'W3', 'W4']) expect(made.core(run).shortCircuitAmps).toBeCloseTo(10.3, 12);
    expect(made.core('W5').designFrom).toBe('panels');
    expect(made.core('W5').onPanelSide).toBe(true);
  });

  it('leave a 32 A isolator about half again to spare, before any factor', () => {
    const { shortCircuitAmps, neededAmps, ratedAmps } = made.contact('Q1', 1);
    expect(shortCircuitAmps).toBeCloseTo(20.6, 12);
    // 32/20.6 = 1.5534; with IEC 62548's 1.25: 25.75 A needed.
    expect((ratedAmps ?? 0) / (shortCircuitAmps ?? 1)).toBeCloseTo(1.55, 2);
    expect(neededAmps).toBeCloseTo(25.75, 12);
  });

  it('protect their own cables by giving no more', () => {
    // P1's cable carries P1's current one way or P2's the other: 10.3 A, never both.
    expect(made.core('W1').protection.amps).toBeCloseTo(10.3, 12);
    expect(made.core('W5').protection.amps).toBeCloseTo(20.6, 12);
    expect(limited(made.core('W5'))).toEqual(['P1', 'P2']);
    expect(limited(made.core('W6'))).toEqual(['P1', 'P2']);
    expect(made.core('W6').isReturn).toBe(true);
  });

  it('end at the controller', () => {
    expect([made.core('W9').onPanelSide, made.core('W9').shortCircuitAmps]).toEqual([false, undefined]);
  });
});

it('poles each with a panel of its own carry that panel’s', () => {
  const made = answersOf(`${panels()}splice PP and PN
run W1 6 mm² red, 2 m, P1:+ to Q1:1
run W2 6 mm² red, 2 m, P2:+ to Q1:5
run W3 6 mm² black, 2 m, P1:- to Q1:3
run W4 6 mm² black, 2 m, P2:- to Q1:7
run W5 6 mm² red, 1 m, Q1:2 to PP
run W6 6 mm² red, 1 m, Q1:6 to PP
run W7 6 mm² black, 1 m, Q1:4 to PN
run W8 6 mm² black, 1 m, Q1:8 to PN
run W11 6 mm² red, 2 m, PP to U1:pv+
run W12 6 mm² black, 2 m, PN to U1:pv-
`);
  expect([1, 2, 3, 4].map((pole) => made.contact('Q1', pole).shortCircuitAmps)).toEqual([10.3, 10.3, 10.3, 10.3]);
  expect(made.core('W11').shortCircuitAmps).toBeCloseTo(20.6, 12);
});

it('linked poles carry both together', () => {
  const made = answersOf(`${panels(', 2 in parallel 45 A')}link Q1 1-5, 2-6
run W1 6 mm² red, 2 m, P1:+ to Q1:1
run W2 6 mm² red, 2 m, P2:+ to Q1:5
run W3 6 mm² black, 2 m, P1:- to Q1:3
run W4 6 mm² black, 2 m, P2:- to Q1:3
run W5 6 mm² red, 2 m, Q1:2 to U1:pv+
run W6 6 mm² black, 2 m, Q1:4 to U1:pv-
`);
  const one = made.contact('Q1', 1);
  expect([one.shortCircuitAmps, one.ratedAmps, one.parallelPoles]).toEqual([expect.closeTo(20.6, 12), 45, [1, 3]]);
});

it('a string has the current of its largest panel, and strings in parallel add up', () => {
  const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 and P3 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
panel P2 and P4 120 W, voc 22 V, isc 7 A, vmp 18 V, imp 6.5 A
controller U1 mppt, pv 60 V 40 A, output 30 A
run W1 6 mm² red, 2 m, P1:+ to U1:pv+
run W2 6 mm² red, 1 m, P1:- to P2:+
run W3 6 mm² black, 2 m, P2:- to U1:pv-
run W4 6 mm² red, 2 m, P3:+ to U1:pv+
run W5 6 mm² red, 1 m, P3:- to P4:+
run W6 6 mm² black, 2 m, P4:- to U1:pv-
run W9 6 mm² red, 2 m, U1:bat+ to B1:+
run W10 6 mm² black, 2 m, U1:bat- to B1:-
`);
  expect(['W1', 'W2', 'W3', 'W4', 'W5', 'W6'].map((run) => made.core(run).shortCircuitAmps)).toEqual([
    7, 7, 7, 7, 7, 7,
  ]);
  // The cable inside a string carries what the string gives.
  expect(made.core('W2').protection.amps).toBe(7);
});

it('two by two with their middles joined bear what each pair gives', () => {
  const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 and P2 and P3 and P4 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 60 V 40 A, output 40 A
splice TOP and MIDDLE and MIDDLE2 and BOTTOM
run W1 6 mm² red, 1 m, P1:+ to TOP
run W2 6 mm² red, 1 m, P2:+ to TOP
run W3 6 mm² red, 1 m, P1:- to MIDDLE
run W4 6 mm² red, 1 m, P2:- to MIDDLE
run W5 6 mm² red, 1 m, MIDDLE to MIDDLE2
run W6 6 mm² red, 1 m, P3:+ to MIDDLE2
run W7 6 mm² red, 1 m, P4:+ to MIDDLE2
run W8 6 mm² black, 1 m, P3:- to BOTTOM
run W9 6 mm² black, 1 m, P4:- to BOTTOM
run W10 6 mm² red, 1 m, TOP to U1:pv+
run W11 6 mm² black, 1 m, BOTTOM to U1:pv-
run W12 6 mm² red, 2 m, U1:bat+ to B1:+
run W13 6 mm² black, 2 m, U1:bat- to B1:-
case day sun 100 %, B1 at 12.5 V
`);
  const amps = ['W1', 'W3', 'W5', 'W6', 'W8', 'W10', 'W11'].map((run) => made.core(run).shortCircuitAmps);
  expect(amps).toEqual([6, 6, 12, 6, 6, 12, 12]);
  // All four feed the controller: 0.95 × 396 W at 25 °C, 0.84 of that with their cells at 65 °C.
  expect(made.in('day').part('U1').input?.watts).toBeCloseTo(396 * 0.84, -1);
  expect(made.in('day').part('U1').watts).toBeCloseTo(0.95 * (made.in('day').part('U1').input?.watts ?? 0), 9);
});

it('a panel’s return over the common negative is on the panel side, and the battery’s is not', () => {
  const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 60 V 40 A, output 30 A, common negative
busbar NEG 100 A
run W1 6 mm² red, 2 m, P1:+ to U1:pv+
run W2 6 mm² red, 2 m, P2:+ to U1:pv+
run W3 6 mm² black, 2 m, P1:- to NEG
run W4 6 mm² black, 2 m, P2:- to NEG
run W5 6 mm² black, 2 m, NEG to U1:bat-
run W6 6 mm² red, 2 m, U1:bat+ to B1:+
run W7 6 mm² black, 2 m, NEG to B1:-
`);
  expect(['W3', 'W4'].map((run) => made.core(run).shortCircuitAmps)).toEqual([6, 6]);
  expect(['W5', 'W7'].map((run) => made.core(run).onPanelSide)).toEqual([false, false]);
});
