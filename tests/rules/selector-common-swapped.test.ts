/** A battery on the common terminal of a selector: told for certain only, and with what it does in a case. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const found = (text: string) => analyseText(text).findings;
const told = (text: string) => found(text).map(({ slug, subject }) => `${slug} ${subject}`);

const hut = (battery: string, lamp: string, ...more: readonly string[]) => `system "Hut" 12 V
battery B1 and B2 agm, 12 V, 100 Ah, internal 15 mΩ
fuse F1 and F2 60 A, bolt-in, 58 V, breaks 5 kA
fuse F3 10 A, blade, 32 V, breaks 5 kA
selector S9 200 A dc, 48 V, positions off 1 2 both
load LAMP 24 W, lowest 10.5 V
run W1 16 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W2 16 mm² red, 105 °C, 0.2 m, B2:+ to F2:in
run W3 16 mm² red, 105 °C, 0.4 m, F1:out to S9:${battery}
run W4 16 mm² red, 105 °C, 0.4 m, F2:out to S9:2
run W5 16 mm² red, 105 °C, 0.4 m, S9:${lamp} to F3:in
run W6 2.5 mm² red, 105 °C, 1 m, F3:out to LAMP:+
run W7 2.5 mm² black, 105 °C, 1 m, LAMP:- to B1:-
run W8 16 mm² black, 105 °C, 0.4 m, B1:- to B2:-
${more.join('\n')}
`;
const alarm = [
  'fuse F4 10 A, blade, 32 V, breaks 5 kA',
  'load ALARM 6 W',
  'run W9 2.5 mm² red, 105 °C, 0.2 m, F1:out to F4:in',
  'run W10 2.5 mm² red, 105 °C, 1 m, F4:out to ALARM:+',
  'run W11 2.5 mm² black, 105 °C, 1 m, ALARM:- to B1:-',
];

describe('a battery on the common terminal', () => {
  it('is told from the wiring alone, and mended by a swap', () => {
    expect(told(hut('1', 'common'))).toEqual([]);
    const text = hut('common', '1');
    const [only, ...others] = found(text);
    expect(others).toEqual([]);
    expect(only?.message).toBe(
      'B1 is on S9:common and LAMP on S9:1, so at 2 S9 joins B1 to B2 and feeds nothing: swap what is on S9:common with what is on S9:1.',
    );
    expect(told(applied({ 'spec.amps': text }, only?.fixes[0]?.edits ?? [])['spec.amps'] ?? '')).toEqual([]);
  });

  it('is all that is told of a case in which nothing is fed because of it', () => {
    expect(told(hut('common', '1', 'case two S9 at 2, LAMP on'))).toEqual(['selector-common-swapped S9']);
    expect(told(hut('common', '1', 'case none S9 at off, LAMP on'))).toEqual([
      'selector-common-swapped S9',
      'dead-in-case LAMP',
    ]);
  });

  it('may be meant where that battery feeds something of its own, and is said as a question of the case', () => {
    expect(told(hut('common', '1', ...alarm))).toEqual([]);
    const text = hut('common', '1', ...alarm, 'case two S9 at 2, LAMP on');
    expect(told(text)).toEqual(['dead-in-case LAMP']);
    expect(found(text)[0]?.message).toContain(
      'or leave LAMP off; if S9 is to choose between batteries, they go on 1 and 2 and what they feed on common.',
    );
  });
});
