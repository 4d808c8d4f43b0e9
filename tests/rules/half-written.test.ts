/** What is only not written yet is no mistake of its own. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const yard = (...lines: readonly string[]) =>
  ['system "Yard" 12 V', '    both poles', 'battery B1 agm, 12 V, 60 Ah', ...lines, ''].join('\n');
const found = (text: string) => analyseText(text).findings.map(({ slug, subject }) => `${slug} ${subject}`);

describe('what is half written', () => {
  it('is a case that is bonded to nothing only once something is connected', () => {
    const inverter = 'inverter INV 300 W, lowest 10.5 V';
    const beside = found(yard(inverter, 'load LAMP 12 W', 'run W2 1.5 mm² red, 1 m, B1:+ to LAMP:+'));
    expect(beside).toContain('terminal-unconnected INV');
    expect(beside).not.toContain('case-not-bonded INV');
    expect(found(yard(inverter, 'run W1 16 mm² black, 1 m, INV:- to B1:-'))).toContain('case-not-bonded INV');
  });

  it('is a conductor that is not switched only once both its sides are wired, or none', () => {
    const isolator = [
      'isolator Q1 2 poles, 25 A dc, 48 V',
      'load LAMP 12 W',
      'run W1 1.5 mm² red, 1 m, B1:+ to Q1:1',
      'run W2 1.5 mm² red, 1 m, Q1:2 to LAMP:+',
    ];
    expect(found(yard(...isolator))).toContain('one-conductor-switched Q1');
    const half = found(yard(...isolator, 'run W3 1.5 mm² black, 1 m, LAMP:- to Q1:4'));
    expect(half).not.toContain('one-conductor-switched Q1');
    expect(half).toContain('terminal-unconnected Q1');
  });

  it('are poles whose other halves are missing, and crossed only where one feeds the other', () => {
    const isolator = 'isolator Q1 2 poles, 25 A dc, 48 V';
    const lamps = ['load LAMP and FAN 12 W', 'run W2 1.5 mm² red, 1 m, Q1:2 to LAMP:+'];
    const two = found(yard(isolator, ...lamps, 'run W3 1.5 mm² red, 1 m, Q1:4 to FAN:+'));
    expect(two).not.toContain('poles-crossed Q1');
    const pair = found(
      yard(isolator, 'run W2 1.5 mm² red, 1 m, B1:+ to Q1:1', 'run W3 1.5 mm² black, 1 m, B1:- to Q1:3'),
    );
    expect(pair).not.toContain('poles-crossed Q1');
    const handedOn = ['converter CV 5 V, 3 A', 'run W3 1.5 mm² red, 1 m, Q1:4 to CV:out+'];
    expect(found(yard(isolator, ...lamps, ...handedOn))).not.toContain('poles-crossed Q1');
    const crossed = found(yard(isolator, ...lamps, 'run W3 1.5 mm² red, 1 m, B1:+ to Q1:3'));
    expect(crossed).toContain('poles-crossed Q1');
  });
});

describe('a case without an answer', () => {
  it('names what takes its answer away, and not loads in series beside it', () => {
    const text = `system "Two" 12 V
battery B1 and B2 lead-acid, 12 V, 100 Ah, internal 15 mΩ
load A and B 6 W
load C 12 W
run W2 2.5 mm² red, 1 m, B1:+ to A:+
run W3 2.5 mm² red, 1 m, A:- to B:+
run W4 2.5 mm² black, 1 m, B:- to B1:-
run W6 2.5 mm² red, 1 m, B2:+ to C:-
run W7 2.5 mm² black, 1 m, C:+ to B2:-
case day all loads on
`;
    expect(analyseText(text).answers.cases[0]?.unfed.map(({ name }) => name)).toEqual(['C']);
  });
});

describe('a voltage that a load does not say', () => {
  it.each(['12 V, 30 W', '30 W, 12 V'])('is taken out of %s with its comma', (said) => {
    const text = yard(`load FAN ${said}`);
    const [told] = analyseText(text).findings.filter(({ slug }) => slug === 'wrong-unit');
    expect(told?.fixes.map(({ title }) => title)).toEqual(['Take 12 V out']);
    const edits = told?.fixes[0]?.edits ?? [];
    expect(applied({ 'spec.amps': text }, edits)['spec.amps']).toBe(yard('load FAN 30 W'));
  });
});
