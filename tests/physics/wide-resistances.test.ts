/** Networks over six decades of resistance, whose rounding must not pass for a collapse. */
import { describe, expect, test } from 'vitest';
import { solveCircuit } from '../../server/physics/solve.ts';
import { randomNetworks, timesPower } from '../oracle/networks.ts';
import { upperVolts } from '../oracle/upper.ts';

/** Long ladders, of whose Newton's steps the last stay at some 10⁻¹⁰ of the volts. */
const ladders = [9001016, 60364, 1002880].map((seed) => ({ seed, circuit: randomNetworks(1, seed)[0]?.circuit }));

describe.each(ladders)('a ladder of six decades (seed $seed)', ({ circuit }) => {
  if (circuit === undefined) throw new Error('no network');
  const { feedable = 0 } = solveCircuit(timesPower(circuit, 3)).collapses[0] ?? {};

  test('is fed all that is said to be feedable, and a hundred-thousandth more collapses', () => {
    expect(feedable).toBeGreaterThan(0);
    expect(upperVolts(timesPower(circuit, 3 * feedable * (1 - 1e-5)))).toBeDefined();
    expect(upperVolts(timesPower(circuit, 3 * feedable * (1 + 1e-5)))).toBeUndefined();
  });

  test.each([0.1, 0.3, 0.5, 0.61, 0.7, 0.8, 0.9, 0.95, 0.99])('is fed %d of it', (share) => {
    const strained = timesPower(circuit, 3 * feedable * share);
    const { converged, volts } = solveCircuit(strained);
    expect(converged).toBe(true);
    const upper = upperVolts(strained) ?? [];
    strained.powers.forEach(({ plus, minus }, k) => {
      const across = (volts[plus] ?? 0) - (volts[minus] ?? 0);
      expect(Math.abs(across - (upper[k] ?? Number.NaN))).toBeLessThanOrEqual(1e-7 * across);
    });
  });
});
