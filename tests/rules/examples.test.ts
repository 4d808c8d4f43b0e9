import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { rulesRegistry } from '../../server/rules/generate.ts';
import { pageOf } from '../../server/rules/pages.ts';
import type { Example } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';
import { actual, expected } from './markers.ts';

/** Found by the runner or only when something breaks: their examples are elsewhere. */
const withoutExamples = ['answers-failed', 'rule-failed'];

function check({ spec, files = {} }: Example): void {
  const text = spec;
  const inUsed = Object.entries(files).flatMap(([, used]) => expected(used));
  const analysis = analyseText(text, files);
  expect(actual(text, analysis.findings)).toEqual(expected(text));
  // A finding in a used file is shown when that file is open.
  for (const [name, used] of Object.entries(files)) {
    if (inUsed.length === 0) continue;
    const other = analyseText(used, { ...files, 'spec.amps': used, [name]: spec });
    expect(actual(used, other.findings)).toEqual(expected(used));
  }
}

describe.each(allRules.map((rule) => [rule.slug, rule] as const))('%s', (slug, rule) => {
  it.each(rule.page.wrong.map((example, i) => [i + 1, example] as const))('wrong example %i is found', (_, example) => {
    check(example);
    expect(`${example.spec}${Object.values(example.files ?? {}).join('')}`).toMatch(
      new RegExp(`finds(?: above)?: (?:.*; )?${slug} `),
    );
  });

  it.each(rule.page.right.map((example, i) => [i + 1, example] as const))('right example %i is clean', (_, example) => {
    const { findings } = analyseText(example.spec, example.files);
    expect(findings.map((f) => `${f.slug}: ${f.message}`)).toEqual([]);
  });

  it('has a page with its reasons, source and examples', () => {
    const page = pageOf(rule);
    expect(page).toContain('## Why it matters');
    expect(page).toContain('## The limit, and where it comes from');
    expect(page).not.toContain('# finds');
    if (!withoutExamples.includes(slug)) {
      expect(rule.page.wrong.length).toBeGreaterThan(0);
      expect(rule.page.right.length).toBeGreaterThan(0);
    }
  });
});

describe('the folder', () => {
  it('and the registry agree', () => {
    expect(readFileSync('server/rules/all.ts', 'utf8')).toBe(rulesRegistry('server/rules'));
  });

  it('has a rule for every problem that reading can find', () => {
    const known = new Set(allRules.map(({ slug }) => slug));
    const sources = ['grammar', 'server/model'].flatMap((folder) =>
      readdirSync(folder)
        .filter((file) => file.endsWith('.ts'))
        .map((file) => readFileSync(`${folder}/${file}`, 'utf8')),
    );
    const emitted = new Set(
      sources.flatMap((text) =>
        [...text.matchAll(/(?:slug: |problem\(\s*)'([a-z]+(?:-[a-z]+)*)'/g)].map((m) => m[1] ?? ''),
      ),
    );
    expect(emitted.size).toBeGreaterThan(15);
    expect([...emitted].filter((slug) => !known.has(slug))).toEqual([]);
  });
});
