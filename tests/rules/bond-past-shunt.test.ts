/** A bond of the body that goes past the shunt is one mistake, however much comes back by the body. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const spec = (bond: string, fridge = 'NEG') => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
shunt SH 50 A, 50 mV
chassis G1
busbar NEG 50 A
fuse F1 and F2 10 A, blade, 32 V, breaks 2 kA
load TV 40 W
load LAMP 10 W
load FRIDGE 40 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 0.1 m, B1:+ to F2:in
run W3 2.5 mm² red, 1 m, F1:out to TV:+
run W4 2.5 mm² black, 1 m, TV:- to G1
run W5 2.5 mm² red, 1 m, F2:out to LAMP:+
run W6 2.5 mm² black, 1 m, LAMP:- to G1
run W7 2.5 mm² red, 1 m, F2:out to FRIDGE:+
run W8 2.5 mm² black, 1 m, FRIDGE:- to ${fridge}
run W9 6 mm² black, 1 m, NEG to SH:load
run W10 10 mm² black, 0.3 m, ${bond} to G1
run W11 10 mm² black, 0.3 m, B1:- to SH:battery
`;

const found = (text: string) =>
  analyseText(text)
    .findings.filter(({ slug }) => slug === 'bypasses-shunt')
    .map(({ subject, message }) => `${subject} ${message}`);

it('is told at the bond, with all that comes back by it', () => {
  expect(found(spec('B1:-'))).toEqual([
    'W10 W10 joins the body to B1:- past SH, so the meter does not see what TV and LAMP take by the body: join it to SH:load’s side.',
  ]);
});

it('stands beside what goes past the shunt by a cable', () => {
  expect(found(spec('B1:-', 'B1:-'))).toEqual([
    'FRIDGE FRIDGE:- is joined to B1:- past SH, so the meter does not see what FRIDGE takes: join it to SH:load’s side.',
    'W10 W10 joins the body to B1:- past SH, so the meter does not see what TV and LAMP take by the body: join it to SH:load’s side.',
  ]);
});

it('is right at the side of the loads', () => expect(found(spec('NEG'))).toEqual([]));

it('of two bonds the one that stays is named', () => {
  const text = spec('B1:-')
    .replace('run W11', 'chassis G2\nrun W12 10 mm² black, 0.3 m, B1:- to G2\nrun W11')
    .replace(/^shunt.*\n/m, 'busbar SH\n')
    .replaceAll(/SH:\w+/g, 'SH');
  expect(
    analyseText(text)
      .findings.filter(({ slug }) => slug === 'negative-bonded-twice')
      .map(({ message }) => message.slice(message.lastIndexOf(':'))),
  ).toEqual([': keep W10 and take W12 away.']);
});
