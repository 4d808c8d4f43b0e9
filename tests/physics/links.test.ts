/** Ways without resistance: one node, currents by what flows in and out, loops shared equally and marked as assumed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Link } from '../../server/physics/circuit.ts';
import { LinkNetwork } from '../../server/physics/link-currents.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { circuitOf, gauss, labels, linearCircuits } from './circuits.ts';

/** A battery on node 1, a load on node 2, and links between. */
const linked = (nodeCount: number, links: readonly (readonly [number, number])[]) =>
  solveCircuit(
    circuitOf(nodeCount, {
      emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.1 }],
      resistors: [{ a: 2, b: 0, ohms: 1.9 }],
      links: links.map(([a, b]) => ({ a, b })),
    }),
  );

/** Currents of links by what flows into their nodes. */
function linkCurrents(nodeCount: number, links: readonly Link[], inflow: Float64Array) {
  const network = new LinkNetwork(nodeCount, Int32Array.from(links.flatMap(({ a, b }) => [a, b])));
  const amps = new Float64Array(links.length);
  network.currents(inflow, amps);
  return { amps, assumed: network.assumed };
}

describe('links', () => {
  it('make one node of two', () => {
    const found = linked(3, [[1, 2]]);
    expect(found.volts[2]).toBeCloseTo(11.4, 12);
    expect(found.volts[1]).toBe(found.volts[2]);
    expect([found.linkAmps[0], found.linkAssumed[0]]).toEqual([expect.closeTo(6, 12), false]);
  });

  it('count from a to b', () => {
    expect(linked(3, [[2, 1]]).linkAmps[0]).toBeCloseTo(-6, 12);
  });

  it('in a chain carry the same, a dead end and a link to itself nothing', () => {
    const found = linked(6, [
      [1, 3],
      [3, 4],
      [4, 2],
      [4, 5],
      [3, 3],
    ]);
    expect([...found.linkAmps]).toEqual([6, 6, 6, 0, 0].map((amps) => expect.closeTo(amps, 12)));
    expect(found.linkAssumed.slice(0, 4)).toEqual([false, false, false, false]);
  });

  it('two alongside share equally and are assumed', () => {
    const found = linked(3, [
      [1, 2],
      [2, 1],
    ]);
    expect([...found.linkAmps]).toEqual([3, -3].map((amps) => expect.closeTo(amps, 12)));
    expect(found.linkAssumed).toEqual([true, true]);
  });

  it('one straight and two in a row share as two to one', () => {
    const found = linked(4, [
      [1, 2],
      [1, 3],
      [3, 2],
    ]);
    expect([...found.linkAmps]).toEqual([4, 2, 2].map((amps) => expect.closeTo(amps, 12)));
    expect(found.linkAssumed).toEqual([true, true, true]);
  });

  it('before and behind a loop are not assumed', () => {
    const found = linked(6, [
      [1, 3],
      [3, 4],
      [3, 4],
      [4, 2],
    ]);
    expect([...found.linkAmps]).toEqual([6, 3, 3, 6].map((amps) => expect.closeTo(amps, 12)));
    expect(found.linkAssumed).toEqual([false, true, true, false]);
  });

  it('that short a battery are one node with it, and it gives all it has', () => {
    const found = linked(3, [
      [1, 2],
      [2, 0],
    ]);
    expect(found.emfAmps[0]).toBeCloseTo(120, 9);
    expect(found.linkAmps[1]).toBeCloseTo(120, 9);
  });

  it('across a load leave it nothing, whatever it would draw', () => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.1 }],
        resistors: [{ a: 1, b: 0, ohms: 1.9 }],
        links: [{ a: 1, b: 2 }],
        powers: [{ plus: 1, minus: 2, watts: 20 }],
        currents: [{ plus: 2, minus: 1, amps: 3 }],
      }),
    );
    expect(found.converged).toBe(true);
    expect([found.powerAmps[0], found.currentAmps[0], found.linkAmps[0]]).toEqual([0, 0, expect.closeTo(0, 12)]);
    expect(found.emfAmps[0]).toBeCloseTo(6, 12);
  });

  it('of no one and of many', () => {
    expect(linkCurrents(3, [], new Float64Array(3))).toEqual({ amps: new Float64Array(0), assumed: [] });
    const many = linked(3, new Array(10).fill([1, 2]));
    for (const amps of many.linkAmps) expect(amps).toBeCloseTo(0.6, 12);
  });
});

describe('any links', () => {
  const node = fc.integer({ min: 0, max: 7 });
  const links = fc.array(fc.record({ a: node, b: node }), { maxLength: 12 });

  it('are assumed exactly where they lie on a loop', () => {
    fc.assert(
      fc.property(links, (list) => {
        const { assumed } = linkCurrents(8, list, new Float64Array(8));
        list.forEach(({ a, b }, i) => {
          const others = list.filter((_, j) => j !== i).map((one) => [one.a, one.b] as const);
          const without = labels(8, others);
          expect(assumed[i]).toBe(without[a] === without[b]);
        });
      }),
      { numRuns: 500 },
    );
  });

  it('share as if each had the same resistance', () => {
    fc.assert(
      fc.property(
        links,
        fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 8, maxLength: 8 }),
        (list, wanted) => {
          // What flows into each cluster flows out of it again: its first node takes the rest.
          const cluster = labels(
            8,
            list.map(({ a, b }) => [a, b] as const),
          );
          const inflow = Float64Array.from(wanted);
          for (let head = 0; head < 8; head++)
            if (cluster[head] === head)
              inflow[head] = -wanted.reduce(
                (sum, amps, i) => (i !== head && cluster[i] === head ? sum + amps : sum),
                0,
              );
          const { amps } = linkCurrents(8, list, inflow);
          const volts = equalOhms(list, cluster, inflow);
          list.forEach(({ a, b }, i) => {
            expect(amps[i]).toBeCloseTo((volts[a] ?? 0) - (volts[b] ?? 0), 9);
          });
        },
      ),
      { numRuns: 500 },
    );
  });

  it('carry what the same links carry with a little resistance each', () => {
    fc.assert(
      fc.property(linearCircuits, (drawn) => {
        const ohms = 1e-7;
        // A draw between two ends of a link has no voltage, and so draws nothing.
        const one = labels(
          drawn.nodeCount,
          drawn.links.map(({ a, b }) => [a, b] as const),
        );
        const circuit = { ...drawn, currents: drawn.currents.filter(({ plus, minus }) => one[plus] !== one[minus]) };
        const real = solveCircuit({
          ...circuit,
          resistors: [...circuit.resistors, ...circuit.links.map((one) => ({ ...one, ohms }))],
          links: [],
        });
        const ideal = solveCircuit(circuit);
        const largest = Math.max(1, ...[...ideal.resistorAmps, ...ideal.emfAmps, ...ideal.linkAmps].map(Math.abs));
        circuit.links.forEach(({ a, b }, i) => {
          const amps = a === b ? 0 : (real.resistorAmps[circuit.resistors.length + i] ?? 0);
          expect(Math.abs((ideal.linkAmps[i] ?? 0) - amps)).toBeLessThan(2e-3 * largest);
        });
      }),
      { numRuns: 300 },
    );
  });
});

/** Node volts with 1 Ω in each link, by dense elimination, every cluster's first node at nought. */
function equalOhms(links: readonly Link[], cluster: readonly number[], inflow: Float64Array): number[] {
  const n = inflow.length;
  const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const add = (i: number, j: number, value: number) => {
    const row = matrix[i] ?? [];
    row[j] = (row[j] ?? 0) + value;
  };
  for (const { a, b } of links) {
    add(a, a, 1);
    add(b, b, 1);
    add(a, b, -1);
    add(b, a, -1);
  }
  const right = [...inflow];
  for (let i = 0; i < n; i++)
    if (cluster[i] === i) {
      matrix[i]?.fill(0);
      add(i, i, 1);
      right[i] = 0;
    }
  return gauss(matrix, right) ?? [];
}
