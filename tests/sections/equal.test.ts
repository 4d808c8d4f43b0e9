/** Worked out section by section and kept from edit to edit, or whole and from nothing: it must come to the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import type { Finding } from '../../server/rules/rule.ts';
import { sourceOf, vansOf, vanUri } from '../bench/vans.ts';
import { anEditOrUndo, textsOf } from './edits.ts';
import { sheds } from './sheds.ts';
import '../random.ts';

/** To a microvolt; what is next to nothing has no sign. */
const rounded = (volts: number) => Math.round(volts * 1e6) / 1e6 + 0;

/** Every group that hangs together is a section, however small. */
const apart = { least: 0, small: 0, most: 1 };
/** Small ones are put together, as far as there is room. */
const packed = { least: 0, small: 20, most: 40 };
const whole = { least: Number.POSITIVE_INFINITY, small: 0, most: 0 };

interface Told {
  readonly findings: readonly unknown[];
  readonly accepted: readonly unknown[];
  readonly names: readonly unknown[];
  readonly uses: readonly unknown[];
  readonly volts: readonly unknown[];
}

function told({ model, answers, findings, accepted }: Analysis): Told {
  const uses = model.uses.map(
    ({ name, target, declaration, place: { uri, span } }) =>
      `${uri} ${span.start}-${span.end} ${target} ${name} ${declaration}`,
  );
  return {
    findings: findings.map(plain).sort(),
    accepted: accepted.map(plain).sort(),
    names: [
      ...[model.parts, model.runs, model.locations].map((named) => [...named.keys()]),
      [...model.stocks.keys()].sort(),
    ],
    uses: uses.sort(),
    volts: answers.cases.map(({ name, converged, volts }) => [
      name,
      converged,
      converged
        ? [...volts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([id, v]) => `${id} ${rounded(v).toFixed(6)}`)
        : [],
    ]),
  };
}

function plain(finding: Finding): string {
  return JSON.stringify(finding, (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(7)) : value,
  );
}

function read(text: string, cache: AnalysisCache): Told {
  return told(analyse(vanUri, sourceOf(text), cache));
}

function sameAfterEdits(text: string, packing: typeof apart, runs: number, length: number): void {
  fc.assert(
    fc.property(fc.array(anEditOrUndo, { minLength: 1, maxLength: length }), (steps) => {
      const cache = new AnalysisCache(packing);
      read(text, cache);
      for (const now of textsOf(text, steps)) expect(read(now, cache)).toEqual(read(now, new AnalysisCache(whole)));
    }),
    { numRuns: runs, endOnFailure: true },
  );
}

describe('sections', () => {
  it('where a case turns a selector of one of them, and says of it what cannot be', () => {
    const withSelector = (said: string) => `${sheds}battery B-8 and B-9 lead-acid, 12 V, 80 Ah, internal 8 mΩ
fuse F-8 and F-9 15 A, blade, 32 V, breaks 1 kA
selector S-9 100 A dc, 32 V, positions off 1 2
load LAMP-9 10 W
run W-91 = feed red, 0.2 m, B-8:+ to F-8:in
run W-92 = feed red, 0.2 m, B-9:+ to F-9:in
run W-93 = feed red, 0.4 m, F-8:out to S-9:1
run W-94 = feed red, 0.4 m, F-9:out to S-9:2
run W-95 = feed red, 4 m, S-9:common to LAMP-9:+
run W-96 = feed black, 4 m, LAMP-9:- to B-8:-
run W-97 = feed black, 0.4 m, B-9:- to B-8:-
case moored LAMP-9 on, ${said}
`;
    const cache = new AnalysisCache(apart);
    const slugs = (text: string) => analyse(vanUri, sourceOf(text), cache).findings.map(({ slug }) => slug);
    expect(slugs(withSelector('S-9 at 2'))).not.toContain('unknown-position');
    expect(slugs(withSelector('S-9 at both'))).toContain('unknown-position');
    const turns = ['S-9 at 1', 'S-9 at 2', 'S-9 at 3', 'S-9 at both', 'F-8 at 1', 'Q-1 at 1', 'S-9 at 2, S-9 off'];
    for (const text of turns.map(withSelector)) expect(read(text, cache)).toEqual(read(text, new AnalysisCache(whole)));
  });

  it('are what hangs together', () => {
    const cache = new AnalysisCache(apart);
    read(sheds, cache);
    expect(cache.sectionsOf(vanUri).counted).toEqual({ built: 5, workedOut: 4, kept: 0 });
    read(sheds.replace('0.2 m', '0.3 m'), cache);
    expect(cache.sectionsOf(vanUri).counted).toEqual({ built: 6, workedOut: 5, kept: 3 });
  });

  it('that were edited and are as they were again are not worked out again', () => {
    const cache = new AnalysisCache(apart);
    const lamps = [1, 2, 3].map((n) => sheds.replace(`load LAMP-${n} `, `load LAMP-${n} 1`));
    for (const text of [sheds, ...lamps]) read(text, cache);
    const { workedOut } = cache.sectionsOf(vanUri).counted;
    expect(workedOut).toBe(7);
    for (const text of [sheds, ...lamps.toReversed(), `# a note\n${sheds}`, ...lamps])
      expect(read(text, cache)).toEqual(read(text, new AnalysisCache(whole)));
    expect(cache.sectionsOf(vanUri).counted.workedOut).toBe(workedOut);
  });

  it('come to the same in a spec that is worked out whole', () => sameAfterEdits(sheds, whole, 60, 6), 120_000);

  it('of 20 000 lines are worked out one at an edit, whose statement alone is read again', () => {
    const text = vansOf(20_000);
    const cache = new AnalysisCache();
    analyse(vanUri, sourceOf(text), cache);
    const sections = cache.sectionsOf(vanUri);
    const [first, solved, parsed] = [
      sections.counted,
      cache.solvedBefore.counted.solved,
      cache.parseCache(vanUri).parsed,
    ];
    expect(first.workedOut).toBeGreaterThan(45);
    const one = Math.floor(solved / first.workedOut);
    for (const part of [0.2, 0.5, 0.9]) {
      const before = { ...sections.counted, solved: cache.solvedBefore.counted.solved };
      const at = text.indexOf(' mm²', Math.floor(part * text.length));
      analyse(vanUri, sourceOf(`${text.slice(0, at)}5${text.slice(at)}`), cache);
      expect(sections.counted.workedOut - before.workedOut).toBeLessThanOrEqual(2);
      expect(sections.counted.kept - before.kept).toBeGreaterThanOrEqual(first.workedOut - 2);
      expect(cache.solvedBefore.counted.solved - before.solved).toBeLessThanOrEqual(2 * one);
      // One is changed, and one is changed back where the edit before it was.
      expect(cache.parseCache(vanUri).parsed - parsed).toBeLessThanOrEqual(4);
    }
  }, 120_000);

  it('come to the same as the whole after any edits', () => sameAfterEdits(sheds, apart, 100, 4), 120_000);

  it('come to the same when small ones are put together', () => sameAfterEdits(sheds, packed, 40, 4), 120_000);

  it('come to the same in a long spec', () => sameAfterEdits(vansOf(600), packed, 6, 2), 120_000);

  it('tell of a name that nothing declares where it stands first', () => {
    const text = `${sheds}link SPARE 1-3\nrun W-15 2.5 mm² red, 3 ft, B-1:+ to SPARE:1\n`;
    for (const packing of [apart, whole]) {
      const { findings } = analyse(vanUri, sourceOf(text), new AnalysisCache(packing));
      const unknown = findings.filter(({ slug }) => slug === 'unknown-name');
      expect(unknown.map(({ place }) => text.slice(0, place.span.end).split('\n').at(-1))).toEqual(['link SPARE']);
      expect(unknown[0]?.related.map(({ place }) => text.slice(place.span.start))).toEqual(['SPARE:1\n']);
    }
  });

  it('of a spec with nothing wrong find nothing', () => {
    const text = vansOf(900);
    const { findings } = analyse(vanUri, sourceOf(text), new AnalysisCache(apart));
    expect(findings.map(({ message }) => message)).toEqual([]);
  });
});
