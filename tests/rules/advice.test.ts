/** What findings advise: sizes for both ways of a circuit, entries that are there, fuses that do not blow. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const finding = (text: string, slug: string) => analyseText(text).findings.find((one) => one.slug === slug);

/** The text with all edits of a finding's fix made. */
function mended(text: string, slug: string, fix: number): string {
  const edits = finding(text, slug)?.fixes[fix]?.edits ?? [];
  return [...edits]
    .sort((a, b) => b.place.span.start - a.place.span.start)
    .reduce((now, { place: { span }, newText }) => now.slice(0, span.start) + newText + now.slice(span.end), text);
}

const spec = (...lines: string[]) => `${lines.join('\n')}\n`;

describe('a drop', () => {
  const fridge = (out: string, back: string) =>
    spec(
      'system "Shed" 12 V',
      'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
      'fuse F1 10 A, blade, 32 V',
      'load FRIDGE 60 W',
      'run W1 2.5 mm² red, 0.2 m, B1:+ to F1:in',
      `run W2 ${out} red, 6 m, F1:out to FRIDGE:+`,
      `run W3 ${back} black, 6 m, FRIDGE:- to B1:-`,
    );

  it('is mended out and back together', () => {
    const text = fridge('1.5 mm²', '1.5 mm²');
    const found = finding(text, 'drop-over-limit');
    expect(found?.message).toContain('; W2 and W3 lose ');
    expect(found?.message).toContain('use 2.5 mm² out and back, or shorten them');
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Use 2.5 mm² out and back']);
    expect(mended(text, 'drop-over-limit', 0)).toBe(fridge('2.5 mm²', '2.5 mm²'));
    expect(finding(fridge('2.5 mm²', '2.5 mm²'), 'drop-over-limit')).toBeUndefined();
  });

  it('is mended on the one leg that is thin', () => {
    const text = fridge('1 mm²', '10 mm²');
    expect(finding(text, 'drop-over-limit')?.message).toMatch(/; W2 loses 0\.\d+ V of it: use 1\.5 mm² there/);
    expect(mended(text, 'drop-over-limit', 0)).toBe(fridge('1.5 mm²', '10 mm²'));
  });

  it('names the legs that change where another is large enough', () => {
    const text = fridge('0.75 mm²', '2.5 mm²');
    expect(finding(text, 'drop-over-limit')?.message).toContain('; W2 and W3 lose ');
    const after = mended(text, 'drop-over-limit', 0);
    expect(finding(after, 'drop-over-limit')).toBeUndefined();
    expect(after).toContain('W3 2.5 mm²');
  });
});

describe('a box', () => {
  const box = (passage: string, ...more: string[]) =>
    spec(
      'system "Shed" 12 V',
      'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
      ...more,
      'fuse F1 5 A, blade, 32 V, in BOX',
      'load LAMP 12 W',
      'run W1 1.5 mm² red, od 5 mm, 0.1 m, B1:+ to F1:in, enters BOX by gland M20',
      `run W2 1.5 mm² red, od 9 mm, 1.2 m, F1:out to LAMP:+${passage}`,
      'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
    );
  const titles = (text: string, slug: string) => finding(text, slug)?.fixes.map(({ title }) => title);

  it('offers its entry with a free hole first, then a gland by the diameter', () => {
    const text = box(
      ', enters BOX open',
      'enclosure BOX plastic, IP54, indoors',
      'entry E4 in BOX, gland M25, 2 holes',
    );
    expect(finding(text, 'entry-without-gland')?.message).toContain(
      'take it through E4, which has a free hole, or fit a gland, M16 for 9 mm.',
    );
    expect(titles(text, 'entry-without-gland')).toEqual(['Enter by E4', 'Enter by gland M16']);
    expect(finding(mended(text, 'entry-without-gland', 0), 'entry-without-gland')).toBeUndefined();
  });

  it.each([
    ['that is full', 'entry E4 in BOX, gland M20, 1 hole', ', enters BOX by E4'],
    ['that clamps thinner cables', 'entry E4 in BOX, gland M20, 1 hole, clamps 3 to 6 mm', ''],
    ['whose thread is for thinner cables', 'entry E4 in BOX, gland M12, 1 hole', ''],
  ])('does not offer an entry %s', (_, entry, taken) => {
    const text = box(', enters BOX', 'enclosure BOX plastic, IP54, indoors', entry).replace(
      ', enters BOX by gland M20',
      taken === '' ? ', enters BOX by gland M20' : taken,
    );
    expect(titles(text, 'entry-unstated')).toEqual(['Add by gland M16']);
  });

  it.each([
    ['ready', '2 x M20', 'M20', '; BOX has a hole ready for it.'],
    ['taken', '1 x M20', 'M16', '.'],
    ['too large', '2 x M32', 'M16', '; with a reducer it fits a hole M32 that BOX has ready.'],
    ['too small', '2 x M12', 'M16', '.'],
  ])('offers the gland of a hole that is %s', (_, holes, thread, hole) => {
    const text = box('', `enclosure BOX plastic, IP54, indoors, knockouts ${holes}`);
    expect(finding(text, 'entry-unstated')?.message).toContain(`such as enters BOX by gland ${thread}${hole}`);
    expect(titles(text, 'entry-unstated')).toEqual([`Add enters BOX by gland ${thread}`]);
    expect(finding(mended(text, 'entry-unstated', 0), 'entry-unstated')).toBeUndefined();
  });
});

describe('a string fuse', () => {
  const array = (isc: string, most: string) =>
    spec(
      'system "Shed" 12 V',
      `panel P1 and P2 and P3 60 W, voc 22.0 V, isc ${isc}, vmp 18.2 V, imp 1.5 A${most}`,
      'splice JP and JN',
      'controller U1 mppt, pv 100 V 20 A, output 15 A, common negative',
      'fuse F1 20 A, blade, 32 V',
      'battery B1 lead-acid, 12 V, 80 Ah',
      ...['P1', 'P2', 'P3'].flatMap((name, i) => [
        `run W${2 * i + 1} 6 mm² red, 2 m, ${name}:+ to JP`,
        `run W${2 * i + 2} 6 mm² black, 2 m, ${name}:- to JN`,
      ]),
      'run W7 6 mm² red, 3 m, JP to U1:pv+',
      'run W8 6 mm² black, 3 m, JN to U1:pv-',
      'run W9 6 mm² red, 0.4 m, U1:bat+ to F1:out',
      'run W10 6 mm² red, 0.2 m, F1:in to B1:+',
      'run W11 6 mm² black, 0.4 m, U1:bat- to B1:-',
    );

  // 1.5 and 2.4 times 2 A are 3 and 4.8 A, 3 A itself being none; times 3.5 A they are 5.25 and 8.4 A.
  it.each([
    ['2 A', ', most series fuse 3.9 A', 'of 1.5 to 2.4 times its 2 A and at most 3.9 A'],
    ['3.5 A', ', most series fuse 6.5 A', '6 A, which is 1.5 to 2.4 times its 3.5 A and at most 6.5 A'],
    ['3.5 A', '', '6 A or 8 A, which is 1.5 to 2.4 times its 3.5 A'],
    ['3.5 A', ', most series fuse 5 A', 'no fuse is above 5.3 A'],
  ])('for %s%s', (isc, most, advice) => {
    expect(finding(array(isc, most), 'string-fuse-needed')?.message).toContain(advice);
  });
});
