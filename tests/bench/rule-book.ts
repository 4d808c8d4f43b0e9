/** What the book of rules costs over a van and over a long spec, and which rules cost most. What a rule asks first it pays for. */
import { AnalysisCache } from '../../server/analysis.ts';
import { workOut } from '../../server/answers/work-out.ts';
import { buildModel } from '../../server/model/build.ts';
import { readFiles } from '../../server/model/files.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { allRules } from '../../server/rules/all.ts';
import type { RuleContext } from '../../server/rules/rule.ts';
import { runRules } from '../../server/rules/run.ts';
import { measureAfter, median, told } from './measure.ts';
import { edits, sourceOf, van, vansOf, vanUri } from './vans.ts';

const longest = 20_000;

/** All that the rules read, with nothing asked of it yet. */
function contextOf(text: string, cache: AnalysisCache): RuleContext {
  const model = buildModel(readFiles(vanUri, sourceOf(text), cache.parseCache), { limitSets: [...limitSets.keys()] });
  return { model, answers: workOut(model, buildNetwork(model), cache.solvedBefore) };
}

export function ruleBook(): void {
  console.log('The book of rules');
  const cache = new AnalysisCache();
  const next = edits(van);
  const fresh = () => contextOf(next(), cache);
  console.log(told('  over 300 lines', measureAfter(fresh, runRules, 3), 3));
  costliest(fresh, 40);
  const long = vansOf(longest);
  const longCache = new AnalysisCache();
  const afresh = () => contextOf(long, longCache);
  console.log(told('  over 20 000 lines', measureAfter(afresh, runRules, 3), 150));
  costliest(afresh, 3);
}

/** The ten that cost most, by the median of so many times. */
function costliest(fresh: () => RuleContext, times: number): void {
  const spent = new Map(allRules.map(({ slug }) => [slug, [] as number[]]));
  for (let time = 0; time < times; time++) {
    const context = fresh();
    for (const { slug, check } of allRules) {
      const start = performance.now();
      for (const _ of check(context));
      spent.get(slug)?.push(performance.now() - start);
    }
  }
  const medians = [...spent].map(([slug, all]) => ({ slug, ms: median(all) })).sort((a, b) => b.ms - a.ms);
  for (const { slug, ms } of medians.slice(0, 10))
    console.log(`    ${slug.padEnd(40)}${ms.toFixed(3).padStart(10)} ms`);
  const sum = medians.reduce((total, { ms }) => total + ms, 0);
  console.log(`    ${`all ${medians.length}`.padEnd(40)}${sum.toFixed(3).padStart(10)} ms`);
}
