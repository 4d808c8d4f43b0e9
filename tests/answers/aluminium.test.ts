/** Aluminium is not plain copper: less current, more drop, under every set. */
import { describe, expect, it, test } from 'vitest';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from './spec.ts';

const spec = (id: string, material: string, fuse = 40) => `system "Shed" 12 V, limits ${id}
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 ${fuse} A
load LAMP 10 A
run W1 8 AWG red, 75 °C, 0.3 ft, B1:+ to F1:in
run W2 8 AWG red, 75 °C, ${material}, 6 ft, F1:out to LAMP:+
run W3 8 AWG black, 75 °C, 6 ft, LAMP:- to B1:-
`;

test.each([...limitSets.keys()])('%s: it carries less, and loses more', (id) => {
  const [copper, aluminium] = ['copper', 'aluminium'].map((material) => answersOf(spec(id, material)));
  const [cu, al] = [copper?.core('W2').capacity, aluminium?.core('W2').capacity];
  // The NEC has columns of its own: 50 A and 40 A; elsewhere 0.78 of copper's, from memory and derived.
  expect([cu?.amps, al?.amps]).toEqual(
    id === 'nec-310' ? [50, 40] : [cu?.amps, expect.closeTo(0.78 * (cu?.amps ?? Number.NaN), 12)],
  );
  expect(al?.amps).toBeLessThan(cu?.amps ?? 0);
  const rule = al?.sources.find(({ citation }) => citation.startsWith('0.78'));
  expect(rule?.status).toBe(id === 'nec-310' ? undefined : 'from memory');
  if (id !== 'nec-310') expect(al?.derived).toBe(true);
  const drop = (made: typeof copper) => made?.load('LAMP').dropVolts ?? Number.NaN;
  expect(drop(aluminium)).toBeGreaterThan(drop(copper) * 1.2);
  // What the hover shows multiplies up to the capacity.
  expect((al?.tableAmps ?? 0) * (al?.ambientFactor ?? 0) * (al?.bunchingFactor ?? 0)).toBeCloseTo(al?.amps ?? 0, 12);
});

describe('the finding', () => {
  it('says so, and that the figure is reckoned', () => {
    const { findings } = analyseText(spec('iec-60364-5-52', 'aluminium', 60));
    const found = findings.find(({ slug, subject }) => slug === 'cable-too-small' && subject === 'W2');
    expect(found?.message).toMatch(/8 AWG of aluminium at 30 °C is good for [\d.]+ A \(reckoned from its table\)/u);
    expect(found?.figures.source).toContain('0.78 of what copper carries');
  });
});
