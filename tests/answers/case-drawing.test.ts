/** A case's circuit keeps its drawing while cables alone change: but not where a cable changes what is drawn. */
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import { memory } from '../model/built.ts';

/** The charger charges the nearer of two batteries, to the voltage that this one asks for. */
const text = `system "Yard" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 300 mΩ, charge voltage 14.4 V
battery B2 lead-acid, 12 V, 80 Ah, internal 300 mΩ, charge voltage 13.6 V
charger U1 12 V, 60 A, from mains
load LAMP 24 W
run W1 2.5 mm² red, 1 m, U1:out+ to B1:+
run W2 2.5 mm² black, 1 m, U1:out- to B1:-
run W3 2.5 mm² red, 2 m, U1:out+ to B2:+
run W4 2.5 mm² black, 2 m, U1:out- to B2:-
run W5 1.5 mm² red, 3 m, B1:+ to LAMP:+
run W6 1.5 mm² black, 3 m, LAMP:- to B1:-
case day charge 50 %, U1 on, LAMP on
`;

/** Volts and amperes of a part in the first case, of one text after the other; each as the text is answered by itself. */
function asked(part: string, ...specs: readonly string[]) {
  const cache = new AnalysisCache();
  const answered = (spec: string, from: AnalysisCache) =>
    answersJson(analyse('memory:///spec.amps', memory({ 'spec.amps': spec }), from).answers);
  return specs.map((spec) => {
    const again = answered(spec, cache);
    expect(again).toEqual(answered(spec, new AnalysisCache()));
    const { volts, amps } = again.cases[0]?.parts[part] ?? {};
    return { volts: volts ?? Number.NaN, amps: amps ?? Number.NaN };
  });
}

describe('a case that was drawn before', () => {
  it('charges another battery once that is the nearer', () => {
    const nearer = text.replaceAll(', 2 m, U1', ', 0.2 m, U1');
    const [first, second, third] = asked('U1', text, nearer, text).map(({ volts }) => volts);
    expect(first).toBeGreaterThan(13.6);
    expect(second).toBeLessThan(13.61);
    expect(third).toBe(first);
  });

  it('has no resistance in a cable whose length is not said, and one again once it is', () => {
    const [first, second, third] = asked('LAMP', text, text.replace('red, 3 m, B1', 'red, B1'), text);
    expect(second?.volts).toBeGreaterThan(first?.volts ?? Number.NaN);
    expect(third).toEqual(first);
  });

  it('is drawn anew with a battery of another resistance', () => {
    // Nothing here asks which battery is the nearer.
    const plain = text.replace(/^charger.*\n|^run W[1-4].*\n/gm, '').replace('U1 on, ', '');
    const [first, second, third] = asked('LAMP', plain, plain.replace('internal 300 mΩ', 'internal 30 mΩ'), plain);
    expect(second?.volts).toBeGreaterThan(first?.volts ?? Number.NaN);
    expect(third).toEqual(first);
  });

  it('has its panels as warm as the system is now', () => {
    const panels = `panel P1 voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A
run W7 4 mm² red, 2 m, P1:+ to B2:+
run W8 4 mm² black, 2 m, P1:- to B2:-
case day sun 100 %,`;
    const cool = text.replace('case day', panels);
    const [first, second, third] = asked('P1', cool, cool.replace('12 V\n', '12 V\n    ambient 50 °C\n'), cool);
    expect(first?.amps).toBeGreaterThan(4);
    expect(second?.amps).not.toBeCloseTo(first?.amps ?? Number.NaN, 6);
    expect(third).toEqual(first);
  });
});
