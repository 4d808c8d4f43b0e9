import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { withoutMarkers } from '../../server/rules/pages.ts';
import type { Example, Finding, Fix } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';
import { sampleFiles } from '../mutation/checks.ts';
import { applied, type Files } from './applied.ts';

interface Mend {
  readonly slug: string;
  readonly title: string;
  readonly safe: boolean;
  readonly files: Files;
  readonly finding: Finding;
  readonly fix: Fix;
}

/** Every fix of every finding of every wrong example; the marks are taken out, since fixes may write beside them. */
function mendsOf(slug: string, { spec, files = {} }: Example): Mend[] {
  const all: Files = {
    ...Object.fromEntries(Object.entries(files).map(([name, text]) => [name, withoutMarkers(text)])),
    'spec.amps': withoutMarkers(spec),
  };
  return analyseText(all['spec.amps'] ?? '', all).findings.flatMap((finding) =>
    finding.fixes.map((fix) => ({ slug, title: fix.title, safe: fix.safe, files: all, finding, fix })),
  );
}

const mends = allRules.flatMap(({ slug, page }) => page.wrong.flatMap((example) => mendsOf(slug, example)));
const count = (findings: readonly Finding[], like: Finding) =>
  findings.filter(({ slug, subject }) => slug === like.slug && subject === like.subject).length;
const serious = (findings: readonly Finding[]) =>
  findings.filter(({ severity }) => severity === 'error').map(({ slug, subject }) => `${slug} ${subject ?? ''}`);

describe('a fix of a wrong example', () => {
  it.each(mends)('$slug: “$title” takes the finding away and brings no new error', ({ files, finding, fix }) => {
    const before = analyseText(files['spec.amps'] ?? '', files).findings;
    const mended = applied(files, fix.edits);
    expect(mended).not.toEqual(files);
    const after = analyseText(mended['spec.amps'] ?? '', mended).findings;
    expect(count(after, finding)).toBe(count(before, finding) - 1);
    const known = serious(before);
    const brought = serious(after).filter((one) => !known.includes(one));
    expect(brought).toEqual([]);
  });

  it('is there wherever a change of words can mend it', () => {
    const mendable = new Set(mends.map(({ finding }) => finding.slug));
    // What only the fitter can decide: where a fuse goes, which file is meant, what a part is called.
    const decided = [
      'alternator-without-limit',
      'bank-fuse-each',
      'bank-unbalanced',
      'batteries-mixed',
      'battery-opened-before-panels',
      'blank-unfilled',
      'both-ends-need-protection',
      'box-ip-for-place',
      'breaker-not-dc',
      'bypasses-shunt',
      'case-unanswered',
      'charge-current-over-battery',
      'circle-of-names',
      'circle-of-use',
      'contradictory-limits',
      'controller-output-unfused',
      'dead-in-case',
      'discharge-over-battery',
      'end-missing',
      'essential-load-isolated',
      'expect-not-met',
      'fuse-breaking-capacity',
      'fuse-in-return',
      'fuse-voltage',
      'gland-and-knockout',
      'heat-source-near-cable',
      'ignition-near-vented-battery',
      'insulation-for-place',
      'inverter-input-drop',
      'isolator-out-of-reach',
      'length-missing',
      'linked-rating-unstated',
      'lithium-charged-in-frost',
      'load-above-highest-voltage',
      'load-below-lowest-voltage',
      'load-on-part-of-bank',
      'mains-colours-on-dc',
      'misplaced-clause',
      'missing-name',
      'more-entries-than-knockouts',
      'negative-bonded-twice',
      'no-isolation',
      'no-return',
      'no-source',
      'one-conductor-switched',
      'panel-figures-disagree',
      'panel-without-controller',
      'panels-mismatched',
      'parallel-cores-unequal',
      'part-never-used',
      'protection-too-far',
      'pv-below-charging-voltage',
      'pv-current-over-controller',
      'pv-voltage-over-controller',
      'reading-outside-expectation',
      'relay-always-on',
      'second-system',
      'series-rating-unstated',
      'short-circuit',
      'spare-fuse-mismatch',
      'string-fuse-needed',
      'stud-mismatch',
      'supply-unfused',
      'switch-category',
      'switch-in-gas-locker',
      'switch-not-dc',
      'switch-voltage',
      'terminal-too-small-for-cable',
      'terminal-unconnected',
      'too-many-on-one-stud',
      'use-missing',
      'used-file-has-problems',
      'vented-battery-indoors',
      'voltage-collapse',
      'voltages-joined',
      'wrong-stock-kind',
      'wrong-unit',
    ];
    const without = allRules.filter(({ slug, page }) => page.wrong.length > 0 && !mendable.has(slug));
    expect(without.map(({ slug }) => slug)).toEqual(decided);
  });

  it('that is safe says what it does and keeps the electrics', () => {
    for (const { title, safe, files, fix } of mends) {
      expect(title).toMatch(/^[A-Z].*[^.]$/);
      if (!safe) continue;
      const mended = applied(files, fix.edits);
      const cables = (text: string) =>
        [...analyseText(text, files).model.runs.values()].map(({ size }) => size?.written);
      const [before, after] = [cables(files['spec.amps'] ?? ''), cables(mended['spec.amps'] ?? '')];
      for (const size of before) if (size !== undefined) expect(after).toContain(size);
    }
  });
});

describe('a fix in the van as it was bought', () => {
  const text = sampleFiles['spokewagon-as-found.amps'] ?? '';
  const files = { ...sampleFiles, 'spec.amps': text };
  const { findings: before } = analyseText(text, files);
  const fixes = before.flatMap((finding) =>
    finding.fixes.map((fix) => ({ slug: finding.slug, title: fix.title, finding, fix })),
  );

  it.each(fixes)('$slug: “$title” takes the finding away and brings no new error', ({ finding, fix }) => {
    const mended = applied(files, fix.edits);
    const after = analyseText(mended['spec.amps'] ?? '', mended).findings;
    expect(count(after, finding)).toBe(count(before, finding) - 1);
    const known = serious(before);
    expect(serious(after).filter((one) => !known.includes(one))).toEqual([]);
  });

  it('is there for most of what was found', () => {
    expect(new Set(fixes.map(({ slug }) => slug)).size).toBeGreaterThanOrEqual(9);
  });
});

describe('a clause said twice', () => {
  const fixesOf = (text: string) =>
    analyseText(text)
      .findings.filter(({ slug }) => slug === 'clause-twice')
      .flatMap(({ fixes }) => fixes.map(({ edits }) => applied({ 'spec.amps': text }, edits)['spec.amps']));

  it('is taken out with its comma, in the line or on a line of its own', () => {
    expect(fixesOf('fuse F1 5 A, 10 A, blade\n')).toEqual(['fuse F1 5 A, blade\n']);
    expect(fixesOf('fuse F1 5 A, blade, 10 A\n')).toEqual(['fuse F1 5 A, blade\n']);
    expect(fixesOf('fuse F1 5 A\n    10 A, blade\n')).toEqual(['fuse F1 5 A, blade\n']);
    expect(fixesOf('fuse F1 5 A\n    10 A  # which?\n    blade\n')).toEqual(['fuse F1 5 A  # which?\n    blade\n']);
  });

  it('is left to its writer where a comment stands before it', () => {
    expect(fixesOf('fuse F1 5 A  # as bought\n    10 A, blade\n')).toEqual([]);
  });
});
