/** What is named and nowhere is declared: with the terminals by which it is named, where its like stand. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../../analysed.ts';
import { offering, titles } from './offering.ts';

const kind = 'quickfix';
const hut = (lines: string) => `system "Hut" 12 V
place SHED  30 °C

# the only one
battery B1    agm, 12 V, 60 Ah, at SHED
fuse F1       5 A, blade, 32 V, breaks 2 kA
isolator Q1   1 pole, 10 A dc
enclosure BOX  plastic, IP54

run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in
${lines}`;
const declares = (lines: string) => titles(offering(hut(lines), kind)).filter((one) => one.startsWith('Declare'));

describe('a name that nothing has', () => {
  it.each([
    ['run W2  1.5 mm² red, 2 m, F1:out to GON|G:+\n', ['load GONG ? W']],
    ['run W2  1.5 mm² red, 2 m, F1:out to |F2:in\n', ['fuse F2 ? A']],
    ['run W2  1.5 mm² red, 2 m, F1:out to Q2|:1\n', ['isolator Q2 1 pole, ? A dc']],
    [
      'run W2  1.5 mm² red, 2 m, F1:out to Q2|:1\nrun W3  1.5 mm² black, 2 m, B1:- to Q2:4\n',
      ['isolator Q2 2 poles, ? A dc'],
    ],
    ['run W2  1.5 mm² red, 2 m, F1:out to BU|S\n', ['busbar BUS ? A', 'splice BUS']],
    ['run W2  1.5 mm² red, 2 m, F1:out to FOR|K:1\n', ['switch FORK 1 pole, ? A dc', 'isolator FORK 1 pole, ? A dc']],
    ['load LAMP  9 W, at LOF|T\n', ['place LOFT ? °C']],
    ['load LAMP  9 W, in TU|B\n', ['enclosure TUB']],
    ['run W2  = cor|d red, 2 m, F1:out to B1:-\n', ['stock cord cable ? mm²']],
  ])('%s', (lines, wanted) => {
    expect(declares(lines)).toEqual(wanted.map((one) => `Declare it: ${one}`));
    // What is declared is known, and all that it leaves open is told as a blank.
    const found = offering(hut(lines), kind);
    for (const title of declares(lines)) {
      const [name = ''] = /\S+$/u.exec(title.replace(/ (?:\?|cable|\d pole).*/u, '')) ?? [];
      const findings = analyseText(found.chosen(title)).findings;
      expect(findings.filter(({ slug, subject }) => slug === 'unknown-name' && subject === name)).toEqual([]);
      expect(findings.filter(({ slug }) => slug === 'name-twice' || slug === 'missing-required-clause')).toEqual([]);
    }
  });

  it('stands above the run and its notes, a place with the places', () => {
    const run = '# to the yard\nrun W2  1.5 mm² red, 2 m, F1:out to GON|G:+  # loud\n';
    expect(offering(hut(run), kind).chosen('Declare')).toBe(hut(`load GONG  ? W\n${run.replace('|', '')}`));
    const load = 'load LAMP  9 W, at LOF|T\n';
    const placed = hut(load.replace('|', '')).replace('30 °C\n', '30 °C\nplace LOFT  ? °C\n');
    expect(offering(hut(load), kind).chosen('Declare')).toBe(placed);
  });

  it('is not declared as what its letters or its terminals do not fit, nor where it is something else', () => {
    expect(declares('run W2  1.5 mm² red, 2 m, F1:out to B|2:+\n')).toEqual([]);
    expect(declares('run W2  1.5 mm² red, 2 m, F1:out to U9:bat|+\n')).toEqual([]);
    expect(declares('load LAMP  9 W, at B|1\n')).toEqual([]);
    expect(declares('run W2  1.5 mm² red, 2 m, F1-ou|t to B1:-\n')).toEqual([]);
    expect(declares('run W2  1.5 mm² red, 2 m, F1:out to B1|-\n')).toEqual([]);
    expect(declares('fuse F2  = slo|w\n')).toEqual([]);
    expect(declares('case night  GON|G on\n')).toEqual([]);
  });

  it('is left open in the units of the spec', () => {
    const american = hut('run W2  = cor|d red, 2 m, along LOFT, F1:out to B1:-\n')
      .replaceAll('1.5 mm²', '14 AWG')
      .replace('30 °C', '86 °F');
    expect(titles(offering(american, kind))).toEqual(['Declare it: stock cord cable ? AWG']);
    const place = american.replace('|', '').replace('LOFT', 'LO|FT');
    expect(titles(offering(place, kind))).toEqual(['Declare it: place LOFT ? °F']);
  });

  it('comes behind a name that may be meant', () => {
    expect(titles(offering(hut('load LAMP  9 W, at SHE|DD\n'), kind))).toEqual([
      'Write SHED',
      'Declare it: place SHEDD ? °C',
    ]);
  });
});
