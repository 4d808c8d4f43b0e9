/**
 * What is worked at to warm up: a bundled spec, edited anew in every round as a person would, with all that an editor asks
 * about it. Not the person's own, which may be too large for it or half written; and all in a cache that goes with it.
 */
import sample from '../../samples/spokewagon.amps';
import stock from '../../samples/stock.amps';
import { type Analysis, AnalysisCache, analyseInSteps, type FileSource } from '../analysis.ts';
import { diagnostics } from '../editor/diagnostics.ts';
import { usuallyShown } from '../editor/shown.ts';
import { features } from './features.ts';
import { resolveUse } from './uris.ts';
import type { Rounds } from './warm-up.ts';

const uri = 'ampscribe:/warm-up/spokewagon.amps';

/** No round asks for what an earlier one worked out: little is kept, and let go of as it is when somebody works. */
const keeping = { numbers: 100_000, wordings: 1 };

export function* warmUpRounds(): Generator<undefined> & Rounds {
  const cache = new AnalysisCache(undefined, keeping);
  for (let round = 0; ; round += 1) {
    const { text, at } = edited(round);
    const steps = analyseInSteps(uri, sourceOf(text), cache);
    let step = steps.next();
    for (; step.done !== true; step = steps.next()) yield;
    const { always, inTurn } = questions(step.value, at);
    for (const ask of [...always, ...inTurn.filter((_, i) => i % turns === round % turns)]) {
      yield;
      ask();
    }
  }
}

/** What takes as long as the edit itself is asked every so many rounds: an edit needs more of them until it is quick. */
const turns = 4;

/** Where a run in the sample is told to be so many metres long. */
const lengths = [...sample.matchAll(/^run .*?, ([\d.]+) m,/dgm)].flatMap(({ indices }) =>
  indices?.[1] ? [indices[1]] : [],
);

/** In every round another run has a length of its own, so that no answer is one that is kept. `at` is in that run. */
export function edited(round: number): { readonly text: string; readonly at: number } {
  const [start, end] = lengths[round % lengths.length] ?? [0, 0];
  const metres = Number(sample.slice(start, end)) * (1 + (round % 7)) + round / 1000;
  return { text: sample.slice(0, start) + metres.toFixed(3) + sample.slice(end), at: start };
}

function sourceOf(text: string): FileSource {
  return { read: (file) => ({ text: file === uri ? text : stock }), resolve: resolveUse };
}

/** What an editor asks of its own accord after an edit, and what a person asks most. */
function questions(
  analysis: Analysis,
  at: number,
): { readonly always: readonly (() => unknown)[]; readonly inTurn: readonly (() => unknown)[] } {
  const all = { start: 0, end: analysis.text.length };
  const told = { pageUri: (slug: string) => slug, relatedInformation: true, tags: true };
  const always = [
    () => diagnostics(analysis, told),
    () => features.hover(analysis, at, { markdown: true }),
    () => features.completion(analysis, at, { snippets: true, markdown: true }),
  ];
  const inTurn = [
    () => features.signatureHelp(analysis, at, { markdown: true }),
    () => features.outline(analysis),
    () => features.semanticTokens(analysis),
    () => features.inlayHints(analysis, all, usuallyShown),
    () => features.codeLenses(analysis, { showFindings: undefined }),
    () => features.documentLinks(analysis, { resolve: resolveUse, pageUri: told.pageUri }),
    () => features.documentColours(analysis),
    () => features.folding(analysis),
    () => features.highlights(analysis, at),
    () => features.codeActions(analysis, { start: at, end: at }, told),
  ];
  return { always, inTurn };
}
