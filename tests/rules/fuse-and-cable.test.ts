/** What is told of a fuse and of the cable behind it is one mend: whichever is followed, neither is found after it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const lamp = (load: string, fuse: string, size: string, back = '10 mm²') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 ${fuse}, blade, 32 V
load LAMP ${load}
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 ${size} red, 0.3 m, F1:out to LAMP:+
run W3 ${back} black, 0.3 m, LAMP:- to B1:-
`;

const ofBoth = ['fuse-below-load', 'cable-too-small', 'return-thinner-than-feed'];
const found = (text: string) => analyseText(text).findings.filter(({ slug }) => ofBoth.includes(slug));
const said = (text: string, slug: string) => found(text).find((one) => one.slug === slug)?.message;

describe('a fuse below its load, with a cable below both', () => {
  const text = lamp('40 A', '30 A', '1.5 mm²');

  it('is told to be larger by the fuse and by the cable alike', () => {
    expect(said(text, 'fuse-below-load')).toContain(
      'fit 40 A and 6 mm² or larger for W2, which may have 20 A at most, or take no more than 20 A and fit that.',
    );
    expect(said(text, 'cable-too-small')).toContain(
      ': use 6 mm² or larger, and fit 40 A for F1, which is too small for its load.',
    );
  });

  it('takes no more than its cable may have, with a fuse of that, as told', () => {
    expect(found(lamp('20 A', '20 A', '1.5 mm²'))).toEqual([]);
  });

  it('has all that must be larger told by both', () => {
    const both = lamp('40 A', '30 A', '1.5 mm²', '4 mm²');
    expect(said(both, 'fuse-below-load')).toContain(
      'fit 40 A and 6 mm² or larger for W2 and W3, which may have 20 A at most',
    );
    expect(said(both, 'cable-too-small')).toContain(
      'use 6 mm² or larger, 6 mm² or larger for W3, which may have 37 A at most, and fit 40 A for F1',
    );
  });
});

describe('a fuse above its cable', () => {
  it('may be smaller where its load does not blow that', () => {
    expect(said(lamp('12 A', '30 A', '1.5 mm²'), 'cable-too-small')).toContain(', or a smaller fuse of 20 A.');
  });

  it('may not where its load would', () => {
    for (const load of ['25 A', '10 A, surge 90 A for 2 s'])
      expect(said(lamp(load, '30 A', '1.5 mm²'), 'cable-too-small')).not.toMatch(/smaller/u);
  });

  it('is a breaker where it is one', () => {
    const breaker = lamp('12 A', '30 A', '1.5 mm²').replace('fuse F1 30 A, blade, 32 V', 'breaker F1 30 A, 32 V dc');
    expect(said(breaker, 'cable-too-small')).toContain(', or a smaller breaker of 20 A.');
  });
});

describe('a fuse above its switch', () => {
  const switched = (device: string, load: string) =>
    `${lamp(load, '20 A', '6 mm²')}switch S1 1 pole, 10 A dc, 24 V\nrun W4 6 mm² red, 0.3 m, S1:2 to LAMP:+\n`
      .replace('F1:out to LAMP:+', 'F1:out to S1:1')
      .replace('fuse F1 20 A, blade, 32 V', device);
  const told = (device: string, load: string) =>
    analyseText(switched(device, load)).findings.find(({ slug }) => slug === 'switch-below-fuse')?.message;

  it('may be smaller where its load does not open that, and is named as what it is', () => {
    expect(told('fuse F1 20 A, blade, 32 V', '6 A')).toContain('20 A or more, or a smaller fuse of 10 A.');
    expect(told('breaker F1 20 A, 32 V dc', '6 A')).toContain('20 A or more, or a smaller breaker of 10 A.');
    expect(told('fuse F1 20 A, blade, 32 V', '6 A, surge 40 A for 2 s')).toContain('use one rated 20 A or more. It');
  });
});

describe('a tail that the fuse at its end protects', () => {
  it('is not in the way of a larger one before it', () => {
    const shared = `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 30 A, blade, 32 V
fuse F2 10 A, blade, 32 V
load LAMP 35 A
load FAN 2 A
busbar POS 100 A
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 10 mm² red, 1 m, F1:out to POS
run W3 10 mm² black, 1 m, LAMP:- to B1:-
run W4 10 mm² red, 0.5 m, POS to LAMP:+
run W5 2.5 mm² red, 0.5 m, POS to F2:in
run W6 2.5 mm² red, 0.5 m, F2:out to FAN:+
run W7 2.5 mm² black, 0.5 m, FAN:- to B1:-
`;
    expect(said(shared, 'fuse-below-load')).toMatch(/: fit 40 A\.$/u);
  });
});

describe('whichever fix is taken', () => {
  const loads = ['15 A', '19 A', '23 A', '27 A', '33 A', '39 A', '10 A, surge 60 A for 0.3 s'];
  const fuses = ['10 A', '20 A', '30 A', '40 A'];
  const sizes = ['1 mm²', '1.5 mm²', '2.5 mm²', '4 mm²', '6 mm²'];
  const specs = loads.flatMap((load) => fuses.flatMap((fuse) => sizes.map((size) => lamp(load, fuse, size))));

  it('leaves neither of the two', () => {
    let both = 0;
    for (const text of specs) {
      const findings = found(text);
      if (findings.length > 1) both++;
      for (const { slug, message, fixes } of findings) {
        expect(fixes.length, message).toBeGreaterThan(0);
        for (const { title, edits } of fixes) {
          const { 'spec.amps': mended = '' } = applied({ 'spec.amps': text }, edits);
          expect(
            found(mended).map((one) => one.message),
            `${title} of ${slug} in ${text}`,
          ).toEqual([]);
        }
      }
    }
    expect(both).toBeGreaterThan(10);
  });
});
