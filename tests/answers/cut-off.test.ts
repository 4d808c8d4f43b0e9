/** Loads that a case cuts off, with others beside them: they are dead, and the case has an answer all the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutOffAmong } from '../../server/answers/cut-off.ts';
import type { Terminal } from '../../server/model/model.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { analyseText } from '../analysed.ts';

const hut = (loads: string, ...cases: readonly string[]) => `system "Hut" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
fuse F1 40 A, bolt-in, 58 V, breaks 5 kA
isolator Q1 1 pole, 100 A dc, 60 V
busbar POS 60 A
busbar NEG 60 A
${loads}
load PUMP 60 W
load HORN 5 A
load COIL 20 Ω
load RADIO 24 W
fuse F2 10 A, blade, 32 V, breaks 5 kA
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 10 mm² red, 0.5 m, F1:out to Q1:1
run W3 10 mm² red, 0.5 m, Q1:2 to POS
run W4 10 mm² black, 0.5 m, NEG to B1:-
run W5 6 mm² red, 1 m, POS to FAN:+
run W6 6 mm² black, 1 m, FAN:- to NEG
run W7 6 mm² red, 1 m, POS to PUMP:+
run W8 6 mm² black, 1 m, PUMP:- to NEG
run W9 6 mm² red, 1 m, POS to HORN:+
run W10 6 mm² black, 1 m, HORN:- to NEG
run W11 6 mm² red, 1 m, POS to COIL:+
run W12 6 mm² black, 1 m, COIL:- to NEG
run W13 4 mm² red, 0.1 m, B1:+ to F2:in
run W14 4 mm² red, 1 m, F2:out to RADIO:+
run W15 4 mm² black, 1 m, RADIO:- to NEG
${cases.join('\n')}
`;

const caseOf = (text: string, name: string) => analyseText(text).answers.cases.find((one) => one.name === name);

describe('loads behind what a case switches off', () => {
  const parked = caseOf(hut('load FAN 120 W', 'case parked all loads on, Q1 off'), 'parked');

  it('take nothing and have no voltage, whatever they draw when fed', () => {
    expect(parked?.converged).toBe(true);
    for (const name of ['FAN', 'PUMP', 'HORN', 'COIL']) {
      expect(parked?.parts.get(name)?.volts, name).toBeCloseTo(0, 9);
      expect(parked?.parts.get(name)?.amps ?? 0, name).toBeCloseTo(0, 9);
    }
  });

  it('leave what is fed past it as it is', () => {
    const alone = caseOf(hut('load FAN 120 W', 'case radio RADIO on'), 'radio');
    expect(alone?.parts.get('RADIO')?.volts).toBeGreaterThan(11);
    expect(parked?.parts.get('RADIO')?.volts).toBeCloseTo(alone?.parts.get('RADIO')?.volts ?? 0, 9);
    expect(parked?.parts.get('B1')?.amps).toBeCloseTo(alone?.parts.get('B1')?.amps ?? 0, 9);
  });

  it('need not be in the wiring of a source for a finding, but an expectation of their voltage is not met', () => {
    const text = hut(
      'load FAN 120 W',
      'case parked all loads on, Q1 off',
      'expect FAN voltage at least 11 V in parked',
    );
    const found = analyseText(text).findings.filter(
      ({ slug }) => slug === 'expect-not-met' || slug === 'case-unanswered',
    );
    expect(found.map(({ message }) => message)).toEqual([
      'The voltage of FAN is 0 V in case parked, but at least 11 V is expected: nothing feeds it there, so look for what is open before it in that case.',
    ]);
  });

  it('have the voltage of the plus on their minus where it is the negative that is open', () => {
    const open = hut('load FAN 120 W', 'case parked all loads on, RADIO off, Q1 off')
      .replace('F1:out to Q1:1', 'F1:out to POS')
      .replace('run W3 10 mm² red, 0.5 m, Q1:2 to POS\n', '')
      .replace('NEG to B1:-', 'NEG to Q1:1\nrun W16 10 mm² black, 0.5 m, Q1:2 to B1:-');
    const negative = caseOf(open, 'parked');
    expect(negative?.parts.get('FAN')?.volts).toBeCloseTo(0, 9);
    for (const id of ['NEG', 'FAN:-', 'HORN:-', 'Q1:1']) expect(negative?.volts.get(id), id).toBeGreaterThan(11);
    expect(negative?.volts.get('Q1:2')).toBeCloseTo(0, 9);
  });

  it('are dead behind a relay that has not pulled in, too', () => {
    const relay = hut('load FAN 120 W', 'case parked all loads on')
      .replace(
        'isolator Q1 1 pole, 100 A dc, 60 V',
        'relay Q1 coil 12 V 150 mA, contact 60 A\nswitch S1 1 pole, 10 A dc, 24 V',
      )
      .replace('F1:out to Q1:1', 'F1:out to Q1:30')
      .replace('Q1:2 to POS', 'Q1:87 to POS')
      .concat(
        'run W16 1.5 mm² red, 1 m, F2:out to S1:1\nrun W17 1.5 mm² red, 1 m, S1:2 to Q1:86\nrun W18 1.5 mm² black, 1 m, Q1:85 to NEG\ncase off all loads on, S1 off\n',
      );
    expect(caseOf(relay, 'off')?.converged).toBe(true);
    expect(caseOf(relay, 'off')?.parts.get('FAN')?.volts).toBeCloseTo(0, 9);
    expect(caseOf(relay, 'parked')?.parts.get('FAN')?.volts).toBeGreaterThan(11);
  });
});

describe('a load the wrong way round', () => {
  it('is no load that is cut off: its case has no answer', () => {
    const text = hut('load FAN 120 W', 'case day all loads on', 'allow polarity-reversed on FAN "tried"')
      .replace('POS to FAN:+', 'POS to FAN:-')
      .replace('FAN:- to NEG', 'FAN:+ to NEG');
    expect(caseOf(text, 'day')?.converged).toBe(false);
  });
});

describe('what lies on no loop with a source', () => {
  interface Between {
    readonly from: number;
    readonly to: number;
  }
  const between = fc.record({
    from: fc.integer({ min: 0, max: 7 }),
    to: fc.integer({ min: 0, max: 7 }),
  });
  /** No bridge of such resistances is in balance. */
  const oddOhms = (i: number) => Math.sqrt([2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37][i] ?? 41);
  const port = ({ from, to }: Between) => ({ plus: terminalAt(from), minus: terminalAt(to) });
  const terminalAt = (index: number) => ({ index }) as Terminal;

  it('is what no current flows in when the circuit is worked out', () => {
    fc.assert(
      fc.property(fc.array(between, { maxLength: 12 }), fc.array(between, { maxLength: 4 }), (loads, sources) => {
        const draws = loads.filter(({ from, to }) => from !== to).map((load) => ({ ...port(load), load }));
        const giving = sources.filter(({ from, to }) => from !== to);
        const dead = cutOffAmong(draws, giving.map(port), ({ index }) => index);
        const { volts, converged } = solveCircuit({
          nodeCount: 8,
          resistors: draws.map(({ load }, i) => ({ a: load.from, b: load.to, ohms: oddOhms(i) })),
          emfs: giving.map(({ from, to }, i) => ({
            plus: from,
            minus: to,
            volts: 10 + oddOhms(i),
            ohms: 0.1 * oddOhms(i),
          })),
          links: [],
          limited: [],
          currents: [],
          powers: [],
          diodes: [],
          references: [],
        });
        expect(converged).toBe(true);
        for (const draw of draws) {
          const across = Math.abs((volts[draw.load.from] ?? 0) - (volts[draw.load.to] ?? 0));
          if (dead.has(draw)) expect(across).toBeLessThan(1e-9);
          else expect(across).toBeGreaterThan(1e-9);
        }
      }),
    );
  });
});
