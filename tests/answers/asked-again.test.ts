/** A spec analysed again after an edit: what the edit does not touch is not solved again, and the answers are those of a fresh pass. */
import { describe, expect, it } from 'vitest';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import { usualPacking } from '../../server/sections/sections.ts';
import { specUri } from '../analysed.ts';
import { van } from '../bench/vans.ts';
import { memory } from '../model/built.ts';
import { sampleFiles, sourceOf } from '../mutation/checks.ts';
import { type Random, random } from '../mutation/mutations.ts';

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
    expect(counts(text, cache)).toEqual({ found: 0, solved: 0 });
    // Nothing of it is even drawn again.
    expect(counts(text.replace('red, 4 m', 'brown, 4 m'), cache)).toEqual({ found: 0, solved: 0 });
    expect(counts(text.replace('case day', 'case day "By day"'), cache).solved).toBe(0);
  });

  it('with a note more is not worked out again, and what was found moves along', () => {
    const spec = (sampleFiles['spokewagon.amps'] ?? '').replaceAll('lead-10 red', 'signal-1 red');
    const own = new AnalysisCache();
    const told = ({ findings, accepted, model }: Analysis) => [
      ...[...findings, ...accepted].map(({ slug, place, related }) => [
        slug,
        place.span,
        related.map((one) => one.place.span),
      ]),
      ...model.uses.map(({ name, place: { span } }) => [name, span]),
    ];
    const first = analyse(specUri, sourceOf(spec), own);
    const noted = spec.replace('\n', '\n\n# A note.\n');
    const again = analyse(specUri, sourceOf(noted), own);
    expect(again.answers).toBe(first.answers);
    expect(again.findings.length).toBeGreaterThan(0);
    expect(told(again)).toEqual(told(analyse(specUri, sourceOf(noted), new AnalysisCache())));
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
    if (!(Math.abs(found - fresh) <= 1e-9 * Math.max(1, Math.abs(fresh)))) expect(found, at).toBe(fresh);
  } else if (typeof found === 'object' && found !== null && typeof fresh === 'object' && fresh !== null) {
    // What is told by name is told in any order.
    const keys = Object.keys(found).sort();
    const others = Object.keys(fresh).sort();
    if (keys.join('\n') !== others.join('\n')) expect(keys, at).toEqual(others);
    for (const [key, value] of Object.entries(found))
      expectAlike(value, (fresh as Readonly<Record<string, unknown>>)[key], `${at}.${key}`);
  } else if (found !== fresh) expect(found, at).toEqual(fresh);
}

/** A text changed at one place: a figure that is another, or a line that is taken out, marked as a note, or moved to the end. */
function edited(spec: string, random: Random): string {
  const some = <T>(all: readonly T[]) => all[Math.floor(random() * all.length)];
  const figures = [...spec.matchAll(/\d+(?:\.\d+)?(?= (?:m|W|A|V|%|°C|mm²|Ω|mΩ)(?!\p{L}))/gu)];
  const lines = spec.split('\n');
  const figure = some(figures);
  if (figure !== undefined && random() < 0.7) {
    const [written] = figure;
    const other = Number((Number(written) * (some([0.5, 0.9, 1.001, 1.1, 2]) ?? 1)).toFixed(4));
    return `${spec.slice(0, figure.index)}${other}${spec.slice(figure.index + written.length)}`;
  }
  const at = Math.floor(random() * lines.length);
  const line = lines[at] ?? '';
  return [
    [...lines.slice(0, at), ...lines.slice(at + 1)],
    [...lines.slice(0, at), `# ${line}`, ...lines.slice(at + 1)],
    [...lines.slice(0, at), ...lines.slice(at + 1), line],
  ][Math.floor(random() * 3)]?.join('\n') as string;
}

const { 'stock.amps': _, ...samples } = sampleFiles;
const specs = Object.entries({ ...samples, 'the van of the benchmark': van });
/** Not in sections, which are looked at by themselves. */
const whole = { ...usualPacking, least: Number.POSITIVE_INFINITY };
/** Together 300. */
const edits = Math.ceil(300 / specs.length);

it.each(specs)('%s after any edits is answered as by a fresh pass', { timeout: 120_000 }, (_name, spec) => {
  const chance = random(Number(process.env.RANDOM_SEED ?? 20261125));
  const cache = new AnalysisCache(whole);
  const told = ({ findings }: Analysis) => findings.map(({ slug, message }) => `${slug} ${message}`);
  analyse(specUri, sourceOf(spec), cache);
  let now = spec;
  for (let i = 0; i < edits; i++) {
    // One after the other, and now and then back to what was there at first.
    now = edited(i % 4 === 0 ? spec : now, chance);
    const again = analyse(specUri, sourceOf(now), cache);
    const fresh = analyse(specUri, sourceOf(now), new AnalysisCache(whole));
    expectAlike(answersJson(again.answers), answersJson(fresh.answers), `answers ${i}`);
    expect(told(again)).toEqual(told(fresh));
  }
});
