/** Findings of edit upon edit, where much is kept from the one before, and of the same text read from nothing: they must be the same, in the same order. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import { allRules } from '../../server/rules/all.ts';
import type { Example } from '../../server/rules/rule.ts';
import { memorySource, specUri } from '../analysed.ts';
import { sampleFiles } from '../mutation/checks.ts';
import { anEdit, edited } from '../sections/edits.ts';
import '../random.ts';

const folder = 'tests/good-systems';

const specs: readonly (readonly [string, readonly Example[]])[] = [
  ['the samples', Object.values(sampleFiles).map((spec) => ({ spec, files: sampleFiles }))],
  [
    'the good systems',
    readdirSync(folder)
      .filter((name) => name.endsWith('.amps'))
      .map((name) => ({ spec: readFileSync(`${folder}/${name}`, 'utf8'), files: sampleFiles })),
  ],
  ['the examples of all rules', allRules.flatMap(({ page: { wrong, right } }) => [...wrong, ...right])],
];

/** Each is written down at once: its places follow what is edited after it. */
function told({ findings, accepted }: Analysis): string[] {
  return [...findings, ...accepted].map((one) => JSON.stringify(one));
}

describe.each(specs)('%s', (_, examples) => {
  it('have the same findings by edits and from nothing', () => {
    const [first] = fc.sample(fc.array(anEdit, { minLength: 3 * examples.length, maxLength: 3 * examples.length }), 1);
    const edits = (first ?? []).values();
    for (const { spec, files = {} } of examples) {
      const cache = new AnalysisCache();
      const by = (text: string, kept: AnalysisCache) =>
        told(analyse(specUri, memorySource({ ...files, 'spec.amps': text }), kept));
      const original = by(spec, cache);
      let text = spec;
      for (let count = 0; count < 3; count++) {
        text = edited(text, edits.next().value ?? { at: 0, how: 0, with: 0 });
        expect(by(text, cache)).toEqual(by(text, new AnalysisCache()));
      }
      expect(by(`# moved\n\n${spec}`, cache)).toEqual(by(`# moved\n\n${spec}`, new AnalysisCache()));
      expect(by(spec, cache)).toEqual(original);
    }
  }, 120_000);
});

it('an impossible value is found where an edit writes it, and told of until it is taken out', () => {
  const cache = new AnalysisCache();
  const { 'spokewagon.amps': spec = '' } = sampleFiles;
  const found = (text: string) =>
    analyse(specUri, memorySource({ ...sampleFiles, 'spec.amps': text }), cache)
      .findings.filter(({ slug }) => slug === 'impossible-value')
      .map(({ place: { span } }) => text.slice(span.start, span.end));
  expect(found(spec)).toEqual([]);
  const lengths = [...spec.matchAll(/(?<=, )(\d[\d.]* m)(?=, )/g)];
  expect(lengths.length).toBeGreaterThan(10);
  for (const at of [0, 5, -1]) {
    const index = lengths.at(at)?.index ?? 0;
    const once = `${spec.slice(0, index)}-${spec.slice(index)}`;
    expect(found(once).length).toBe(1);
    expect(found(`# moved\n${once}`).length).toBe(1);
    expect(found(once.replace('\nload ', '\nload NEW -12 W\nload ')).length).toBe(2);
    expect(found(spec)).toEqual([]);
  }
});
