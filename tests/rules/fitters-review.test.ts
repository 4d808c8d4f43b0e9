/** What a fitter's review found silent, or told twice: each kept from coming back. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const told = (text: string) => analyseText(text).findings.map(({ slug, subject }) => `${slug} ${subject}`);

describe('a selector', () => {
  const hut = (rated: string) => `system "Hut" 48 V, ambient 30 °C
battery B1 and B2 lithium-iron-phosphate, 51.2 V, 100 Ah, internal 20 mΩ, heated
fuse F1 and F2 60 A, class-t, 125 V, breaks 20 kA
fuse F3 10 A, cartridge, 125 V, breaks 20 kA
selector S9 200 A dc, ${rated}, positions off 1 2
load LAMP 60 W, lowest 42 V
run W1 16 mm² red, 105 °C, 0.3 m, B1:+ to F1:in
run W2 16 mm² red, 105 °C, 0.3 m, B2:+ to F2:in
run W3 16 mm² red, 105 °C, 0.5 m, F1:out to S9:1
run W4 16 mm² red, 105 °C, 0.5 m, F2:out to S9:2
run W5 16 mm² red, 105 °C, 0.5 m, S9:common to F3:in
run W6 2.5 mm² red, 105 °C, 1 m, F3:out to LAMP:+
run W7 2.5 mm² black, 105 °C, 1 m, LAMP:- to B1:-
run W8 16 mm² black, 105 °C, 0.5 m, B1:- to B2:-
`;

  it('opens the voltage of one battery, whatever positions it has', () => {
    expect(told(hut('32 V'))).toEqual(['switch-voltage S9']);
    expect(told(hut('60 V'))).toEqual([]);
  });
});

describe('an inverter on one battery of two in series', () => {
  it('is told, and what that battery gives is told once', () => {
    const text = `system "Truck" 24 V, ambient 30 °C
battery B1 and B2 agm, 12 V, 100 Ah, sealed, internal 5 mΩ, discharge 50 A
fuse F1 60 A, bolt-in, 58 V, breaks 5 kA
fuse F2 100 A, bolt-in, 58 V, breaks 5 kA
load HEATER 480 W, lowest 21 V
run W1 16 mm² red, 105 °C, 0.2 m, B2:+ to F1:in
run W2 16 mm² red, 105 °C, 0.3 m, B1:+ to B2:-
run W3 16 mm² red, 105 °C, 1 m, F1:out to HEATER:+
run W4 16 mm² black, 105 °C, 1 m, HEATER:- to B1:-
inverter INV 600 W, lowest 10.5 V, insulated case
run W5 35 mm² red, 105 °C, 0.2 m, B1:+ to F2:in
run W6 35 mm² red, 105 °C, 1 m, F2:out to INV:+
run W7 35 mm² black, 105 °C, 1 m, INV:- to B1:-
`;
    expect(told(text)).toEqual(['load-on-part-of-bank B1', 'discharge-over-battery B1']);
  });
});

describe('a first word written wrong that joins nothing', () => {
  const spec = (place: string) => `system "V" 12 V
battery B1  agm, 12 V, 60 Ah
fuse F1     5 A, blade, 32 V, breaks 5 kA
load LAMP   9 W
run W1  1.5 mm² red, 0.15 m, B1:+ to F1:in
run W2  1.5 mm² black, 3 m, F1:out to LAMP:+
run W3  1.5 mm² red, 3 m, LAMP:- to B1:-
switch S1  1 pole, 10 A dc, 24 V
${place} LOFT  indoors
`;

  it('takes no finding of the others away', () => {
    const whole = told(spec('place'));
    expect(whole.length).toBeGreaterThan(1);
    expect(told(spec('plase')).filter((one) => !one.startsWith('unknown-statement'))).toEqual(
      whole.filter((one) => !one.endsWith(' LOFT')),
    );
  });
});

describe('one panel of which a figure is missing', () => {
  it('is not told as unlike itself', () => {
    const text = `system "V" 12 V
battery B1  agm, 12 V, 60 Ah
fuse F1     15 A, bolt-in, 58 V, breaks 5 kA
panel P1    100 W, isc 5.9 A, vmp 18.8 V, imp 5.4 A
controller U1  mppt, pv 50 V 15 A, output 10 A, common negative
isolator Q1  2 poles, 25 A dc, 150 V, category DC-PV2
run W1  6 mm² red, 0.2 m, B1:+ to F1:in
run W2  6 mm² red, 1 m, F1:out to U1:bat+
run W3  6 mm² black, 1 m, U1:bat- to B1:-
run W4  6 mm² red, 3 m, P1:+ to Q1:1
run W5  6 mm² black, 3 m, P1:- to Q1:3
run W6  6 mm² red, 1 m, Q1:2 to U1:pv+
run W7  6 mm² black, 1 m, Q1:4 to U1:pv-
`;
    expect(told(text)).toEqual(['missing-required-clause P1']);
  });
});
