/** The current law to a part in 10⁹ where resistances are so small that the last digit of a volt is amperes. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { solveCircuit } from '../../server/physics/solve.ts';
import { network } from '../bench/networks.ts';
import { circuitOf, imbalance, linearCircuits, poweredCircuits } from './circuits.ts';

test.each([
  ['ladder', 1000],
  ['ladder', 100_000],
  ['tree', 100_000],
  ['mesh', 2500],
] as const)('a %s of %d nodes keeps it', (shape, nodes) => {
  const circuit = network(shape, nodes);
  const solution = solveCircuit(circuit);
  expect(solution.converged).toBe(true);
  let [worst, largest] = [0, 0];
  const sum = new Float64Array(circuit.nodeCount);
  const flow = (from: number, to: number, amps: number) => {
    sum[from] = (sum[from] ?? 0) - amps;
    sum[to] = (sum[to] ?? 0) + amps;
    largest = Math.max(largest, Math.abs(amps));
  };
  circuit.resistors.forEach(({ a, b }, i) => {
    flow(a, b, solution.resistorAmps[i] ?? Number.NaN);
  });
  circuit.emfs.forEach(({ plus, minus }, i) => {
    flow(minus, plus, solution.emfAmps[i] ?? Number.NaN);
  });
  circuit.powers.forEach(({ plus, minus }, i) => {
    flow(plus, minus, solution.powerAmps[i] ?? Number.NaN);
  });
  for (const one of sum) worst = Math.max(worst, Math.abs(one));
  expect(worst).toBeLessThan(1e-9 * largest);
  expect(solution.residual).toBeLessThan(1e-9);
});

describe('any network', () => {
  it('keeps it to a part in 10⁹ of its greatest current', () => {
    fc.assert(
      fc.property(fc.oneof(linearCircuits, poweredCircuits), (circuit) => {
        const solution = solveCircuit(circuit);
        if (!solution.converged) return;
        const { worst, largest } = imbalance(circuit, solution);
        expect(worst).toBeLessThanOrEqual(1e-9 * largest + 1e-12);
        expect(solution.residual).toBeLessThan(1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('of microohms carries a microampere in balance', () => {
    const ohms = 1e-6;
    const chain = Array.from({ length: 50 }, (_, i) => ({ a: i + 1, b: i + 2, ohms }));
    const circuit = circuitOf(52, {
      emfs: [{ plus: 1, minus: 0, volts: 48, ohms }],
      resistors: chain,
      currents: [{ plus: 51, minus: 0, amps: 1e-6 }],
    });
    const { resistorAmps, volts } = solveCircuit(circuit);
    for (const amps of resistorAmps) expect(Math.abs(amps - 1e-6)).toBeLessThan(1e-15);
    expect(volts[51]).toBeCloseTo(48 - 51e-12, 13);
  });
});
