/** A run that passes several places is good for what the worst of them leaves it, whatever the set of limits. */
import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from './spec.ts';

interface Place {
  readonly celsius: number;
  readonly engine: boolean;
}

function capacity(limits: string, run: string, places: readonly Place[]) {
  const names = places.map((_, i) => `SPOT${i + 1}`);
  const found = answersOf(`system "Barge" 12 V, ambient 20 °C, limits ${limits}
${places.map(({ celsius, engine }, i) => `place ${names[i]} ${celsius} °C${engine ? ', engine space' : ''}`).join('\n')}
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 ${run}, 3 m, along ${names.join(' and ')}, B1:+ to LAMP:+
run W2 10 mm² black, 3 m, LAMP:- to B1:-
`).core('W1').capacity;
  if (found === undefined) throw new Error('no capacity');
  return found;
}

const engine = { celsius: 50, engine: true };
const loft = { celsius: 45, engine: false };

it('the warmest governs where all are alike', () => {
  const found = capacity('iec-60364-5-52', '2.5 mm² red', [{ celsius: 35, engine: false }, loft]);
  // 27 A by BS 7671 4D1A × √(25/40).
  expect(found.amps).toBeCloseTo(27 * Math.sqrt(25 / 40), 9);
  expect([found.ambientCelsius, found.place]).toEqual([45, 'SPOT2']);
});

it('a cooler place may be the worse: 200 °C insulation loses nothing in an engine space by 33 CFR 183.425 note 1', () => {
  const found = capacity('cfr-33-183', '10 AWG red, 200 °C', [engine, loft]);
  // 70 A by table 5 × √(155/170): less than 70 A × 1.00 in the engine space.
  expect(found.amps).toBeCloseTo(70 * Math.sqrt(155 / 170), 9);
  expect([found.ambientCelsius, found.place]).toEqual([45, 'SPOT2']);
});

it('an engine space may be the worse though another place is warmer', () => {
  const found = capacity('iso-13297', '2.5 mm² red, 105 °C', [
    { celsius: 45, engine: true },
    { celsius: 46, engine: false },
  ]);
  // 35 A (from memory) × 0.86 against √(59/75) = 0.887.
  expect(found.amps).toBeCloseTo(35 * 0.86, 9);
  expect(found.place).toBe('SPOT1');
});

it('the finding names the place that governs', () => {
  const { findings } = analyseText(`system "Barge" 12 V, limits cfr-33-183
place ENGINE engine space
place LOFT 49 °C
battery B1 lead-acid, 12 V, 80 Ah
fuse F1 125 A, bolt-in, 32 V
load LAMP 5 A
run W1 2 AWG red, 0.5 ft, B1:+ to F1:in
run W2 10 AWG red, 200 °C, 3 ft, along ENGINE 1 ft and LOFT 2 ft, F1:out to LAMP:+
run W3 2 AWG black, 3 ft, LAMP:- to B1:-
`);
  expect(findings.find(({ slug, subject }) => slug === 'cable-too-small' && subject === 'W2')?.message).toContain(
    'at 49 °C in LOFT is good for',
  );
});

test.each([...limitSets.keys()])('%s: one place more never raises it, nor does their order change it', (limits) => {
  const place = fc.record({ celsius: fc.integer({ min: -10, max: 110 }), engine: fc.boolean() });
  fc.assert(
    fc.property(fc.array(place, { minLength: 1, maxLength: 3 }), place, (places, other) => {
      const run = '8 AWG red, 105 °C, bunched with 3';
      const { amps } = capacity(limits, run, places);
      const alone = capacity(limits, run, [other]).amps;
      expect(capacity(limits, run, [...places, other]).amps).toBe(Math.min(amps, alone));
      expect(capacity(limits, run, [other, ...places]).amps).toBe(Math.min(amps, alone));
    }),
    { numRuns: 40 },
  );
});
