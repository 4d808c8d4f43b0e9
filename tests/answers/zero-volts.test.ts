/** What is 0 V follows from what stands in the circuit: it is where the same battery is, whatever it is called and wherever it stands. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

/** Parts named both ways, and their statements in both orders. */
const ways: readonly (readonly [string, string, boolean])[] = [
  ['BA', 'BZ', false],
  ['BZ', 'BA', false],
  ['BA', 'BZ', true],
  ['BZ', 'BA', true],
];

function answered(text: string, turned: boolean) {
  const [system = '', one = '', other = '', ...rest] = text.split('\n');
  const { model, answers } = analyseText([system, ...(turned ? [other, one] : [one, other]), ...rest].join('\n'));
  const lamp = model.parts.get('LAMP');
  return {
    at: (terminal: string) => answers.cases[0]?.volts.get(terminal) ?? Number.NaN,
    feeds: lamp && answers.waysTo(lamp, 'on')[0]?.source.name,
  };
}

describe.each(ways)('0 V with batteries %s and %s, turned: %s', (one, other, turned) => {
  it('is at the bottom of batteries in series, also where the upper one is larger', () => {
    const { at } = answered(
      `system "Bank" 24 V
battery ${one} agm, 12 V, 120 Ah, internal 5 mΩ
battery ${other} agm, 12 V, 100 Ah, internal 5 mΩ
fuse F1 10 A, bolt-in, 58 V, breaks 5 kA
load LAMP 24 W
run W1 16 mm² black, 0.2 m, ${other}:+ to ${one}:-
run W2 2.5 mm² red, 0.1 m, ${one}:+ to F1:in
run W3 2.5 mm² red, 1 m, F1:out to LAMP:+
run W4 2.5 mm² black, 1 m, LAMP:- to ${other}:-
case on all loads on
`,
      turned,
    );
    expect(at(`${other}:-`)).toBe(0);
    expect(at(`${one}:-`)).toBeGreaterThan(11);
  });

  const beside = (capacity: string, plus: string, minus = plus, volts = 12) => `system "Bank" 12 V
battery ${one} agm, 12 V, ${capacity}, internal 5 mΩ
battery ${other} agm, ${volts} V, 100 Ah, internal 5 mΩ
fuse F1 and F2 30 A, bolt-in, 58 V, breaks 5 kA
busbar POS and NEG 100 A
load LAMP 120 W
run W1 6 mm² red, 0.1 m, ${one}:+ to F1:in
run W2 6 mm² red, 1 m, F1:out to POS
run W3 6 mm² black, 1 m, ${one}:- to NEG
run W4 6 mm² red, 0.1 m, ${other}:+ to F2:in
run W5 6 mm² red, ${plus}, F2:out to POS
run W6 6 mm² black, ${minus}, ${other}:- to NEG
run W7 6 mm² red, 1 m, POS to LAMP:+
run W8 6 mm² black, 1 m, LAMP:- to NEG
case on all loads on
`;

  it('is at the larger of two side by side', () => {
    const { at } = answered(beside('200 Ah', '1 m'), turned);
    expect(at(`${one}:-`)).toBe(0);
  });

  it.each([
    ['with both its leads', '3 m', '3 m'],
    ['with its minus', '1 m', '3 m'],
    ['with its plus', '3 m', '1 m'],
  ])('is at the one nearer to all else %s where they are alike', (_, plus, minus) => {
    expect(answered(beside('100 Ah', plus, minus), turned).at(`${one}:-`)).toBe(0);
  });

  it('is at that of the greater voltage where they are as large', () => {
    const text = beside('100 Ah', '1 m', '1 m', 6)
      .replace('F2:out to POS', 'F2:out to SIDE')
      .replace('busbar POS', 'busbar SIDE 100 A\nbusbar POS');
    expect(answered(text, turned).at(`${one}:-`)).toBe(0);
    expect(answered(text, turned).at(`${other}:-`)).not.toBe(0);
  });

  it('is on the side with more of the circuit where a converter joins two', () => {
    const text = beside('100 Ah', '1 m')
      .replace('F2:out to POS', 'F2:out to U1:in+')
      .replace(`${other}:- to NEG`, `${other}:- to U1:in-`)
      .replace('load LAMP', 'converter U1 12 V, 5 A, common negative\nload LAMP')
      .concat('run W9 6 mm² red, 1 m, U1:out+ to POS\nrun W10 6 mm² black, 1 m, U1:out- to NEG\n');
    expect(answered(text, turned).at(`${one}:-`)).toBe(0);
  });

  it('is at the one that a load is told to be fed by where both are as near', () => {
    const { at, feeds } = answered(beside('200 Ah', '1 m'), turned);
    expect(feeds).toBe(one);
    expect(at(`${one}:-`)).toBe(0);
  });
});
