/** Loads that ask more than the converter before them gives: no thicker cable helps them. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const spec = (converter: string) => `system "Bus" 24 V
battery B1 lithium-iron-phosphate, 25.6 V, 100 Ah, internal 8 mΩ
converter CV ${converter}
fuse F1 15 A, blade, 32 V, breaks 6 kA
load LAMPS 100 W
load RADIO 60 W
run W1 4 mm² red, 0.1 m, B1:+ to F1:in
run W2 4 mm² red, 0.5 m, F1:out to CV:in+
run W3 4 mm² black, 1 m, CV:in- to B1:-
run W4 4 mm² red, 3 m, CV:out+ to LAMPS:+
run W5 4 mm² black, 0.5 m, LAMPS:- to CV:out-
run W6 4 mm² red, 3 m, CV:out+ to RADIO:+
run W7 4 mm² black, 0.5 m, RADIO:- to CV:out-
case rush all loads on
`;

const found = (text: string) => analyseText(text).findings.filter(({ slug }) => slug === 'voltage-collapse');

it('says which converter ends it, and what that gives', () => {
  const [only, ...others] = found(spec('12 V, 10 A'));
  expect(others).toEqual([]);
  expect(only?.message).toMatch(
    /^LAMPS and RADIO together ask 160 W in case rush, but .*: use a converter larger than CV, a larger or shorter cable, or have less on at once\.$/,
  );
  expect(only?.related[0]?.message).toBe('CV gives 10 A at most');
});

it('finds nothing where it gives enough', () => expect(found(spec('12 V, 15 A'))).toEqual([]));

it('says nothing of a converter where a battery feeds them too', () => {
  const text = spec('12 V, 10 A')
    .replace('LAMPS 100 W', 'LAMPS 20000 W')
    .replace(
      'case',
      'battery B2 lead-acid, 12 V, 80 Ah\nrun W8 4 mm² red, 1 m, B2:+ to CV:out+\nrun W9 4 mm² black, 1 m, B2:- to CV:out-\ncase',
    );
  expect(found(text).map(({ message }) => message.slice(message.indexOf(': use')))).toEqual([
    ': use a larger or shorter cable, a source with less resistance, or have less on at once.',
  ]);
});
