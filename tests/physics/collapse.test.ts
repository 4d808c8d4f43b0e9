/** The greatest power that can be fed, where it is known in closed form: E²/4R and what follows from it. */
import { describe, expect, it, test } from 'vitest';
import { solveCircuit } from '../../server/physics/solve.ts';
import { circuitOf } from './circuits.ts';

/** Within a part in 10⁶ of what it should be. */
function expectPart(found: number | undefined, expected: number): void {
  expect(Math.abs((found ?? Number.NaN) / expected - 1)).toBeLessThan(1e-6);
}

describe('one load', () => {
  test.each([
    { emf: 12, ohms: 0.1, wire: 0.2, watts: 1000 },
    { emf: 12.8, ohms: 0.005, wire: 2.3, watts: 30 },
    { emf: 51.2, ohms: 0.02, wire: 0.001, watts: 1e6 },
    // A hair above what is fed.
    { emf: 24, ohms: 0.25, wire: 0.25, watts: 288 * (1 + 1e-6) },
    // Far beyond anything.
    { emf: 12, ohms: 0.5, wire: 0.5, watts: 1e9 },
  ])('behind $ohms and $wire Ω of $emf V gets E²/4R of $watts W', ({ emf, ohms, wire, watts }) => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: emf, ohms }],
        resistors: [{ a: 1, b: 2, ohms: wire }],
        powers: [{ plus: 2, minus: 0, watts }],
      }),
    );
    expect([found.converged, found.trouble]).toEqual([false, 'collapse']);
    expectPart((found.collapses[0]?.feedable ?? 0) * watts, (emf * emf) / (4 * (ohms + wire)));
    // No figure stands in for an answer.
    for (const all of [found.volts, found.resistorAmps, found.emfAmps, found.powerAmps])
      expect([...all].every((one) => one === 0)).toBe(true);
  });

  it('with a part in a million less than that is fed, at half the voltage', () => {
    const most = 144 / (4 * 0.3);
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.3 }],
        powers: [{ plus: 1, minus: 0, watts: most * (1 - 1e-6) }],
      }),
    );
    expect(found.converged).toBe(true);
    // V = E/2 (1 + √(1 − P/Pmax)).
    expect(found.volts[1]).toBeCloseTo(6 * (1 + 1e-3), 8);
    expect(found.collapses).toEqual([]);
  });
});

describe('several loads', () => {
  it('on one way share its E²/4R, whoever asks how much', () => {
    const watts = [20, 100, 60];
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.4 }],
        powers: watts.map((one) => ({ plus: 1, minus: 0, watts: one })),
      }),
    );
    const [collapse] = found.collapses;
    expectPart((collapse?.feedable ?? 0) * 180, 144 / 1.6);
    expect(collapse?.weak).toEqual([0, 1, 2]);
    expect(collapse?.weakFeedable).toBe(collapse?.feedable);
  });

  it('of which one is on a bad way: that alone is weak, and gets what its way gives beside the others', () => {
    // A stiff source; the second load behind 2 Ω of its own: 144/8 = 18 W of 30 W.
    const found = solveCircuit(
      circuitOf(4, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 1e-9 }],
        resistors: [
          { a: 1, b: 2, ohms: 0.05 },
          { a: 1, b: 3, ohms: 2 },
        ],
        powers: [
          { plus: 2, minus: 0, watts: 100 },
          { plus: 3, minus: 0, watts: 30 },
        ],
      }),
    );
    expect(found.collapses.map(({ powers, weak }) => ({ powers, weak }))).toEqual([{ powers: [0, 1], weak: [1] }]);
    expectPart((found.collapses[0]?.weakFeedable ?? 0) * 30, 18);
    expectPart((found.collapses[0]?.feedable ?? 0) * 30, 18);
  });

  it('of which one is on a bad way behind what feeds all: the others draw the voltage down first', () => {
    // 0.1 Ω shared, then 2 Ω to the second. The first draws 100 W at the bar; by I₁ = 100/U, U = 12 − 0.1 (I₁ + I₂).
    const [shared, own] = [0.1, 2];
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: shared }],
        resistors: [{ a: 1, b: 2, ohms: own }],
        powers: [
          { plus: 1, minus: 0, watts: 100 },
          { plus: 2, minus: 0, watts: 30 },
        ],
      }),
    );
    // The greatest P₂ = (U − 2 I) I over I, U the upper root of U² − (12 − 0.1 I) U + 10 = 0; by golden section.
    const power = (amps: number) => {
      const open = 12 - shared * amps;
      return ((open + Math.sqrt(open * open - 4 * shared * 100)) / 2 - own * amps) * amps;
    };
    let [low, high] = [0, 6];
    for (let i = 0; i < 200; i++) {
      const [a, b] = [high - (high - low) * 0.618, low + (high - low) * 0.618];
      if (power(a) < power(b)) low = a;
      else high = b;
    }
    expect(found.collapses[0]?.weak).toEqual([1]);
    expectPart((found.collapses[0]?.weakFeedable ?? 0) * 30, power((low + high) / 2));
    // All in proportion get a little more of theirs than that one beside the others' full power.
    expect(found.collapses[0]?.feedable).toBeGreaterThan(found.collapses[0]?.weakFeedable ?? 1);
  });
});

it('a source at its limit gives its volts times its amperes', () => {
  const found = solveCircuit(
    circuitOf(2, {
      limited: [{ plus: 1, minus: 0, volts: 14.4, ohms: 0.01, mostAmps: 20 }],
      powers: [{ plus: 1, minus: 0, watts: 600 }],
    }),
  );
  expect(found.trouble).toBe('collapse');
  expectPart((found.collapses[0]?.feedable ?? 0) * 600, (14.4 - 0.2) * 20);
});
