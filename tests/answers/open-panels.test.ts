/** Panels in the sun that nothing takes current from are live: an open isolator leaves their leads at the open-circuit voltage. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

// voc 22 V at 25 °C with no drift: whatever the cells' warmth, that is what an open panel shows.
const panel = '100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A, voc drift 0 %/°C, isc drift 0 %/°C';

function system(...cases: string[]) {
  return analyseText(`system "Roof" 12 V
    ambient 25 °C
panel P1 and P2 ${panel}
panel P3 ${panel.replace('22 V', '24 V')}
isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2
isolator Q2 1 pole, 100 A dc, 60 V
controller U1 mppt, pv 100 V 20 A, output 15 A, common negative
battery B1 agm, 12 V, 100 Ah
fuse F1 30 A, bolt-in, 58 V, breaks 5 kA
splice PLUS
splice MINUS
run W1 6 mm² red, 2 m, P1:+ to PLUS
run W2 6 mm² black, 1 m, P1:- to P2:+
run W3 6 mm² black, 2 m, P2:- to MINUS
run W4 6 mm² red, 1 m, PLUS to Q1:1
run W5 6 mm² black, 1 m, MINUS to Q1:3
run W6 6 mm² red, 2 m, Q1:2 to U1:pv+
run W7 6 mm² black, 2 m, Q1:4 to U1:pv-
run W8 6 mm² red, 1 m, U1:bat+ to F1:out
run W9 6 mm² red, 0.2 m, F1:in to Q2:2
run W10 6 mm² red, 0.2 m, Q2:1 to B1:+
run W11 6 mm² black, 1 m, U1:bat- to B1:-
${cases.join('\n')}
`).answers;
}

const across = (answers: ReturnType<typeof system>, name: string, plus: string, minus: string): number => {
  const volts = answers.cases.find((one) => one.name === name)?.volts;
  return (volts?.get(plus) ?? Number.NaN) - (volts?.get(minus) ?? Number.NaN);
};

describe('panels in the sun that nothing takes current from', () => {
  it('are live up to an isolator that is open, and dead behind it', () => {
    const answers = system('case open sun 100 %, Q1 off');
    expect(across(answers, 'open', 'Q1:1', 'Q1:3')).toBeCloseTo(44, 1);
    expect(across(answers, 'open', 'P1:+', 'P1:-')).toBeCloseTo(22, 1);
    expect(Math.abs(across(answers, 'open', 'U1:pv+', 'U1:pv-'))).toBeLessThan(0.1);
    const given = answers.cases[0]?.parts.get('P1');
    expect(given?.volts).toBeCloseTo(22, 1);
    expect(Math.abs(given?.amps ?? Number.NaN)).toBeLessThan(0.001);
  });

  it('are live at a controller that has no battery to charge', () => {
    expect(across(system('case apart sun 100 %, Q2 off'), 'apart', 'U1:pv+', 'U1:pv-')).toBeCloseTo(44, 1);
  });

  it('are dead without sun, and where a case puts them off', () => {
    expect(Math.abs(across(system('case night Q1 off'), 'night', 'P1:+', 'P1:-'))).toBeLessThan(0.001);
    expect(
      Math.abs(across(system('case covered sun 100 %, Q1 off, P1 off, P2 off'), 'covered', 'Q1:1', 'Q1:3')),
    ).toBeLessThan(0.1);
  });

  it('give what their controller takes where they are joined to it', () => {
    const answers = system('case noon sun 100 %, charge 50 %');
    expect(across(answers, 'noon', 'P1:+', 'P1:-')).toBeLessThan(19);
    expect(answers.cases[0]?.parts.get('P1')?.amps ?? 0).toBeGreaterThan(4);
  });

  it('are live at what no controller stands before, although what that takes is not worked out', () => {
    const { answers } = analyseText(`system "Fan" 12 V
    ambient 25 °C
panel P1 ${panel}
load FAN 12 W, highest 24 V
run W1 6 mm² red, 2 m, P1:+ to FAN:+
run W2 6 mm² black, 2 m, P1:- to FAN:-
case noon sun 100 %
`);
    expect(across(answers, 'noon', 'FAN:+', 'FAN:-')).toBeCloseTo(22, 1);
  });

  it('drive nothing to speak of through others beside them', () => {
    const answers = analyseText(`system "Two" 12 V
    ambient 25 °C
panel P1 ${panel}
panel P2 ${panel.replace('22 V', '44 V').replace('18 V', '36 V').replace('100 W', '200 W')}
isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2
run W1 6 mm² red, 2 m, P1:+ to Q1:1
run W2 6 mm² red, 2 m, P2:+ to Q1:1
run W3 6 mm² black, 2 m, P1:- to Q1:3
run W4 6 mm² black, 2 m, P2:- to Q1:3
case open sun 100 %, Q1 off
`).answers;
    for (const { amps } of answers.cases[0]?.cores ?? []) expect(Math.abs(amps)).toBeLessThan(0.005);
    expect(across(answers, 'open', 'Q1:1', 'Q1:3')).toBeGreaterThan(20);
  });
});
