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
    /^LAMPS and RADIO together ask 160 W in case rush, but .*: use a converter larger than CV, or have less on at once\.$/,
  );
  expect(only?.related[0]?.message).toBe('CV gives 10 A at most');
});

it('names the cable where the converter gives enough for them, but what is lost on the way ends it', () => {
  const long = spec('12 V, 14 A').replace('W4 4 mm² red, 3 m', 'W4 1 mm² red, 20 m');
  expect(found(long).map(({ message }) => message.slice(message.indexOf(': use')))).toEqual([
    ': use a converter larger than CV, a larger or shorter cable, or a load of less than 74.6 W.',
  ]);
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

/** A converter whose negative is that of the battery before it, which has loads of its own. */
const shared = (lamps: string, radio: string, heater = '200 W') => `system "Bus" 24 V
battery B1 lithium-iron-phosphate, 25.6 V, 100 Ah, internal 8 mΩ
converter CV 12 V, 10 A, common negative
fuse F1 15 A, blade, 32 V, breaks 6 kA
fuse F2 20 A, blade, 32 V, breaks 6 kA
load HEATER ${heater}
load LAMPS ${lamps}
load RADIO ${radio}
busbar NEG 100 A
run W1 4 mm² red, 0.1 m, B1:+ to F1:in
run W2 4 mm² red, 0.5 m, F1:out to CV:in+
run W3 4 mm² black, 1 m, CV:in- to NEG
run W4 4 mm² red, 3 m, CV:out+ to LAMPS:+
run W5 4 mm² black, 0.5 m, LAMPS:- to NEG
run W6 4 mm² red, 3 m, CV:out+ to RADIO:+
run W7 4 mm² black, 0.5 m, RADIO:- to NEG
run W8 16 mm² black, 0.5 m, B1:- to NEG
run W9 4 mm² black, 0.5 m, CV:out- to NEG
run W10 6 mm² red, 0.1 m, B1:+ to F2:in
run W11 4 mm² red, 0.5 m, F2:out to HEATER:+
run W12 4 mm² black, 1 m, HEATER:- to NEG
case rush all loads on
`;

it('names the loads behind the converter and none before it, whatever they draw', () => {
  const said = [
    { text: shared('100 W', '60 W'), loads: 'LAMPS RADIO', asked: { askedWatts: 160 }, most: 120 },
    { text: shared('100 W', '5 A'), loads: 'LAMPS', asked: { askedWatts: 100 }, most: 60 },
    { text: shared('8 A', '5 A'), loads: 'LAMPS RADIO', asked: { askedAmps: 13 }, most: 10 },
  ];
  for (const { text, loads, asked, most } of said) {
    const [only, ...others] = analyseText(text).findings;
    expect(others).toEqual([]);
    expect(only?.slug).toBe('voltage-collapse');
    expect(only?.figures).toMatchObject({ loads, ...asked });
    const fed = Number(only?.figures.fedWatts ?? only?.figures.fedAmps);
    expect(fed).toBeLessThanOrEqual(most * (1 + 1e-8));
    expect(fed).toBeGreaterThan(most * 0.98);
  }
});

it('names what is before the converter where that is what asks too much', () => {
  const [only, ...others] = found(shared('20 W', '10 W', '90000 W'));
  expect(others).toEqual([]);
  expect(only?.figures.loads).toBe('HEATER');
});

it('tells both where both do', () => {
  const loads = found(shared('100 W', '60 W', '90000 W')).map(({ figures }) => figures.loads);
  expect(loads.sort()).toEqual(['HEATER', 'LAMPS RADIO']);
});
