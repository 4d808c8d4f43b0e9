import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

/** Three batteries side by side behind their fuses, the third with its leads as said. */
const bank = (plus: string, minus: string) => `system "Bank" 12 V
battery B1 and B2 and B3 agm, 12 V, 100 Ah, internal 5 mΩ
fuse F1 and F2 and F3 60 A, bolt-in, 58 V, breaks 10 kA
fuse F4 40 A, bolt-in, 58 V, breaks 10 kA
busbar POS and NEG
chassis G1
load PUMP 100 W
charger U1 from mains, 14.4 V, 20 A
run W1 16 mm² red, 0.2 m, B1:+ to F1:in
run W2 16 mm² red, 0.2 m, F1:out to POS
run W3 16 mm² red, 0.2 m, B2:+ to F2:in
run W4 16 mm² red, 0.2 m, F2:out to POS
run W5 16 mm² red, 0.2 m, B3:${plus} to F3:in
run W6 16 mm² red, 0.2 m, F3:out to POS
run W7 16 mm² black, 0.4 m, B1:- to NEG
run W8 16 mm² black, 0.4 m, B2:- to NEG
run W9 16 mm² black, 0.4 m, B3:${minus} to NEG
run W10 16 mm² red, 0.4 m, POS to F4:in
run W11 16 mm² red, 1 m, F4:out to PUMP:+
run W12 16 mm² black, 1 m, PUMP:- to NEG
run W13 16 mm² red, 1 m, F4:out to U1:out+
run W14 16 mm² black, 1 m, U1:out- to NEG
run W15 16 mm² black, 1 m, NEG to G1
run W16 16 mm² green/yellow, 1 m, U1:case to G1
`;

it('a battery the wrong way round beside others is told once, and no end of it is moved by itself', () => {
  const polarity = (text: string) => analyseText(text).findings.filter(({ slug }) => slug === 'polarity-reversed');
  expect(polarity(bank('+', '-'))).toEqual([]);
  const found = polarity(bank('-', '+'));
  expect(found.map(({ subject }) => subject)).toEqual(['B3']);
  expect(found.flatMap(({ fixes }) => fixes.map(({ title }) => title))).toEqual(['Swap B3:+ and B3:-']);
});
