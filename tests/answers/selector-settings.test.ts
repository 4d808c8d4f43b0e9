/** What protects behind a selector: one supply at a time where it cannot join both. */
import { describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { analyseText } from '../analysed.ts';
import { sourceOf, vanUri } from '../bench/vans.ts';

const spec = (
  positions: string,
  { second = 'fuse F2 80 A, bolt-in, 58 V, breaks 2 kA', from = 'F2:out' } = {},
) => `system "Two" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
battery B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 60 A, bolt-in, 58 V, breaks 2 kA
${second}
selector S1 100 A dc, 32 V${positions}
load L1 300 W
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W3 16 mm² red, 1 m, F1:out to S1:1
run W4 16 mm² red, 1 m, ${from} to S1:2
run W5 16 mm² red, 1 m, S1:common to L1:+
run W6 16 mm² black, 1 m, L1:- to B1:-
run W7 16 mm² black, 0.5 m, B1:- to B2:-
${from === 'F2:out' ? 'run W2 16 mm² red, 0.1 m, B2:+ to F2:in\n' : ''}`;

function protectionIn(text: string) {
  const { answers, model, findings } = analyseText(text);
  return {
    of: (name: string) => {
      const run = model.runs.get(name);
      const [figures] = (run && answers.runs.get(run)) ?? [];
      return {
        amps: figures?.protection.amps,
        devices: figures?.protection.devices.map(({ part }) => part.name),
        bare: figures?.protection.unprotectedFrom.map(({ name: part }) => part),
        before: figures?.beforeFirstDevice,
      };
    },
    circuit: answers.contacts.get('S1')?.map(({ circuitAmps }) => circuitAmps),
    found: findings.map(({ slug, subject }) => `${slug} ${subject}`),
  };
}

describe('behind a selector', () => {
  it('an edit of its positions changes what protects, as if it were read from nothing', () => {
    const cache = new AnalysisCache();
    const found = (text: string, own: AnalysisCache) =>
      analyse(vanUri, sourceOf(text), own).findings.map(({ slug, message }) => [slug, message]);
    const all = ['off 1 2', 'off 1 2 both', 'off 1', 'off 1 2', '1 2', 'off 1 2 both'];
    for (const text of all.map((positions) => spec(`, positions ${positions}`)))
      expect(found(text, cache)).toEqual(found(text, new AnalysisCache()));
  });

  it('that joins one supply at a time the larger of their fuses protects, and not both together', () => {
    const { of, circuit, found } = protectionIn(spec(', positions off 1 2'));
    const one = { amps: 80, devices: ['F2'], bare: [], before: false };
    expect([of('W5'), of('W6')]).toEqual([one, one]);
    expect(of('W3')).toEqual({ ...one, amps: 60, devices: ['F1'] });
    expect(of('W1')).toEqual({ ...one, amps: 60, devices: ['F1'], before: true });
    expect(circuit).toEqual([60, 80]);
    expect(found).toEqual([]);
  });

  it.each(['', ', positions off 1 2 both', ', positions 1 both'])(
    'that may join both they do together: “%s”',
    (said) => {
      const { of, found } = protectionIn(spec(said));
      expect(of('W5')).toEqual({ amps: 140, devices: ['F1', 'F2'], bare: [], before: false });
      expect(found).toContain('cable-too-small W5');
    },
  );

  it('with one supply alone the other protects nothing', () => {
    expect(protectionIn(spec(', positions off 1')).of('W5')).toMatchObject({ amps: 60, devices: ['F1'] });
  });

  it('a supply without a fuse is told though the other has one', () => {
    const { of, found } = protectionIn(spec(', positions off 1 2', { second: '', from: 'B2:+' }));
    expect(of('W5')).toMatchObject({ amps: Number.POSITIVE_INFINITY, bare: ['B2'] });
    expect(of('W3')).toMatchObject({ amps: 60, bare: [] });
    expect(found).toEqual(['supply-unfused W5']);
  });

  it('of two selectors every pair of positions counts', () => {
    const text = `${spec(', positions off 1 2')}selector S2 100 A dc, 32 V, positions 1 2
load L2 20 W
run W8 10 mm² red, 1 m, S1:common to S2:1
run W9 10 mm² red, 1 m, F1:out to S2:2
run W10 10 mm² red, 1 m, S2:common to L2:+
run W11 10 mm² black, 1 m, L2:- to B1:-
`;
    const { of } = protectionIn(text);
    // By S2 from S1, which takes B2 by F2; by itself from F1.
    expect(of('W10')).toMatchObject({ amps: 80, devices: ['F2'] });
    expect(of('W9')).toMatchObject({ amps: 60, devices: ['F1'] });
  });
});
