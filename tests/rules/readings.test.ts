/** A meter that tells of something broken, and which mend its reading leads to. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const van = `system "Van" 12 V
battery B1 agm, 12 V, 100 Ah
isolator Q1 2 poles, 100 A dc, 60 V
isolator Q2 1 pole, 100 A dc, 60 V
fuse F1 50 A, bolt-in, 58 V, breaks 5 kA
fuse F2 10 A, blade, 32 V
load LAMP 24 W
chassis G1 stud M8
inverter INV 300 W, insulated case
panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 75 V 15 A, output 15 A
run W1 10 mm² red, 0.2 m, B1:+ to F1:in
run W2 10 mm² red, 0.5 m, F1:out to Q1:1
run W3 10 mm² black, 0.5 m, B1:- to Q1:3
run W4 10 mm² red, 0.2 m, Q1:2 to F2:in
run W5 2.5 mm² red, 2 m, F2:out to LAMP:+
run W6 2.5 mm² black, 2 m, LAMP:- to Q1:4
run W7 10 mm² red, 2 m, Q1:2 to Q2:1
run W8 10 mm² red, 2 m, Q2:2 to INV:+
run W9 10 mm² black, 2 m, Q1:4 to INV:-
run W10 4 mm² red, 2 m, P1:+ to U1:pv+
run W11 4 mm² black, 2 m, P1:- to U1:pv-
`;

function told(reading: string): string[] {
  const { findings } = analyseText(`${van}reading 2026-04-18 ${reading}\n`);
  return findings.filter(({ slug }) => slug === 'reading-outside-expectation').map(({ message }) => message);
}

describe('a reading of what should be dead', () => {
  it.each([
    'Q1:2 to Q1:4 12.4 V with Q1 off',
    'LAMP:+ to LAMP:- 12.4 V with Q1 off, LAMP on',
    'INV:+ to INV:- 12.4 V with Q2 off',
  ])('is found whatever the charge: %s', (reading) => {
    expect(told(reading)).toEqual([expect.stringContaining('it is live, so look for a contact that does not open')]);
  });

  it('is none where it is dead, where it is fed, or where panels that nothing is said of may feed it', () => {
    expect(told('Q1:2 to Q1:4 0.1 V with Q1 off')).toEqual([]);
    expect(told('Q1:1 to Q1:3 12.4 V with Q1 off')).toEqual([]);
    expect(told('P1:+ to P1:- 21 V')).toEqual([]);
    expect(told('P1:+ to P1:- 21 V with sun 0 %')).toHaveLength(1);
  });
});

describe('a minus that stands at the voltage of the plus', () => {
  it('has its return broken', () => {
    expect(told('LAMP:- 12.3 V with LAMP on')).toEqual([
      expect.stringContaining('look for a broken core or a loose joint in its return, and take it as live'),
    ]);
    // Cut off from the battery it may float there.
    expect(told('LAMP:- to Q1:4 12.3 V with LAMP on')).toEqual([
      expect.stringContaining('look for a broken core, an open fuse or contact'),
    ]);
    expect(told('LAMP:- to Q1:4 0.6 V with LAMP on')).toEqual([expect.stringContaining('loose or corroded joint')]);
  });
});

describe('continuity', () => {
  it('over a contact that is open is found where nothing else joins its two sides', () => {
    expect(told('Q1:1 to Q1:2 continuity with Q1 off')).toEqual([
      expect.stringContaining('look for a contact that does not open'),
    ]);
    expect(told('Q1:1 to Q1:2 continuity with Q1 on')).toEqual([]);
    expect(told('B1:+ to G1 continuity')).toHaveLength(1);
  });

  it('through a load or a battery tells nothing', () => {
    // From Q2:1 over the lamp to the inverter’s other side.
    expect(told('Q2:1 to Q2:2 continuity with Q2 off')).toEqual([]);
    expect(told('LAMP:+ to LAMP:- continuity')).toEqual([]);
  });
});
