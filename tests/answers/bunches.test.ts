/** Cables that lie against each other: named or counted, and those that carry too little to count. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { analyseText, memorySource, specUri } from '../analysed.ts';
import { placeOf, read } from '../editor/hovering.ts';
import { answersOf } from './spec.ts';

interface Circuit {
  readonly amps: number;
  /** Said on its feed. */
  readonly says?: string;
  readonly size?: string;
}

/** Each circuit is a lamp of its own, fed by W11, W21, … and returned by W12, W22, …; the returns are thick and apart. */
const spec = (circuits: readonly Circuit[], limits = 'iec-60364-5-52') => `system "Tram" 12 V, limits ${limits}
battery B1 lead-acid, 12 V, 300 Ah
${circuits
  .map(
    ({ amps, says = '', size = '2.5 mm²' }, i) => `load LAMP${i + 1} ${amps} A
run W${i + 1}1 ${size} red, 1 m${says}, B1:+ to LAMP${i + 1}:+
run W${i + 1}2 16 mm² black, 1 m, LAMP${i + 1}:- to B1:-`,
  )
  .join('\n')}
case now all loads on
`;

function capacityOf(text: string, run: string) {
  const found = answersOf(text).core(run).capacity;
  if (found === undefined) throw new Error('no capacity');
  return found;
}

describe('runs that name each other', () => {
  const three = (says: string) => spec([{ amps: 20, says }, { amps: 20 }, { amps: 20 }, { amps: 20 }]);

  it('count like a number of cables', () => {
    const named = capacityOf(three(', bunched with W21 and W31 and W41'), 'W11');
    const counted = capacityOf(three(', bunched with 3'), 'W11');
    expect([named.amps, named.circuits]).toEqual([counted.amps, counted.circuits]);
    // Four single cores are ⌈(3 + 1)/2⌉ = 2 circuits: 0.80 of 27 A.
    expect(named.amps).toBeCloseTo(27 * 0.8, 12);
  });

  it('need it said on one of them only', () => {
    const text = three(', bunched with W21 and W31');
    for (const run of ['W11', 'W21', 'W31']) expect(capacityOf(text, run).bunchingFactor).toBe(0.8);
    expect(capacityOf(text, 'W41').bunchingFactor).toBe(1);
  });

  it('are those that are named now', () => {
    const cache = new AnalysisCache();
    const factors = ['', ', bunched with W31 and W41', ''].map((says) => {
      const text = spec([{ amps: 20 }, { amps: 20, says }, { amps: 20 }, { amps: 20 }]);
      const { cores } = analyse(specUri, memorySource({ 'spec.amps': text }), cache).answers;
      return [...cores.values()].find(({ core }) => core.run.name === 'W31')?.capacity?.bunchingFactor;
    });
    expect(factors).toEqual([1, 0.8, 1]);
  });

  it('do not lie against themselves, nor twice', () => {
    expect(capacityOf(three(', bunched with W11'), 'W11').circuits).toBe(1);
    expect(capacityOf(three(', bunched with W21 and W21 and W31'), 'W11').bunch?.count).toBe(2);
  });

  it('count with a number that another says', () => {
    const text = spec([
      { amps: 20, says: ', bunched with 5' },
      { amps: 20, says: ', bunched with W11' },
    ]);
    expect(capacityOf(text, 'W11').bunch?.count).toBe(5);
    expect(capacityOf(text, 'W21').bunch?.count).toBe(1);
  });

  it('that are not there are told', () => {
    const { findings } = analyseText(three(', bunched with W99'));
    expect(findings.map(({ slug }) => slug)).toContain('unknown-name');
  });

  it('count with the cores that each has', () => {
    const text = `system 12 V, limits nec-310
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 20 A
load FAN 20 A
load PUMP 20 A
run W1 2 x 12 AWG, 1 m, bunched with W2 and W3
    red B1:+ to LAMP:+
    black LAMP:- to B1:-
run W2 2 x 12 AWG, 1 m
    red B1:+ to FAN:+
    black FAN:- to B1:-
run W3 12 AWG red, 1 m, B1:+ to PUMP:+
run W4 6 AWG black, 1 m, PUMP:- to B1:-
`;
    // Five conductors: 0.8 by table 310.15(C)(1); three circuits: 0.70 by table B.52.17.
    expect([capacityOf(text, 'W1').circuits, capacityOf(text, 'W1').bunchingFactor]).toEqual([5, 0.8]);
    const iec = text.replace('nec-310', 'iec-60364-5-52');
    for (const run of ['W1', 'W3'])
      expect([capacityOf(iec, run).circuits, capacityOf(iec, run).bunchingFactor]).toEqual([3, 0.7]);
  });
});

describe('IEC 60364-5-52, 523.5: a cable at no more than 30 % of its grouped capacity does not count', () => {
  // Grouped capacity of each of four: 27 A × 0.8 = 21.6 A; 30 % of it is 6.48 A.
  const text = (amps: number, limits?: string) =>
    spec([{ amps: 20, says: ', bunched with W21 and W31 and W41' }, { amps: 20 }, { amps }, { amps }], limits);

  test.each([
    [6.4, 27, ['W31', 'W41']],
    [6.47, 27, ['W31', 'W41']],
    [6.5, 27 * 0.8, []],
    [20, 27 * 0.8, []],
  ])('two neighbours at %d A leave %d A', (amps, capacity, leftOut) => {
    const found = capacityOf(text(amps), 'W11');
    expect(found.amps).toBeCloseTo(capacity, 9);
    expect(found.bunch?.leftOut).toEqual(leftOut);
    expect(found.sources.some(({ citation }) => citation.includes('523.5'))).toBe(leftOut.length > 0);
  });

  it('the light cable itself still has the others beside it', () => {
    expect(capacityOf(text(6.4), 'W31').bunch).toMatchObject({ count: 2, leftOut: ['W41'] });
  });

  it('a cable of which nothing is known to flow counts', () => {
    expect(capacityOf(text(6.4).replace('all loads on', 'LAMP1 on'), 'W11').amps).toBeCloseTo(27 * 0.8, 9);
  });

  it('a bare number leaves nothing out', () => {
    const bare = spec([{ amps: 20, says: ', bunched with 3' }, { amps: 1 }, { amps: 1 }, { amps: 1 }]);
    expect(capacityOf(bare, 'W11').amps).toBeCloseTo(27 * 0.8, 12);
  });

  test.each([...limitSets.keys()].filter((id) => id !== 'iec-60364-5-52'))('%s has no such rule', (id) => {
    expect(capacityOf(text(1, id), 'W11').bunch?.leftOut).toEqual([]);
  });

  it('is told in the finding and on hover', () => {
    const found = `system "Tram" 12 V
battery B1 lead-acid, 12 V, 300 Ah
fuse F1 40 A, blade, 32 V
load LAMP 10 A
load CLOCK 0.5 A
run W1 16 mm² red, 0.2 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, bunched with W3, F1:out to LAMP:+
run W3 2.5 mm² red, 1 m, F1:out to CLOCK:+
run W4 16 mm² black, 1 m, LAMP:- to B1:-
run W5 16 mm² black, 1 m, CLOCK:- to B1:-
`;
    const { message } =
      analyseText(found).findings.find(({ slug, subject }) => slug === 'cable-too-small' && subject === 'W2') ?? {};
    expect(message).toContain('2.5 mm² at 30 °C, alone, not counting W3, which carries little, is good for 27 A');
    const hovered = read(analyseText(found), placeOf(found, 'run W2') + 4)?.value;
    expect(hovered).toContain('Not counted, for the little that flows: W3.');
  });
});

test.each([...limitSets.keys()])('%s: one neighbour more never raises a capacity, however little it carries', (id) => {
  const amps = fc.double({ min: 0.1, max: 20, noNaN: true });
  fc.assert(
    fc.property(fc.array(amps, { minLength: 1, maxLength: 5 }), (others) => {
      const names = others.map((_, i) => `W${i + 2}1`);
      const of = (count: number) =>
        capacityOf(
          spec(
            [
              {
                amps: 20,
                says: count === 0 ? '' : `, bunched with ${names.slice(0, count).join(' and ')}`,
                size: '8 AWG',
              },
              ...others.map((one) => ({ amps: one, size: '8 AWG' })),
            ],
            id,
          ),
          'W11',
        );
      const all = of(others.length);
      expect(all.amps).toBeLessThanOrEqual(of(0).amps);
      expect(all.bunch?.count).toBe(others.length - (all.bunch?.leftOut.length ?? 0));
    }),
    { numRuns: 30 },
  );
});
