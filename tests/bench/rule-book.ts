/** What the book of rules costs over a van and over a long spec, and which rules cost most. What a rule asks first it pays for. */
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { workOutGuarded } from '../../server/answers/guarded.ts';
import { workOut } from '../../server/answers/work-out.ts';
import { buildModel } from '../../server/model/build.ts';
import { readFiles } from '../../server/model/files.ts';
import { KeptModel } from '../../server/model/kept.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { atOnce } from '../../server/model/steps.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { allRules } from '../../server/rules/all.ts';
import { saidForAll } from '../../server/rules/one-by-one.ts';
import type { Rule, RuleContext } from '../../server/rules/rule.ts';
import { found, runRules } from '../../server/rules/run.ts';
import { sectionRules, wholeRules } from '../../server/rules/scopes.ts';
import { Sections } from '../../server/sections/sections.ts';
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
  console.log(told('  over 300 lines, all of it', measureAfter(fresh, inFull, 3), 3));
  console.log(told('  over 300 lines, what an edit makes anew', measureAfter(fresh, runRules, 3), 3));
  costliest(fresh, 40);
  const long = vansOf(longest);
  const times = bySections(long, 12).slice(3);
  const middle = median(times);
  console.log(
    `  over 20 000 lines, as they are read: section by section, ${middle.toFixed(0)} ms  (${Math.min(...times).toFixed(0)} to ` +
      `${Math.max(...times).toFixed(0)}, ${times.length} runs)  wanted under 150 ms: ${middle < 150 ? 'yes' : 'NO'}`,
  );
  const afresh = edited(long);
  console.log(told('  over 20 000 lines in one, all of it', measureAfter(afresh, inFull, 3)));
  console.log(told('  over 20 000 lines in one, what an edit makes anew', measureAfter(afresh, runRules, 3)));
  costliest(afresh, 3);
}

/** Nothing is kept for a list of rules that is a new one. */
const inFull = (context: RuleContext) => runRules(context, [...allRules]);

/**
 * Milliseconds of all rules over all sections of a long spec, by turns of reading it anew: each section is worked out, which is
 * not counted, and then judged, as `Sections` does; and the spec as a whole last.
 */
function bySections(text: string, turns: number): number[] {
  const cache = new AnalysisCache();
  const kept = new KeptModel();
  const sections = new Sections();
  const next = edits(text);
  return Array.from({ length: turns }, () => {
    const source = sourceOf(next());
    const read = readFiles(vanUri, source, cache.parseCache);
    const partition = sections.partition(read);
    const built = partition && atOnce(sections.build(read, partition, false));
    if (built === undefined) throw new Error('it has no sections');
    let spent = 0;
    const first = [...sectionRules];
    const judge = (context: RuleContext, rules: readonly Rule[]) => {
      const start = performance.now();
      atOnce(found(context, rules));
      spent += performance.now() - start;
    };
    for (const { model } of built.sections)
      judge(atOnce(workOutGuarded(model, buildNetwork(model, kept), cache.solvedBefore)), first);
    judge(analyse(vanUri, source, cache), wholeRules);
    return spent;
  });
}

/** The ten that cost most where nothing is kept, by the median of so many times. */
function costliest(fresh: () => RuleContext, times: number): void {
  const spent = new Map(allRules.map(({ slug }) => [slug, [] as number[]]));
  for (let time = 0; time < times; time++) {
    const context = fresh();
    const said = saidForAll(context);
    for (const { slug, check, ofPart, ofRun } of allRules) {
      const start = performance.now();
      for (const _ of check?.(context) ?? []);
      if (ofPart !== undefined) for (const part of context.model.parts.values()) ofPart(part, said);
      if (ofRun !== undefined) for (const run of context.model.runs.values()) ofRun(run, said);
      spent.get(slug)?.push(performance.now() - start);
    }
  }
  const medians = [...spent].map(([slug, all]) => ({ slug, ms: median(all) })).sort((a, b) => b.ms - a.ms);
  for (const { slug, ms } of medians.slice(0, 10))
    console.log(`    ${slug.padEnd(40)}${ms.toFixed(3).padStart(10)} ms`);
  const sum = medians.reduce((total, { ms }) => total + ms, 0);
  console.log(`    ${`all ${medians.length}`.padEnd(40)}${sum.toFixed(3).padStart(10)} ms`);
}
