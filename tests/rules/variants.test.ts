/** Every rule judges the same wiring alike, however it is said: twenty variants of its examples keep the verdict. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { allRules } from '../../server/rules/all.ts';
import { withoutMarkers } from '../../server/rules/pages.ts';
import type { Finding, Rule } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';
import type { Files } from './applied.ts';
import { randomFrom, type Variant, variantOf, type Way } from './variants.ts';

const count = 20;

/** A rule of the language is about the very words and where they stand. */
const waysOf = ({ group }: Rule): readonly Way[] =>
  group === 'language' || group === 'spec'
    ? ['names', 'notes']
    : ['names', 'units', 'order', 'stock', 'files', 'notes'];

function verdict(findings: readonly Finding[], back: ReadonlyMap<string, string> = new Map()): string[] {
  return findings
    .map(({ slug, severity, subject }) => `${severity} ${slug} ${back.get(subject ?? '') ?? subject ?? ''}`)
    .sort();
}

const told = ({ files, how }: Variant) =>
  `${how.join(', ')}\n${Object.entries(files)
    .map(([name, text]) => `--- ${name}\n${text}`)
    .join('')}`;

const withExamples = allRules.filter(({ page }) => page.wrong.length + page.right.length > 0);

describe.each(withExamples.map((rule) => [rule.slug, rule] as const))('%s', (slug, rule) => {
  const examples = [...rule.page.wrong, ...rule.page.right].map(
    ({ spec, files = {} }): Files => ({
      ...Object.fromEntries(Object.entries(files).map(([name, text]) => [name, withoutMarkers(text)])),
      'spec.amps': withoutMarkers(spec),
    }),
  );

  it(`keeps its verdict over ${count} variants`, () => {
    const random = randomFrom(slug);
    const done = new Set<string>();
    const before = examples.map((files) => analyseText(files['spec.amps'] ?? '', files));
    for (let n = 0; n < count; n += 1) {
      // Each example in turn.
      const files = examples[n % examples.length] as Files;
      const { model, findings } = before[n % examples.length] as Analysis;
      const variant = variantOf(files, model, waysOf(rule), random);
      const after = analyseText(variant.files['spec.amps'] ?? '', variant.files);
      expect(verdict(after.findings, variant.back), told(variant)).toEqual(verdict(findings));
      for (const way of variant.how) done.add(way);
    }
    expect(done.size).toBeGreaterThanOrEqual(2);
  });
});
