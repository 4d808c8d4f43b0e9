/** What the book of rules costs over a van and over a long spec, and which rules cost most. What a rule asks first it pays for. */
import { AnalysisCache } from '../../server/analysis.ts';
import { workOut } from '../../server/answers/work-out.ts';
import { buildModel } from '../../server/model/build.ts';
import { readFiles } from '../../server/model/files.ts';
import { KeptModel } from '../../server/model/kept.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { allRules } from '../../server/rules/all.ts';
import type { RuleContext } from '../../server/rules/rule.ts';
import { runRules } from '../../server/rules/run.ts';
import { measureAfter, median, told } from './measure.ts';
import { edits, sourceOf, van, vansOf, vanUri } from './vans.ts';

const longest = 20_000;

/** After edit upon edit, as while somebody types, all that the rules read, with nothing asked of it yet. */
function edited(text: string): () => RuleContext {
  const cache = new AnalysisCache();
  const kept = new KeptModel();
  const next = edits(text);
  return () => {
    const read = readFiles(vanUri, sourceOf(next()), cache.parseCache);
    const model = buildModel(read, { limitSets: [...limitSets.keys()], kept });
    return { model, answers: workOut(model, buildNetwork(model, kept), cache.solvedBefore) };
  };
}

export function ruleBook(): void {
  console.log('The book of rules');
  const fresh = edited(van);
  console.log(told('  over 300 lines', measureAfter(fresh, runRules, 3), 3));
  costliest(fresh, 40);
  const afresh = edited(vansOf(longest));
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
