/** Which batteries stand together, and what charges them. */
import { describe, expect, it } from 'vitest';
import { answersOf } from './spec.ts';

const names = (parts: readonly { readonly name: string }[]) => parts.map(({ name }) => name);

function banks(...lines: string[]) {
  return answersOf(`${lines.join('\n')}\n`).answers.banks.map(
    ({ strings, firm, chargers, alternators, nominalVolts }) => ({
      strings: strings.map(names),
      firm: firm.map((group) => group.map(names)),
      chargers: chargers.map(({ part, amps, limitedBy }) => [part.name, amps, limitedBy]),
      alternators: names(alternators),
      nominalVolts,
    }),
  );
}

const pair = (between: string) => [
  'battery B1 and B2 agm, 12 V, 100 Ah',
  'busbar POS and NEG',
  'run W1 16 mm² red, 0.4 m, B1:+ to POS',
  between,
  'run W3 16 mm² black, 0.4 m, B1:- to NEG',
  'run W4 16 mm² black, 0.4 m, B2:- to NEG',
];

describe('two batteries', () => {
  it('on one bar are one bank', () => {
    const [bank, ...more] = banks(...pair('run W2 16 mm² red, 0.4 m, B2:+ to POS'));
    expect(more).toEqual([]);
    expect(bank?.strings).toEqual([['B1'], ['B2']]);
    expect(bank?.firm).toEqual([[['B1'], ['B2']]]);
  });

  it('through an isolator are one bank of two that can be parted', () => {
    const [bank, ...more] = banks(
      ...pair(
        'isolator Q1 1 pole, 100 A dc\nrun W2 16 mm² red, 0.4 m, B2:+ to Q1:1\nrun W5 16 mm² red, 0.4 m, Q1:2 to POS',
      ),
    );
    expect(more).toEqual([]);
    expect(bank?.firm).toEqual([[['B1']], [['B2']]]);
  });

  it('through a relay are two banks', () => {
    const relay =
      'relay K1 coil 12 V, contact 100 A\nrun W2 16 mm² red, 0.4 m, B2:+ to K1:30\nrun W5 16 mm² red, 0.4 m, K1:87 to POS';
    expect(banks(...pair(relay)).map(({ strings }) => strings)).toEqual([[['B1']], [['B2']]]);
  });

  it('in series are one string of twice the voltage', () => {
    const [bank] = banks(
      'battery B1 and B2 agm, 12 V, 100 Ah',
      'load LAMP 10 W',
      'run W1 16 mm² black, 0.4 m, B1:+ to B2:-',
      'run W2 16 mm² red, 0.4 m, B2:+ to LAMP:+',
      'run W3 16 mm² black, 0.4 m, LAMP:- to B1:-',
    );
    expect(bank).toMatchObject({ strings: [['B1', 'B2']], nominalVolts: 24 });
  });
});

describe('what charges a bank', () => {
  const battery = [
    'battery B1 agm, 12 V, 100 Ah',
    'busbar POS and NEG',
    'run W1 16 mm² red, 0.4 m, B1:+ to POS',
    'run W2 16 mm² black, 0.4 m, B1:- to NEG',
  ];
  const sun = (watts: number) => [
    `panel P1 ${watts} W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A`,
    'controller U1 mppt, pv 75 V 15 A, output 10 A, common negative',
    'run W3 4 mm² red, 2 m, P1:+ to U1:pv+',
    'run W4 4 mm² black, 2 m, P1:- to U1:pv-',
    'run W5 4 mm² red, 1 m, U1:bat+ to POS',
    'run W6 4 mm² black, 1 m, U1:bat- to NEG',
  ];

  it('is a controller with what its panels can give, or itself', () => {
    expect(banks(...battery, ...sun(96))[0]?.chargers).toEqual([['U1', 8, 'panels']]);
    expect(banks(...battery, ...sun(200))[0]?.chargers).toEqual([['U1', 10, 'itself']]);
  });

  it('is no converter, and an alternator by itself', () => {
    const [bank] = banks(
      ...battery,
      'alternator A1 14.2 V, 90 A',
      'converter C1 12 V, 20 A',
      'charger U2 12 V, 30 A, from mains, insulated case',
      'run W7 16 mm² red, 1 m, A1:+ to POS',
      'run W8 16 mm² black, 1 m, A1:- to NEG',
      'run W9 16 mm² red, 1 m, C1:out+ to POS',
      'run W10 16 mm² black, 1 m, C1:out- to NEG',
      'run W11 16 mm² red, 1 m, U2:out+ to POS',
      'run W12 16 mm² black, 1 m, U2:out- to NEG',
    );
    expect(bank?.chargers).toEqual([['U2', 30, 'itself']]);
    expect(bank?.alternators).toEqual(['A1']);
  });
});
