/** Laws that every answer of the solver keeps, on any network, and its answer against dense elimination. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import {
  circuitOf,
  denseVolts,
  imbalance,
  linearCircuits,
  powerBalance,
  poweredCircuits,
  substituted,
} from './circuits.ts';

/** Within a part in 10⁸ of the greatest voltage there is. */
function expectVolts(found: ArrayLike<number>, expected: readonly number[], part = 1e-8): void {
  const scale = Math.max(1, ...expected.map(Math.abs));
  expect(found.length).toBe(expected.length);
  expected.forEach((volts, node) => {
    expect(Math.abs((found[node] ?? Number.NaN) - volts)).toBeLessThanOrEqual(part * scale);
  });
}

function expectLaws(circuit: Circuit): void {
  const solution = solveCircuit(circuit);
  expect(solution.converged).toBe(true);
  const { worst, largest } = imbalance(circuit, solution);
  expect(worst).toBeLessThanOrEqual(1e-8 * Math.max(1, largest));
  expect(solution.residual).toBeCloseTo(worst / Math.max(1, largest), 12);
  const { rest, largest: watts } = powerBalance(circuit, solution);
  expect(Math.abs(rest)).toBeLessThanOrEqual(1e-7 * Math.max(1, watts));
}

describe('linear networks', () => {
  it('have the node volts of dense elimination', () => {
    fc.assert(
      fc.property(linearCircuits, (circuit) => {
        const { converged, volts } = solveCircuit(circuit);
        expect(converged).toBe(true);
        expectVolts(volts, denseVolts(circuit) ?? []);
      }),
      { numRuns: 600 },
    );
  });

  it('keep the current law at every node, and the balance of power', () => {
    fc.assert(fc.property(linearCircuits, expectLaws), { numRuns: 600 });
  });

  it('have an order of nodes that makes no difference', () => {
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(linearCircuits, order, (circuit, places) => {
        const at = (node: number) => places[node] ?? 0;
        // Every part has its reference: without one the lowest number is 0 V, which a new order changes.
        const given = { ...circuit, references: [...circuit.references, 0, 1, 2, 3, 4, 5, 6, 7, 8] };
        const ends = <T extends { plus: number; minus: number }>(one: T) => ({
          ...one,
          plus: at(one.plus),
          minus: at(one.minus),
        });
        const turned = {
          ...given,
          resistors: given.resistors.map((one) => ({ ...one, a: at(one.a), b: at(one.b) })).reverse(),
          links: given.links.map((one) => ({ a: at(one.a), b: at(one.b) })),
          emfs: given.emfs.map(ends).reverse(),
          currents: given.currents.map(ends),
          references: given.references.map(at),
        };
        const before = solveCircuit(given);
        const after = solveCircuit(turned);
        expectVolts(
          places.map((place) => after.volts[place] ?? Number.NaN),
          [...before.volts],
        );
        const scale = Math.max(1, imbalance(given, before).largest);
        given.links.forEach((_, i) => {
          expect(Math.abs((after.linkAmps[i] ?? 0) - (before.linkAmps[i] ?? 0))).toBeLessThan(1e-7 * scale);
        });
        expect(after.linkAssumed).toEqual(before.linkAssumed);
      }),
      { numRuns: 300 },
    );
  });

  it('superpose: the answer is the sum of those of each source alone', () => {
    fc.assert(
      fc.property(linearCircuits, (circuit) => {
        const silent = circuit.emfs.map((one) => ({ ...one, volts: 0 }));
        const sum = new Array<number>(circuit.nodeCount).fill(0);
        const count = (given: Partial<Circuit>) =>
          solveCircuit({ ...circuit, ...given }).volts.forEach((volts, node) => {
            sum[node] = (sum[node] ?? 0) + volts;
          });
        circuit.emfs.forEach((one, i) => {
          count({ emfs: silent.map((quiet, j) => (i === j ? one : quiet)), currents: [] });
        });
        for (const one of circuit.currents) count({ emfs: silent, currents: [one] });
        expectVolts(sum, [...solveCircuit(circuit).volts]);
      }),
      { numRuns: 300 },
    );
  });

  it('turned round in sign, or ten times as strong, answer so', () => {
    fc.assert(
      fc.property(linearCircuits, fc.constantFrom(-1, 10, 0.1), (circuit, times) => {
        const changed = solveCircuit({
          ...circuit,
          emfs: circuit.emfs.map((one) => ({ ...one, volts: one.volts * times })),
          currents: circuit.currents.map((one) => ({ ...one, amps: one.amps * times })),
        });
        expectVolts(
          changed.volts,
          [...solveCircuit(circuit).volts].map((volts) => volts * times),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('are reciprocal: volts at one place by amperes at another are the same the other way round', () => {
    const node = fc.integer({ min: 0, max: 8 });
    let compared = 0;
    fc.assert(
      fc.property(linearCircuits, node, node, node, node, (circuit, a, b, c, d) => {
        const quiet = { ...circuit, emfs: circuit.emfs.map((one) => ({ ...one, volts: 0 })) };
        const transfer = (from: [number, number], to: [number, number]) => {
          const { volts, currentAmps } = solveCircuit({
            ...quiet,
            currents: [{ plus: from[0], minus: from[1], amps: 1 }],
          });
          return currentAmps[0] === 1 ? (volts[to[0]] ?? 0) - (volts[to[1]] ?? 0) : undefined;
        };
        const [there, back] = [transfer([a, b], [c, d]), transfer([c, d], [a, b])];
        if (there === undefined || back === undefined) return;
        compared += 1;
        expect(Math.abs(there - back)).toBeLessThan(1e-9 * Math.max(1, Math.abs(there)));
      }),
      { numRuns: 300 },
    );
    // Where the current can flow at both places, that is.
    expect(compared).toBeGreaterThan(10);
  });
});

describe('constant-power loads', () => {
  it('keep the current law, the balance of power, and draw what they are rated', () => {
    fc.assert(
      fc.property(poweredCircuits, (circuit) => {
        if (!solveCircuit(circuit).converged) return;
        expectLaws(circuit);
        const { volts, powerAmps } = solveCircuit(circuit);
        circuit.powers.forEach(({ plus, minus, watts }, i) => {
          expect(((volts[plus] ?? 0) - (volts[minus] ?? 0)) * (powerAmps[i] ?? 0)).toBeCloseTo(watts, 7);
        });
      }),
      { numRuns: 400 },
    );
  });

  it('have the answer of repeated substitution from no load: the upper voltage, or none', () => {
    let [answered, collapsed] = [0, 0];
    fc.assert(
      fc.property(poweredCircuits, fc.constantFrom(1, 3, 10), (circuit, times) => {
        const asked = { ...circuit, powers: circuit.powers.map((one) => ({ ...one, watts: one.watts * times })) };
        const expected = substituted(asked);
        const { converged, volts, trouble, collapses } = solveCircuit(asked);
        const feedable = Math.min(1, ...collapses.map((one) => one.feedable));
        expect(converged).toBe(expected !== undefined);
        if (expected === undefined) {
          collapsed += 1;
          expect(trouble).toBe('collapse');
          // What could still be fed can be, and a little more cannot.
          const part = (share: number) => ({
            ...asked,
            powers: asked.powers.map((one) => ({ ...one, watts: one.watts * share })),
          });
          expect(solveCircuit(part(feedable * (1 - 1e-6))).converged).toBe(true);
          expect(solveCircuit(part(feedable * (1 + 1e-6) + 1e-12)).converged).toBe(false);
          return;
        }
        answered += 1;
        expectVolts(volts, expected, 1e-7);
      }),
      { numRuns: 250, seed: 7 },
    );
    // Neither side of the edge is left untried.
    expect(answered).toBeGreaterThan(40);
    expect(collapsed).toBeGreaterThan(10);
  });

  it('a load that asks for more gets it at a lower voltage', () => {
    fc.assert(
      fc.property(poweredCircuits, fc.integer({ min: 1, max: 20 }), (circuit, more) => {
        const [first, ...others] = circuit.powers;
        if (first === undefined) return;
        const before = solveCircuit(circuit);
        const after = solveCircuit({ ...circuit, powers: [{ ...first, watts: first.watts + more }, ...others] });
        if (!after.converged) return;
        expect(before.converged).toBe(true);
        const across = (volts: Float64Array) => (volts[first.plus] ?? 0) - (volts[first.minus] ?? 0);
        expect(across(after.volts)).toBeLessThan(across(before.volts));
      }),
      { numRuns: 300 },
    );
  });
});

describe('parts that float', () => {
  it('have a reference of their own, and carry nothing between them', () => {
    // A battery with a lamp on nodes 0 to 1; another on 2 to 3, its plus the reference; a wire between the two.
    const circuit = circuitOf(4, {
      emfs: [
        { plus: 1, minus: 0, volts: 12, ohms: 1 },
        { plus: 3, minus: 2, volts: 24, ohms: 2 },
      ],
      resistors: [
        { a: 1, b: 0, ohms: 5 },
        { a: 3, b: 2, ohms: 10 },
      ],
      references: [0, 3],
    });
    const apart = solveCircuit(circuit);
    expect([...apart.volts]).toEqual([0, 10, -20, 0].map((volts) => expect.closeTo(volts, 12)));
    const tied = solveCircuit({ ...circuit, resistors: [...circuit.resistors, { a: 0, b: 2, ohms: 3 }] });
    expect([...tied.volts]).toEqual([0, 10, 0, 20].map((volts) => expect.closeTo(volts, 12)));
    expect(tied.resistorAmps[2]).toBeCloseTo(0, 12);
  });

  it('without a source have no volts and feed nothing', () => {
    const { converged, volts, powerAmps, currentAmps } = solveCircuit(
      circuitOf(5, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 1 }],
        resistors: [{ a: 2, b: 3, ohms: 5 }],
        powers: [
          { plus: 2, minus: 3, watts: 20 },
          { plus: 1, minus: 3, watts: 20 },
        ],
        currents: [{ plus: 4, minus: 1, amps: 3 }],
      }),
    );
    expect(converged).toBe(true);
    expect([...volts]).toEqual([0, 12, 0, 0, 0]);
    expect([...powerAmps, ...currentAmps]).toEqual([0, 0, 0]);
  });

  it('of nothing at all are no trouble', () => {
    expect(solveCircuit(circuitOf(0, { references: [] }))).toMatchObject({ converged: true, residual: 0 });
    expect([...solveCircuit(circuitOf(3, {})).volts]).toEqual([0, 0, 0]);
  });
});
