/** A spec analysed again after an edit: what the edit does not touch is not solved again, and the answers are those of a fresh pass. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import { specUri } from '../analysed.ts';
import { memory } from '../model/built.ts';
import { sampleFiles, sourceOf } from '../mutation/checks.ts';

/** Two systems that have nothing to do with each other. */
const text = `system "Yard" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V
load LAMP 24 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 4 m, F1:out to LAMP:+
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
battery B2 lead-acid, 12 V, 40 Ah, internal 25 mΩ
fuse F2 5 A, blade, 32 V
load FAN 10 W
run W4 1.5 mm² red, 0.1 m, B2:+ to F2:in
run W5 1.5 mm² red, 3 m, F2:out to FAN:+
run W6 1.5 mm² black, 3 m, FAN:- to B2:-
case day LAMP on, FAN on
case night LAMP on
`;

const analysed = (spec: string, cache: AnalysisCache) =>
  analyse('memory:///spec.amps', memory({ 'spec.amps': spec }), cache);

/** Islands solved, and found, by one analysis. */
function counts(spec: string, cache: AnalysisCache): { found: number; solved: number } {
  const before = cache.solvedBefore.counted;
  analysed(spec, cache);
  const after = cache.solvedBefore.counted;
  return { found: after.found - before.found, solved: after.solved - before.solved };
}

describe('a spec asked again', () => {
  const cache = new AnalysisCache();
  const first = counts(text, cache);

  it('without a change of its electrics is not solved again', () => {
    expect(first.solved).toBeGreaterThan(0);
    expect(counts(text, cache)).toEqual({ found: first.found + first.solved, solved: 0 });
    const recoloured = text.replace('4 m, F1:out', '4 m, F1:out').replace('battery B2', '# A comment.\nbattery B2');
    expect(counts(recoloured, cache).solved).toBe(0);
  });

  it('with a longer cable in one system leaves the other as it was, in every case', () => {
    const longer = counts(text.replace('3 m, F2:out', '3.5 m, F2:out'), cache);
    expect(longer.solved).toBeGreaterThan(0);
    // FAN is on in one case only; the islands of LAMP are all found again.
    const otherAlone = counts(text.replace('4 m, F1:out', '4.5 m, F1:out'), cache);
    expect(longer.solved + otherAlone.solved).toBeLessThanOrEqual(first.solved);
    expect(longer.found).toBeGreaterThan(0);
    // And back.
    expect(counts(text, cache).solved).toBe(0);
  });

  it('in one case leaves the others as they were', () => {
    const changed = counts(text.replace('case night LAMP on', 'case night LAMP on, ambient 5 °C'), cache);
    expect(changed.solved).toBeGreaterThan(0);
    expect(changed.solved).toBeLessThan(first.solved / 2 + 1);
  });
});

/** Figures of two answers alike to a part in 10⁹, all else the same. */
function expectAlike(found: unknown, fresh: unknown, at: string): void {
  if (typeof found === 'number' && typeof fresh === 'number') {
    expect(Math.abs(found - fresh), at).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(fresh)));
  } else if (typeof found === 'object' && found !== null && typeof fresh === 'object' && fresh !== null) {
    expect(Object.keys(found), at).toEqual(Object.keys(fresh));
    for (const [key, value] of Object.entries(found))
      expectAlike(value, (fresh as Readonly<Record<string, unknown>>)[key], `${at}.${key}`);
  } else expect(found, at).toEqual(fresh);
}

it('the sample van after any edits of its figures is answered as by a fresh pass', { timeout: 60_000 }, () => {
  const van = sampleFiles['spokewagon.amps'] ?? '';
  const figures = [...van.matchAll(/\d+(?:\.\d+)?(?= (?:m|W|A|V|%|°C)\b)/g)].map(({ index, 0: figure }) => ({
    index,
    figure,
  }));
  const edit = fc.record({ at: fc.nat(figures.length - 1), times: fc.constantFrom(0.5, 0.9, 1.1, 2) });
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
      const cache = new AnalysisCache();
      analyse(specUri, sourceOf(van), cache);
      for (const { at, times } of edits) {
        const { index, figure } = figures[at] as { index: number; figure: string };
        const changed = `${van.slice(0, index)}${Number((Number(figure) * times).toFixed(3))}${van.slice(index + figure.length)}`;
        const again = analyse(specUri, sourceOf(changed), cache);
        const fresh = analyse(specUri, sourceOf(changed));
        expectAlike(answersJson(again.answers), answersJson(fresh.answers), 'answers');
        expect(again.findings.map(({ slug, message }) => `${slug} ${message}`)).toEqual(
          fresh.findings.map(({ slug, message }) => `${slug} ${message}`),
        );
      }
    }),
    { numRuns: 4 },
  );
});
