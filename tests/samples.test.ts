import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../grammar/parse.ts';
import { formatDocument, printTree } from '../grammar/printer.ts';
import { analyse } from '../server/analysis.ts';
import { diskSource, uriOf } from '../server/cli/files.ts';
import { vocabulary } from '../server/kinds/vocabulary.ts';
import { allRules } from '../server/rules/all.ts';
import { actual, expected, marksIn } from './rules/markers.ts';

const names = readdirSync('samples').filter((name) => name.endsWith('.amps'));
const read = (name: string) => readFileSync(`samples/${name}`, 'utf8');

describe.each(names)('samples/%s', (name) => {
  const text = read(name);

  it('has exactly the findings marked in it', () => {
    const { findings } = analyse(uriOf(resolve('samples', name)), diskSource());
    expect(actual(text, findings)).toEqual(expected(text));
  });

  it('prints back to its text, and is tidy', () => {
    const tree = parseDocument(text, vocabulary);
    expect(printTree(tree)).toBe(text);
    expect(formatDocument(tree)).toBe(text);
  });

  it('works out every case', () => {
    const { answers } = analyse(uriOf(resolve('samples', name)), diskSource());
    const unfed = answers.cases.filter(({ converged }) => !converged);
    expect(unfed.map((one) => one.name)).toEqual(name === 'spokewagon-as-found.amps' ? ['burglar'] : []);
    for (const { volts, cores } of answers.cases) {
      for (const value of volts.values()) expect(Number.isFinite(value)).toBe(true);
      for (const core of cores) expect(Number.isFinite(core.amps) && Number.isFinite(core.celsius)).toBe(true);
    }
  });
});

describe('the samples', () => {
  it('are those the README tells of', () => {
    expect(names).toEqual(
      expect.arrayContaining([
        'first-lamp.amps',
        'spokewagon.amps',
        'spokewagon-as-found.amps',
        'orchard-cabin.amps',
        'towpath-kiosk.amps',
        'ridge-hut.amps',
        'tuning-van.amps',
        'whetstone.amps',
        'stock.amps',
      ]),
    );
    expect(
      read('first-lamp.amps')
        .split('\n')
        .filter((line) => line.trim() !== '' && !line.startsWith('#')).length,
    ).toBeLessThanOrEqual(10);
  });

  it('have a van of forty parts and more', () => {
    const { model } = analyse(uriOf(resolve('samples', 'spokewagon.amps')), diskSource());
    expect(model.parts.size).toBeGreaterThanOrEqual(40);
  });

  it('show every electrical rule once in the van as found', () => {
    const shown = marksIn(read('spokewagon-as-found.amps')).map(({ slug }) => slug);
    const electrical = allRules.filter(({ group }) => group !== 'language' && group !== 'spec').map(({ slug }) => slug);
    expect([...shown].sort()).toEqual([...electrical].sort());
  });
});
