/** Strings in cold and heat: figures by hand, and what the hover tells of them. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { hoverText } from '../kinds/effect.ts';

const text = `system 12 V, ambient 30 °C, coldest -10 °C, hottest 70 °C
panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A, voc drift -0.30 %/°C, power drift -0.40 %/°C
panel P3 and P4 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A, isc drift 0.05 %/°C
controller U1 mppt, pv 100 V 20 A, output 20 A
battery B1 lead-acid, 12 V, 80 Ah
run W1 6 mm² red, 1 m, P1:+ to U1:pv+
run W2 6 mm² red, 1 m, P1:- to P2:+
run W3 6 mm² black, 1 m, P2:- to U1:pv-
run W4 6 mm² red, 1 m, P3:+ to U1:pv+
run W5 6 mm² red, 1 m, P3:- to P4:+
run W6 6 mm² black, 1 m, P4:- to U1:pv-
run W7 6 mm² red, 1 m, U1:bat+ to B1:+
run W8 6 mm² black, 1 m, U1:bat- to B1:-
`;

it('two by two: cold by drift or by table, hot, shorted and backwards', () => {
  const analysis = analyseText(text);
  const { strings, inputs } = analysis.answers.strings;
  const [first, second] = [...strings].sort((a, b) => a.byTable.length - b.byTable.length);
  // 44 V × (1 + 0.003 × 35 K), and × 1.14 by the table at -10 °C.
  expect(first?.coldVolts).toBeCloseTo(44 * 1.105, 9);
  expect(second?.coldVolts).toBeCloseTo(44 * 1.14, 9);
  // 36 V × (1 − 0.004 × 45 K)/(1 + 0.0005 × 45 K).
  for (const one of [first, second]) expect(one?.hotVmp).toBeCloseTo((36 * 0.82) / 1.0225, 9);
  for (const one of [first, second]) expect([one?.shortCircuitAmps, one?.reverseAmps]).toEqual([6, 6]);
  expect(inputs[0]?.coldVolts).toBeCloseTo(44 * 1.14, 9);
  expect(inputs[0]?.shortCircuitAmps).toBe(12);
  expect(inputs[0]?.chargeVolts).toBeCloseTo(14.4, 9);
  expect(inputs[0]?.watts).toBeCloseTo(396, 6);
  expect(hoverText(analysis, 'P1')).toContain('48.62 V open in the greatest cold');
  expect(hoverText(analysis, 'U1')).toContain('50.16 V open in the greatest cold');
});
