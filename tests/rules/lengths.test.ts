/** A message is read at a glance: what the table behind a limit says stands beside it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { citedBriefly, citedTogether, saidWhole } from '../../server/rules/limit-beside.ts';
import type { TableSource } from '../../server/tables/table.ts';
import { analyseText } from '../analysed.ts';

const read = (name: string) => readFileSync(`samples/${name}`, 'utf8');
const words = (text: string) => text.split(/\s+/).length;

/** Messages that had more than fifty words, most of them a citation. */
const short = [
  'both-ends-need-protection',
  'protection-too-far',
  'drop-over-limit',
  'cable-withstand',
  'inverter-input-drop',
  'fuse-hot',
  'string-fuse-needed',
];

describe.each(short)('%s', (slug) => {
  const rule = allRules.find((one) => one.slug === slug);
  const told = [
    ...analyseText(read('spokewagon-as-found.amps'), { 'stock.amps': read('stock.amps') }).findings,
    ...(rule?.page.wrong ?? []).flatMap(({ spec, files }) => analyseText(spec, files).findings),
  ].filter((one) => one.slug === slug);

  it('has at most 48 words, figures and units among them', () => {
    expect(told.length).toBeGreaterThan(1);
    for (const { message } of told) expect(words(message), message).toBeLessThanOrEqual(48);
  });

  it('has more to read beside it', () => {
    for (const { related } of told) expect(related.length).toBeGreaterThan(0);
  });
});

describe('a limit', () => {
  const place = { uri: 'memory:///spec.amps', span: { start: 0, end: 1 } };
  const source = (citation: string, status: TableSource['status']): TableSource => ({
    title: 'T',
    citation,
    units: 'm',
    status,
  });
  const clause = source('Standard 1 clause 2: up to 3 m where it is safe', 'from memory');

  it('is cited by its clause, with whether it was checked, and what the clause says stands beside it', () => {
    expect(citedBriefly(clause)).toBe('Standard 1 clause 2, not checked against the printed standard');
    expect(saidWhole(clause, place)).toEqual([
      {
        message:
          'The limit is from Standard 1 clause 2: up to 3 m where it is safe, not checked against the printed standard',
        place,
      },
    ]);
  });

  it('that is cited whole already has nothing beside it, and one of the spec’s own is not cut', () => {
    expect(saidWhole(source('Standard 1 clause 2', 'confirmed'), place)).toEqual([]);
    const own = source('Workshop rules: 2026', 'stated in the spec');
    expect([citedBriefly(own), saidWhole(own, place)]).toEqual(['Workshop rules: 2026', []]);
  });

  it('of several sources says once of which of them it was not checked', () => {
    expect(citedTogether([source('A', 'from memory'), source('B', 'confirmed'), source('C', 'from memory')])).toBe(
      'B; A and C, not checked against the printed standard',
    );
  });

  it('of a fuse that is too far tells all that its clause says', () => {
    const text = allRules.find(({ slug }) => slug === 'protection-too-far')?.page.wrong[0]?.spec ?? '';
    const [found] = analyseText(text).findings.filter(({ slug }) => slug === 'protection-too-far');
    expect(found?.message).toContain('(IEC 60364-4-43 clause 433.2.2, not checked against the printed standard)');
    expect(found?.related.map(({ message }) => message).at(-1)).toContain('up to 3 m where the risk of short-circuit');
  });
});
