/** A set of limits of one's own in the editor: its figures on hover, its name followed and offered. */
import { describe, expect, it } from 'vitest';
import { definition } from '../../server/editor/definition.ts';
import { references } from '../../server/editor/references.ts';
import { analyseText, memorySource } from '../analysed.ts';
import { complete, labels } from './completing.ts';
import { placeOf, read } from './hovering.ts';

const stock =
  'stock ours limit-set based on iec-60364-5-52, factor 0.9, device 90 %, drop 4 %, unfused 0.3 m, lightly loaded 20 %, pv factor 1.5, source "Workshop rules"';
const files = {
  'spec.amps': `use "rules.amps"\nsystem "Shed" 12 V, limits ours\n`,
  'rules.amps': `# What we hold ourselves to.\n${stock}\n`,
};
const analysis = analyseText(files['spec.amps'], files);
const at = placeOf(files['spec.amps'], 'ours');

describe('hover', () => {
  it('on its name in the system tells every figure with its source', () => {
    const { value = '', words } = read(analysis, at) ?? {};
    expect(words).toBe('ours');
    for (const line of [
      'ours: set of limits of your own',
      'What we hold ourselves to.',
      'Device: up to 90 % of the cable’s capacity, by ours (Workshop rules).',
      'Voltage drop: up to 4 %, by ours (Workshop rules); 3 % where essential, by ISO 10133 annex C',
      'Without a fuse: up to 0.3 m, by ours (Workshop rules).',
      'no more than 20 % of its capacity does not count, by ours (Workshop rules).',
      'Panels: rated for 1.5 times the short-circuit current, by ours (Workshop rules).',
      'All else is as in iec-60364-5-52.',
      'This spec is held to it.',
    ])
      expect(value).toContain(line);
  });

  it('on its name in stock tells the same, and that no system names it', () => {
    const text = `${stock}\n`;
    const { value = '' } = read(analyseText(text), placeOf(text, 'ours')) ?? {};
    expect(value).toContain('Device: up to 90 %');
    expect(value).toContain('This spec is not held to it.');
  });

  it.each(['iec-60364-5-52', 'cfr-33-183', 'nec-310', 'iso-13297'])('on the published set %s, named or not', (id) => {
    const text = `system 12 V, limits ${id}\nstock ours limit-set based on ${id}\n`;
    for (const nth of [1, 2]) {
      const { value = '' } = read(analyseText(text), placeOf(text, id, nth)) ?? {};
      expect(value).toMatch(/Device: up to (90|100|150) % .*Voltage drop: up to (5|10) %.*Without a fuse: up to /su);
    }
  });
});

it('its definition and references are those of stock', () => {
  const { resolve } = memorySource(files);
  expect(definition(analysis, at, resolve).map(({ uri, range }) => [uri, range.start])).toEqual([
    ['memory:///rules.amps', { line: 1, character: 6 }],
  ]);
  expect(references(analysis, at, { declaration: true }).length).toBe(2);
});

describe('completion', () => {
  const shown = (marked: string) => labels(complete(marked));

  it('offers it beside the published sets, and none of it where a published one is asked for', () => {
    expect(shown(`${stock}\nsystem 12 V, limits |`)).toEqual([
      'iec-60364-5-52',
      'cfr-33-183',
      'nec-310',
      'iso-13297',
      'ours',
    ]);
    expect(shown('stock theirs limit-set based on |')).toEqual([
      'iec-60364-5-52',
      'cfr-33-183',
      'nec-310',
      'iso-13297',
    ]);
  });

  it('offers the clauses that are not said yet', () => {
    expect(shown(`${stock}, |`)).toEqual(['capacity', 'essential drop', 'sheathed unfused', 'tail', 'sheathed tail']);
  });
});
