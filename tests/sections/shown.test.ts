/** What an editor shows of a spec: the same whether it is asked of the sections, kept from edit to edit, or of the whole. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import type { Answers } from '../../server/answers/answers.ts';
import type { Model } from '../../server/model/model.ts';
import { JoinedMap } from '../../server/sections/joined-map.ts';
import { features } from '../../server/session/features.ts';
import { resolveUse } from '../../server/session/uris.ts';
import { sourceOf, vanUri } from '../bench/vans.ts';
import { anEditOrUndo, textsOf } from './edits.ts';
import { sheds } from './sheds.ts';
import '../random.ts';

/** Every group that hangs together is a section, however small. */
const apart = { least: 0, small: 0, most: 1 };
const whole = { least: Number.POSITIVE_INFINITY, small: 0, most: 0 };

/** With a selector whose poles are told across, bars, a size left open, and an accepted finding. */
const furnished = [
  sheds,
  'fuse MAIN ? A, blade, 58 V, breaks 1 kA',
  'isolator SPARE 2 poles, 30 A dc, 48 V',
  'link SPARE 1-3',
  'load HORN 20 W',
  'run W-15 = feed red/black, 2 m, B-1:+ to MAIN:in',
  'run W-16 ? mm² red, 6 ft, MAIN:out to SPARE:1',
  'run W-17 2.5 mm² red, 3 ft, SPARE:2 to HORN:+',
  'run W-18 2.5 mm² black, 7 ft, HORN:- to B-1:-',
  'allow entry-unstated on W-23 "through the floor"',
  '',
].join('\n');

/** The same, but whoever goes through a map of it, or asks for a list that it puts together, is refused. */
function askedForFew<T extends Model | Answers>(whole: T): T {
  const lists = new Set(['uses', 'network', 'directions', 'unfused', 'loneDevices', 'banks', 'faults']);
  return new Proxy(whole, {
    get: (from, key) => {
      if (lists.has(String(key))) throw new Error(`${String(key)} of the whole`);
      const value: unknown = Reflect.get(from, key);
      if (!(value instanceof JoinedMap)) return value;
      return { get: (one: unknown) => value.get(one), has: (one: unknown) => value.has(one) };
    },
  });
}

const everythingShown = { runHints: true, blankHints: true, poleHints: true, lenses: true };

/** Completion, where it offers names, has all of them. */
function shown(analysis: Analysis, completes = true) {
  const text = String(analysis.text);
  const all = { start: 0, end: text.length };
  const some = { start: Math.floor(text.length / 3), end: Math.floor(text.length / 2) };
  const everywhere = [...text.matchAll(/\b[A-Z][\w-]*|\d+(?= mm²| A\b)|(?<=, )\b/g)].map(({ index }) => index);
  const lenses = { showFindings: undefined, showCase: 'show' };
  return {
    tokens: features.semanticTokens(analysis),
    tokensHere: features.semanticTokens(analysis, some),
    hints: features.inlayHints(analysis, all, everythingShown),
    hintsHere: features.inlayHints(analysis, some, everythingShown),
    lenses: features.codeLenses(analysis, lenses),
    colours: features.documentColours(analysis),
    at: everywhere
      .filter((_, i) => i % 7 === 0)
      .map((at) => [
        at,
        features.highlights(analysis, at),
        features.definition(analysis, at, resolveUse),
        features.references(analysis, at, { declaration: true }),
        features.linkedEditing(analysis, at),
        completes && features.completion(analysis, at, { snippets: true, markdown: true, before: analysis }),
      ]),
  };
}

const read = (text: string, cache: AnalysisCache) => shown(analyse(vanUri, sourceOf(text), cache));

describe('what an editor shows of a spec in sections', () => {
  it('is something, and not what would be shown of no sections', () => {
    const cache = new AnalysisCache(apart);
    const analysis = analyse(vanUri, sourceOf(furnished), cache);
    expect(analysis.pieces.length).toBeGreaterThan(3);
    expect(analysis.accepted).toHaveLength(1);
    expect(analysis.common.length).toBeGreaterThan(4);
    const { tokens, hints, lenses, colours, at } = shown(analysis);
    expect(tokens.length).toBeGreaterThan(5 * 200);
    expect(hints.map(({ label }) => label)).toEqual(expect.arrayContaining(['\u2194 2', '= 2 A']));
    expect(lenses.length).toBeGreaterThan(10);
    expect(colours.length).toBeGreaterThan(16);
    expect(at.length).toBeGreaterThan(20);
  });

  it('is what is shown of the whole, after every edit', () => {
    fc.assert(
      fc.property(fc.array(anEditOrUndo, { minLength: 1, maxLength: 5 }), (steps) => {
        const cache = new AnalysisCache(apart);
        read(furnished, cache);
        for (const now of textsOf(furnished, steps))
          expect(read(now, cache)).toEqual(read(now, new AnalysisCache(whole)));
      }),
      { numRuns: 12, endOnFailure: true },
    );
  }, 120_000);

  it('is asked of the sections: none of it puts the answers or the names of the whole together', () => {
    const analysis = analyse(vanUri, sourceOf(furnished), new AnalysisCache(apart));
    const told = shown(analysis, false);
    const asked = { ...analysis, model: askedForFew(analysis.model), answers: askedForFew(analysis.answers) };
    expect(shown(asked, false)).toEqual(told);
  });

  it('has no figure of a case that one section cannot answer, in whatever section', () => {
    const text = furnished.replace('load LAMP-3 13 W', 'load LAMP-3 9000 W');
    expect(text).not.toBe(furnished);
    const parted = analyse(vanUri, sourceOf(text), new AnalysisCache(apart));
    expect(parted.answers.cases.map(({ name, converged }) => [name, converged])).toContainEqual(['alone', false]);
    const { hints, lenses } = shown(parted);
    const told = read(text, new AnalysisCache(whole));
    expect(hints).toEqual(told.hints);
    const given = (all: typeof lenses) => all.filter(({ command }) => command?.title.startsWith('gives') === true);
    expect(given(lenses)).toEqual(given(told.lenses));
    expect(
      given(lenses)
        .map(({ command }) => command?.title)
        .join(),
    ).toMatch(/in evening$/);
  });
});
