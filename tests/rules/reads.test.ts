/** What a rule says that it decides from is there to be said. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allKinds, allStatements } from '../../server/kinds/all.ts';
import { commonClauses } from '../../server/kinds/common.ts';
import { lazily } from '../../server/model/lazily.ts';
import { allRules } from '../../server/rules/all.ts';
import { saidForAll } from '../../server/rules/one-by-one.ts';
import type { OfOne, Rule, RuleContext } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';
import { sampleFiles } from '../mutation/checks.ts';
import { Recorder } from './recorder.ts';

/** `part.at` is the clause of any part. */
const clauses = new Set([
  ...commonClauses.map(({ id }) => `part.${id}`),
  ...[...allKinds, ...allStatements].flatMap(({ word, clauses: own }) => own.map(({ id }) => `${word}.${id}`)),
]);

describe.each(allRules.map((rule) => [rule.slug, rule] as const))('%s', (_, { group, reads }) => {
  it('reads clauses that a kind or statement has, each named once', () => {
    expect(reads.filter((one) => !clauses.has(one))).toEqual([]);
    expect(new Set(reads).size).toBe(reads.length);
  });

  it('says what it decides from, unless it is about the words themselves or about the whole', () => {
    if (group === 'language' || group === 'spec') return;
    expect(reads.length).toBeGreaterThan(0);
  });
});

const common = new Set(commonClauses.map(({ id }) => id));

/** Clauses of parts, runs and places that a rule of one part or run asked about, in all samples, good systems and examples. */
function askedBy({ forKind, ofPart, ofRun }: Rule, contexts: readonly RuleContext[]): Set<string> {
  const recorder = new Recorder();
  for (const context of contexts) {
    const answer = (found: OfOne) => {
      const all = Array.isArray(found) ? found : [found];
      for (const one of all) if (typeof one === 'function') for (const _ of one(context));
    };
    const said = saidForAll(context);
    const recording = {
      degrees: said.degrees,
      get limits() {
        recorder.asked.add('system.limits');
        return said.limits;
      },
    };
    if (ofPart !== undefined)
      for (const part of context.model.parts.values())
        if (forKind?.(part.kind) !== false) answer(ofPart(recorder.part(part), recording));
    if (ofRun !== undefined) for (const run of context.model.runs.values()) answer(ofRun(recorder.run(run), recording));
  }
  return recorder.asked;
}

const folder = 'tests/good-systems';
const contexts = lazily(() => [
  ...[
    ...Object.keys(sampleFiles).map((name) => `samples/${name}`),
    ...readdirSync(folder).map((name) => `${folder}/${name}`),
  ]
    .filter((path) => path.endsWith('.amps'))
    .map((path) => analyseText(readFileSync(path, 'utf8'), sampleFiles)),
  ...allRules.flatMap(({ page: { wrong, right } }) =>
    [...wrong, ...right].map(({ spec, files }) => analyseText(spec, files)),
  ),
]);

/** Nobody can say the studs of a fuse. */
const isSaid = (one: string) => clauses.has(one) || common.has(one.split('.')[1] ?? '');

const ofOne = allRules.filter(({ ofPart, ofRun }) => ofPart !== undefined || ofRun !== undefined);

it.each(ofOne.map((rule) => [rule.slug, rule] as const))('%s names every clause that it asks about', (_, rule) => {
  const asked = [...askedBy(rule, contexts())].filter(isSaid);
  const isNamed = (one: string) => {
    const [, clause = ''] = one.split('.');
    return rule.reads.includes(one) || (common.has(clause) && rule.reads.includes(`part.${clause}`));
  };
  expect(asked.filter((one) => !isNamed(one))).toEqual([]);
});

it('hears what is asked of a part, of its box and of a run', () => {
  const asked = (slug: string) =>
    ofOne.flatMap((rule) => (rule.slug === slug ? [...askedBy(rule, contexts())].filter(isSaid) : [])).sort();
  expect(asked('breaker-not-dc')).toEqual(['breaker.voltage']);
  expect(asked('gland-ip-below-box')).toEqual(['enclosure.ip', 'entry.in', 'entry.ip']);
  expect(asked('below-least-size')).toEqual(['run.length', 'run.sheathed', 'run.size', 'system.limits']);
});
