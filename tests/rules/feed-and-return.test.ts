/** A feed and its return that are too small for one fuse are one finding, at the feed, and one mend. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const lamp = (feed: string, back: string, fuse = '30 A', load = '12 A') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 ${fuse}, blade, 32 V
load LAMP ${load}
place HOLD 50 °C
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 ${feed}, 0.3 m, F1:out to LAMP:+
run W3 ${back}, 0.3 m, LAMP:- to B1:-
`;
const ofCables = ['cable-too-small', 'return-thinner-than-feed'];
const found = (text: string, files = {}) =>
  analyseText(text, files).findings.filter(({ slug }) => ofCables.includes(slug));
const subjects = (text: string) => found(text).map(({ slug, subject }) => `${slug} ${subject}`);

describe('a feed and its return, too small alike', () => {
  const alike = lamp('1.5 mm² red', '1.5 mm² black');

  it('are told at the feed, with the return beside it and in the mend', () => {
    const [only, ...more] = found(alike);
    expect(more).toEqual([]);
    expect(only?.subject).toBe('W2');
    expect(only?.message).toContain(': use 4 mm² or larger, for its return W3 too, or a smaller fuse of 20 A.');
    expect(only?.related.map(({ message }) => message)).toContain('W3 is the return of it, and too small with it');
  });

  it('are mended by any fix, and each has the size that it needs where it lies', () => {
    const warm = lamp('1.5 mm² red', '1.5 mm² black, along HOLD', '30 A', '9 A');
    expect(found(warm)[0]?.message).toContain(
      'use 4 mm² or larger, 6 mm² or larger for its return W3, or a smaller fuse of 10 A.',
    );
    for (const text of [alike, warm, lamp('2.5 mm² red', '1.5 mm² black')]) {
      const fixes = found(text).flatMap((one) => one.fixes);
      expect(fixes.length).toBe(2);
      for (const { title, edits } of fixes)
        expect(found(applied({ 'spec.amps': text }, edits)['spec.amps'] ?? ''), title).toEqual([]);
    }
  });

  it('leave the return to be told once the feed is right', () => {
    expect(subjects(lamp('4 mm² red', '1.5 mm² black'))).toEqual(['return-thinner-than-feed W3']);
    expect(subjects(lamp('1.5 mm² red', '4 mm² black'))).toEqual(['cable-too-small W2']);
  });

  it('are one where their load is too much for both', () => {
    expect(subjects(lamp('1.5 mm² red', '1.5 mm² black', '20 A', '25 A'))).toEqual(['cable-too-small W2']);
  });

  it('are told each where the return lies too warm to carry anything', () => {
    const hot = lamp('1.5 mm² red', '1.5 mm² black, along HOLD').replace('50 °C', '70 °C');
    expect(subjects(hot)).toEqual(['cable-too-small W2', 'cable-too-small W3']);
  });
});

describe('two circuits', () => {
  it('tell each its own return', () => {
    const two = `${lamp('1.5 mm² red', '1.5 mm² black')}fuse F2 30 A, blade, 32 V
load FAN 12 A
run W4 10 mm² red, 0.1 m, B1:+ to F2:in
run W5 4 mm² red, 0.3 m, F2:out to FAN:+
run W6 1.5 mm² black, 0.3 m, FAN:- to B1:-
`;
    expect(subjects(two)).toEqual(['cable-too-small W2', 'return-thinner-than-feed W6']);
  });

  it('tell a return by way of a splice with the feed of the same load', () => {
    const spliced = lamp('1.5 mm² red', '1.5 mm² black')
      .replace('LAMP:- to B1:-', 'LAMP:- to JN')
      .concat('splice JN\nrun W4 1.5 mm² black, 0.3 m, JN to B1:-\n');
    expect(subjects(spliced)).toEqual(['cable-too-small W2']);
    expect(found(spliced)[0]?.message).toContain('for its returns W3 and W4 too');
  });
});
