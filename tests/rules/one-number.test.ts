/**
 * Every rule that judges by a figure, at that figure: of an example on its page one number is moved until the finding comes or
 * goes and nothing else does; between just passing and just failing lies less than a thousandth. Which number of which
 * example stands in `one-number.json`, made by `RECORD_NUMBERS=1`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { rule as mismatched } from '../../server/rules/panels-mismatched.ts';
import type { Rule } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';
import { numbersIn, othersOf, withNumber } from './one-number.ts';

interface Chosen {
  readonly page: 'wrong' | 'right';
  readonly example: number;
  readonly number: number;
  readonly to: number;
}

const file = 'tests/rules/one-number.json';

/** Those that no single figure decides: they look at what is joined to what, at words, or at steps of a table. */
const byNoFigure: Readonly<Record<string, readonly string[]>> = {
  'what is joined to what': [
    'alternator-without-limit',
    'bar-on-one-side',
    'battery-opened-before-panels',
    'bypasses-shunt',
    'chafe-without-grommet',
    'coil-behind-own-contact',
    'controller-sides-swapped',
    'diode-reversed',
    'entry-unstated',
    'entry-without-gland',
    'essential-load-isolated',
    'fuse-in-return',
    'ignition-near-vented-battery',
    'isolator-out-of-reach',
    'negative-bonded-twice',
    'no-return',
    'no-source',
    'one-conductor-switched',
    'part-never-used',
    'polarity-reversed',
    'poles-crossed',
    'relay-always-on',
    'selector-common-swapped',
    'short-circuit',
    'supply-unfused',
    'switch-in-gas-locker',
    'vented-battery-indoors',
  ],
  'what is said, and by which word': [
    'allow-unknown',
    'allow-unused',
    'aluminium-core-as-copper',
    'blank-unfilled',
    'breaker-reversed',
    'case-unanswered',
    'colour-and-polarity',
    'conductor-class-unknown',
    'dead-in-case',
    'expect-unchecked',
    'length-missing',
    'mains-colours-on-dc',
    'ratings-unstated',
    'rule-failed',
    'solid-conductor-in-vehicle',
    'switch-category',
    'switch-not-dc',
  ],
  'steps of a list: figures of an IP code, threads, how many lugs': [
    'box-ip-for-place',
    'gland-and-knockout',
    'gland-ip-below-box',
    'too-many-on-one-stud',
  ],
  'several figures of a panel together, below': ['panels-mismatched'],
};

function found(text: string, files: Rule['page']['wrong'][number]['files']): string[] {
  return analyseText(text, files).findings.map(({ slug }) => slug);
}

function others(slugs: readonly string[], { slug }: Rule): string {
  return slugs
    .filter((one) => one !== slug)
    .sort()
    .join();
}

/** The first number whose change makes the finding come or go alone. */
function choose(rule: Rule): Chosen | undefined {
  for (const page of ['wrong', 'right'] as const)
    for (const [example, { spec, files }] of rule.page[page].entries()) {
      const before = found(spec, files);
      for (const [number, at] of numbersIn(spec).entries())
        for (const to of othersOf(at)) {
          const after = found(withNumber(spec, at, to), files);
          if (after.includes(rule.slug) !== before.includes(rule.slug) && others(after, rule) === others(before, rule))
            return { page, example, number, to: Number(to.toPrecision(7)) };
        }
    }
  return undefined;
}

const rules = allRules.filter(({ group }) => group !== 'language');
if (process.env.RECORD_NUMBERS !== undefined)
  writeFileSync(
    file,
    `${JSON.stringify(Object.fromEntries(rules.flatMap((rule) => [[rule.slug, choose(rule)]].filter(([, one]) => one))), null, 2)}\n`,
  );
const chosen = new Map(Object.entries(JSON.parse(readFileSync(file, 'utf8')) as Record<string, Chosen>));

it('every rule is judged at its figure, or it is said why it has none', () => {
  const numeric = new Set(chosen.keys());
  expect(
    rules
      .map(({ slug }) => slug)
      .filter((slug) => !numeric.has(slug))
      .sort(),
  ).toEqual(Object.values(byNoFigure).flat().sort());
});

/** Between two values, one with the finding and one without, down to where they are as near as that. */
function bisect(from: number, to: number, isFound: (value: number) => boolean): void {
  const first = isFound(from);
  expect(isFound(to)).toBe(!first);
  let [one, other] = [from, to];
  const near = Math.max(1e-3 * Math.max(Math.abs(one), Math.abs(other)), 1e-6);
  while (Math.abs(one - other) > near) {
    const middle = (one + other) / 2;
    if (isFound(middle) === first) one = middle;
    else other = middle;
  }
  expect([isFound(one), isFound(other)]).toEqual([first, !first]);
  expect(Math.abs(one - other)).toBeLessThanOrEqual(near);
}

describe.each(rules.filter(({ slug }) => chosen.has(slug)))('$slug', (rule) => {
  it('just passes and just fails', () => {
    const { page, example, number, to } = chosen.get(rule.slug) as Chosen;
    const { spec, files } = rule.page[page][example] as Rule['page']['wrong'][number];
    const at = numbersIn(spec)[number];
    if (at === undefined) throw new Error('no such number: record anew');
    bisect(at.value, to, (value) => found(withNumber(spec, at, value), files).includes(rule.slug));
  }, 30_000);
});

it('panels-mismatched: the weaker of two in series, just passing and just failing', () => {
  const [{ spec } = { spec: '' }] = mismatched.page.wrong;
  // Power and currents together, since they belong together.
  const weaker = (k: number) =>
    spec.replace(/panel P2 .*/u, (line) =>
      line.replace(/(\d+(?:\.\d+)?)(?= (?:W|A)\b)/gu, (figure) => String(Number((Number(figure) * k).toPrecision(7)))),
    );
  bisect(1, 1.97, (k) => found(weaker(k), undefined).includes('panels-mismatched'));
});
