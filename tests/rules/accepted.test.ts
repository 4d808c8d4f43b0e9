/** A finding that is accepted mends nothing: what it would have told of is told by itself again. */
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { analyseText } from '../analysed.ts';

const bench = (more = '') => `system "Bench" 12 V
battery B1 agm, 12 V, 60 Ah
fuse F1 30 A, blade, 32 V, breaks 5 kA
load L1 24 W
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 0.5 mm² red, 9 m, F1:out to L1:+
run W3 6 mm² black, 9 m, L1:- to B1:-
${more}`;

const told = (text: string) => analyseText(text).findings.map(({ slug }) => slug);

describe('what is left to a cable that is too small', () => {
  it('is not told beside it', () => {
    expect(told(bench())).toEqual(['cable-too-small']);
  });

  it.each(['on W2 "on the bench only"', '"on the bench only"'])('is told where that is accepted: %s', (how) => {
    const found = told(bench(`allow cable-too-small ${how}\n`));
    expect(found).toContain('fuse-never-blows');
    expect(found).toContain('below-least-size');
    expect(found).toContain('drop-over-limit');
    expect(found).not.toContain('cable-too-small');
  });

  it('is not told where the reason is empty, or another run is meant', () => {
    expect(told(bench('allow cable-too-small on W2 ""\n'))).not.toContain('fuse-never-blows');
    expect(told(bench('allow cable-too-small on W1 "old"\n'))).not.toContain('fuse-never-blows');
  });

  it('comes and goes with the allow while one types, also where a spec is parted', () => {
    const other = bench()
      .replace('system "Bench" 12 V\n', '')
      .replaceAll(/\b([BFLW])(\d)\b/gu, '$19$2');
    const cache = new AnalysisCache({ least: 0, small: 0, most: 1 });
    const uri = 'file:///bench.amps';
    const after = (text: string) =>
      analyse(uri, { read: () => ({ text }), resolve: (_, path) => path }, cache).findings.map(
        ({ slug, subject }) => `${slug} ${subject}`,
      );
    for (const allow of ['', 'allow cable-too-small on W2 "old"\n', '', 'allow cable-too-small "old"\n', '']) {
      const found = after(bench(other + allow));
      expect(found.includes('below-least-size W2')).toBe(allow !== '');
      expect(found.includes('below-least-size W92')).toBe(allow.includes('small "'));
    }
  });
});

describe('a terminal that a core was meant for', () => {
  const astray = bench().replace('0.5 mm²', '6 mm²').replace('L1:- to B1:-', 'L1:- to B1:+');

  it('is told with the core, and by itself where that is accepted', () => {
    expect(told(astray)).toContain('polarity-reversed');
    expect(told(astray)).not.toContain('terminal-unconnected');
    expect(told(`${astray}allow polarity-reversed on W3 "old"\n`)).toContain('terminal-unconnected');
  });
});
