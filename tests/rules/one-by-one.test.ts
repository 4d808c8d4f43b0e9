/** Parts and runs that are judged by themselves are judged when they are made anew, and then alone. */
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import type { Model } from '../../server/model/model.ts';
import { allRules } from '../../server/rules/all.ts';
import { oneByOne } from '../../server/rules/one-by-one.ts';
import type { Rule } from '../../server/rules/rule.ts';
import { runRules } from '../../server/rules/run.ts';
import { sectionRules } from '../../server/rules/scopes.ts';
import { analyseText } from '../analysed.ts';
import { sourceOf, van, vansOf, vanUri } from '../bench/vans.ts';

function things({ parts, runs }: Model) {
  return { parts: new Set(parts.values()), runs: new Set(runs.values()) };
}

/** Judged by rules since it was last asked. */
function counter(rules: readonly Rule[]) {
  let before = oneByOne(rules).counted;
  return () => {
    const now = oneByOne(rules).counted;
    const since = { parts: now.parts - before.parts, runs: now.runs - before.runs };
    before = now;
    return since;
  };
}

const length = ['0.7 m', '0.75 m'] as const;
const rating = ['fuse F10  10 A', 'fuse F10  7.5 A'] as const;

describe.each([
  ['300 lines', van, allRules],
  ['20 000 lines', vansOf(20_000), sectionRules],
] as const)(
  'of a spec of %s',
  (_, text, rules) => {
    const cache = new AnalysisCache();
    let judged: ReturnType<typeof counter>;
    let known: ReturnType<typeof things>;

    it('all are judged at first', () => {
      judged = counter(rules);
      known = things(analyse(vanUri, sourceOf(text), cache).model);
      expect(judged()).toEqual({ parts: known.parts.size, runs: known.runs.size });
    });

    it.each([
      ['a comment', ['system "', '# a comment\nsystem "'], { parts: 0, runs: 0 }],
      ['the length of a run', length, { parts: 0, runs: 1 }],
      ['the rating of a fuse, and what ends on it', rating, { parts: 1, runs: 2 }],
    ] as const)('%s is judged again, and nothing else', (_what, [from, to], most) => {
      expect(text).toContain(from);
      for (const now of [text.replace(from, to), text]) {
        const after = things(analyse(vanUri, sourceOf(now), cache).model);
        const anew = {
          parts: [...after.parts].filter((part) => !known.parts.has(part)).length,
          runs: [...after.runs].filter((run) => !known.runs.has(run)).length,
        };
        const again = judged();
        // What was put back may be known from before.
        expect(again.parts).toBeLessThanOrEqual(anew.parts);
        expect(again.runs).toBeLessThanOrEqual(anew.runs);
        if (now !== text) {
          expect(again).toEqual(anew);
          expect(again).toEqual(most);
        }
        known = after;
      }
    });
  },
  60_000,
);

const lamp = (fuse: string, ...more: string[]) =>
  [
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    `fuse F1 ${fuse}, blade, 32 V`,
    'load LAMP 12 W',
    'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
    'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
    ...more,
    '',
  ].join('\n');

const about = allRules.find(({ slug }) => slug === 'length-missing') as Rule;

describe('a rule of one part or run that throws', () => {
  const fails = (name: string) => {
    if (name === 'F1' || name === 'W2') throw new Error(`no table for ${name}`);
    // At one place each, or they would be told together.
    const start = name.charCodeAt(1);
    return { message: `${name} is there.`, place: { uri: '', span: { start, end: start } }, subject: name };
  };
  const { check: _, ...head } = about;
  const ofParts: Rule = { ...head, slug: 'of-parts', ofPart: ({ name }) => fails(name) };
  const ofRuns: Rule = { ...head, slug: 'of-runs', ofRun: ({ name }) => fails(name) };
  const asking: Rule = {
    ...head,
    slug: 'asking',
    ofRun:
      ({ name }) =>
      () => [fails(name)],
  };
  const { model, answers } = analyseText(lamp('5 A'));

  it.each([
    [ofParts, 'F1', ['B1', 'LAMP']],
    [ofRuns, 'W2', ['W1', 'W3']],
    [asking, 'W2', ['W1', 'W3']],
  ])('is told of once, every time, and hides nothing', (rule, culprit, others) => {
    const rules = [rule, ...allRules];
    for (let time = 0; time < 3; time++) {
      const { findings } = runRules({ model, answers }, rules);
      const failed = findings.filter(({ slug }) => slug === 'rule-failed');
      expect(failed.map(({ figures }) => figures.rule)).toEqual([rule.slug]);
      expect(failed[0]?.message).toContain(`no table for ${culprit}`);
      expect(findings.filter(({ slug }) => slug === rule.slug).map(({ subject }) => subject)).toEqual(others);
    }
  });
});

describe('what is said for all', () => {
  const text = lamp('5 A', 'place HOB heat source', 'run W4 1.5 mm² red, 1 m, 70 °C, along HOB, F1:out to LAMP:+');

  /** Read one after the other, and each from nothing. */
  const found = (texts: readonly string[], slug: string) => {
    const kept = new AnalysisCache();
    const messages = (text: string, cache: AnalysisCache) =>
      analyse(vanUri, sourceOf(text), cache)
        .findings.filter((finding) => finding.slug === slug)
        .map(({ message }) => message);
    return texts.map((one) => {
      const now = messages(one, kept);
      expect(now).toEqual(messages(one, new AnalysisCache()));
      return now.join('; ');
    });
  };

  it('is looked at again when it changes: the unit of temperatures', () => {
    const [celsius, fahrenheit] = found(
      [text, text.replace('12 V\n', '12 V, ambient 86 °F\n')],
      'heat-source-near-cable',
    );
    expect(celsius).toMatch(/bears only 70 °C/);
    expect(fahrenheit).toMatch(/bears only 158 °F/);
  });

  it('is looked at again when it changes: the set of limits', () => {
    const thin = text.replaceAll('1.5 mm² black', '1 mm² black');
    const sets = ['iec-60364-5-52', 'cfr-33-183', 'iec-60364-5-52'];
    const [iec, cfr, again] = found(
      sets.map((set) => thin.replace('12 V\n', `12 V, limits ${set}\n`)),
      'below-least-size',
    );
    expect(iec).toBe('');
    expect(cfr).toMatch(/33 CFR 183.425/);
    expect(again).toBe('');
  });
});
