/** Prospective currents: closed forms, and every pair of nodes against a dense solve of the network with that fault in it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit } from '../../server/physics/circuit.ts';
import { FaultNetwork, prospectiveAmps } from '../../server/physics/faults.ts';
import { HalfSolver } from '../../server/physics/half-solve.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { factorise, inOrder, SymmetricEntries } from '../../server/physics/sparse.ts';
import { circuitOf, denseVolts, gauss, linearCircuits } from './circuits.ts';

const amps = (circuit: Circuit, a: number, b: number) => FaultNetwork.of(circuit).at(a, b).amps;

describe('prospective current by closed forms', () => {
  it('of one battery and a run out and back is E/(Rb + Rout + Rback)', () => {
    // Nodes: battery minus 0 and plus 1, far end of the run 2 and 3.
    const circuit = circuitOf(4, {
      emfs: [{ plus: 1, minus: 0, volts: 12.6, ohms: 0.005 }],
      resistors: [
        { a: 1, b: 2, ohms: 0.011 },
        { a: 3, b: 0, ohms: 0.017 },
      ],
    });
    expect(amps(circuit, 1, 0)).toBeCloseTo(12.6 / 0.005, 8);
    expect(amps(circuit, 2, 0)).toBeCloseTo(12.6 / 0.016, 8);
    expect(amps(circuit, 2, 3)).toBeCloseTo(12.6 / 0.033, 8);
    expect(amps(circuit, 3, 2)).toBeCloseTo(-12.6 / 0.033, 8);
    expect(FaultNetwork.of(circuit).at(2, 3)).toMatchObject({
      openVolts: expect.closeTo(12.6, 12),
      ohms: expect.closeTo(0.033, 12),
    });
  });

  it('of two batteries in parallel is the sum of what each gives', () => {
    const circuit = circuitOf(3, {
      emfs: [
        { plus: 1, minus: 0, volts: 12.8, ohms: 0.004 },
        { plus: 2, minus: 0, volts: 12.2, ohms: 0.009 },
      ],
      links: [{ a: 1, b: 2 }],
    });
    expect(amps(circuit, 1, 0)).toBeCloseTo(12.8 / 0.004 + 12.2 / 0.009, 7);
    expect(amps(circuit, 2, 0)).toBeCloseTo(12.8 / 0.004 + 12.2 / 0.009, 7);
    expect(amps(circuit, 1, 2)).toBe(0);
  });

  it('along a ladder without rungs falls as E/(Rb + n R), and with rungs follows the folded network', () => {
    const steps = 400;
    const rungs = circuitOf(steps + 2, {
      emfs: [{ plus: 1, minus: 0, volts: 24, ohms: 0.01 }],
      resistors: Array.from({ length: steps }, (_, i) => [
        { a: i + 1, b: i + 2, ohms: 0.02 },
        { a: i + 2, b: 0, ohms: 5 },
      ]).flat(),
    });
    const bare = { ...rungs, resistors: rungs.resistors.filter(({ ohms }) => ohms < 1) };
    // Thévenin's equivalent of all behind node n, step by step; what lies beyond n only loads it, by its own folded resistance.
    const beyond = new Array<number>(steps + 1).fill(Number.POSITIVE_INFINITY);
    for (let i = steps - 1; i >= 0; i--) beyond[i] = 0.02 + 1 / (1 / 5 + 1 / (beyond[i + 1] ?? 0));
    let [volts, ohms] = [24, 0.01];
    for (let n = 1; n <= steps; n++) {
      ohms += 0.02;
      const share = 5 / (5 + ohms);
      [volts, ohms] = [volts * share, ohms * share];
      expect(amps(bare, n + 1, 0)).toBeCloseTo(24 / (0.01 + 0.02 * n), 7);
      if (n % 50 !== 0) continue;
      const fault = FaultNetwork.of(rungs).at(n + 1, 0);
      expect(fault.amps / (volts / ohms)).toBeCloseTo(1, 9);
      const rest = beyond[n] ?? 0;
      expect(fault.ohms / (1 / (1 / ohms + 1 / rest))).toBeCloseTo(1, 9);
    }
  });

  it('counts a limited source with its greatest current, less what the battery beside it takes of it', () => {
    const alternator = { plus: 2, minus: 0, volts: 14.2, ohms: 0.001, mostAmps: 70 };
    const alone = circuitOf(4, { limited: [alternator], resistors: [{ a: 2, b: 3, ohms: 0.02 }] });
    expect(amps(alone, 2, 0)).toBeCloseTo(70, 2);
    expect(amps(alone, 3, 0)).toBeCloseTo(70, 2);
    // Behind so much cable it no longer reaches its limit: 14.2 V over 1 mΩ and 400 mΩ.
    const far = { ...alone, resistors: [{ a: 2, b: 3, ohms: 0.4 }] };
    expect(amps(far, 3, 0)).toBeCloseTo(14.2 / 0.401, 6);
    const beside = circuitOf(4, {
      limited: [alternator],
      emfs: [{ plus: 1, minus: 0, volts: 12.6, ohms: 0.005 }],
      resistors: [
        { a: 1, b: 2, ohms: 0.003 },
        { a: 2, b: 3, ohms: 0.02 },
      ],
    });
    // At its own terminals the alternator adds all it has; at the end of the cable the battery's 8 mΩ share with 20 mΩ.
    expect(amps(beside, 2, 0)).toBeCloseTo(12.6 / 0.008 + 70, 2);
    expect(amps(beside, 3, 0)).toBeCloseTo((12.6 + 70 * 0.008) / 0.028, 2);
  });

  it('lets no current back through a diode', () => {
    const circuit = circuitOf(3, {
      emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01 }],
      limited: [{ plus: 2, minus: 0, volts: 20, ohms: 0.001, mostAmps: 8 }],
      diodes: [{ a: 2, b: 1, volts: 0.7, ohms: 0.001 }],
    });
    expect(amps(circuit, 1, 0)).toBeCloseTo(1208, 2);
    expect(amps(circuit, 2, 0)).toBeCloseTo(8, 2);
  });

  it('is none between what no source joins, and none where both are one node', () => {
    const circuit = circuitOf(5, {
      emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01 }],
      resistors: [{ a: 3, b: 4, ohms: 1 }],
      links: [{ a: 1, b: 2 }],
    });
    expect([amps(circuit, 3, 4), amps(circuit, 3, 0), amps(circuit, 2, 1)]).toEqual([0, 0, 0]);
    expect(FaultNetwork.of(circuit).at(3, 0).ohms).toBe(Number.POSITIVE_INFINITY);
  });

  it('goes through each way as Kirchhoff shares it', () => {
    // Two batteries feed one bar, each through its own device.
    const devices = [
      { a: 1, b: 3, ohms: 1e-6 },
      { a: 2, b: 3, ohms: 1e-6 },
    ];
    const circuit = circuitOf(5, {
      emfs: [
        { plus: 1, minus: 0, volts: 12.8, ohms: 0.004 },
        { plus: 2, minus: 0, volts: 12.2, ohms: 0.009 },
      ],
      resistors: [...devices, { a: 3, b: 4, ohms: 0.01 }],
    });
    const network = FaultNetwork.of(circuit);
    const [first, second] = devices.map((device) => network.through(device, 3, 0));
    expect(first).toBeCloseTo(12.8 / 0.004001, 3);
    expect(second).toBeCloseTo(12.2 / 0.009001, 3);
    // A fault on the first battery's own side: the other feeds it backwards through the device.
    expect(network.through(devices[0] ?? { a: 0, b: 0, ohms: 1 }, 1, 0)).toBeCloseTo(-12.2 / 0.009002, 3);
    const far = devices.map((device) => network.through(device, 4, 0)).reduce((sum, one) => sum + one, 0);
    expect(far).toBeCloseTo(network.at(4, 0).amps, 4);
  });
});

describe('prospective current on any network', () => {
  it('is what a dense solve finds with the two nodes joined by next to nothing', () => {
    const node = fc.integer({ min: 0, max: 8 });
    fc.assert(
      fc.property(linearCircuits, fc.tuple(node, node), (circuit, [a, b]) => {
        const still = { ...circuit, currents: [] };
        const { amps: found, ohms } = FaultNetwork.of(still).at(a, b);
        fc.pre(Number.isFinite(ohms) && ohms > 0);
        const bond = ohms * 1e-6;
        const volts = denseVolts({ ...still, resistors: [...still.resistors, { a, b, ohms: bond }] }) ?? [];
        const expected = ((volts[a] ?? 0) - (volts[b] ?? 0)) / bond;
        const largest = Math.max(...still.emfs.map((emf) => emf.volts / emf.ohms), Math.abs(expected));
        expect(Math.abs(found - expected)).toBeLessThanOrEqual(2e-6 * largest);
      }),
      { numRuns: 500 },
    );
  });

  it('is what the solver finds with limited sources and diodes in whatever state the fault leaves them', () => {
    const node = fc.integer({ min: 1, max: 6 });
    const wires = fc.array(fc.record({ from: fc.nat(99), milliohms: fc.integer({ min: 1, max: 400 }) }), {
      minLength: 5,
      maxLength: 5,
    });
    const limited = fc.array(
      fc.record({ at: node, volts: fc.integer({ min: 8, max: 24 }), most: fc.integer({ min: 1, max: 90 }) }),
      { minLength: 1, maxLength: 3 },
    );
    const diode = fc.option(fc.tuple(node, node).filter(([a, b]) => a !== b));
    const battery = fc.boolean();
    let alike = 0;
    fc.assert(
      fc.property(wires, limited, diode, battery, node, (tree, sources, through, withBattery, at) => {
        const circuit = circuitOf(7, {
          resistors: tree.map(({ from, milliohms }, i) => ({
            a: i + 2,
            b: 1 + (from % (i + 1)),
            ohms: milliohms / 1000,
          })),
          limited: sources.map(({ at: plus, volts, most }) => ({ plus, minus: 0, volts, ohms: 0.001, mostAmps: most })),
          diodes: through === null ? [] : [{ a: through[0], b: through[1], volts: 0.7, ohms: 0.001 }],
          emfs: withBattery ? [{ plus: 1, minus: 0, volts: 12.6, ohms: 0.006 }] : [],
        });
        const bond = 1e-7;
        const solved = solveCircuit({ ...circuit, resistors: [...circuit.resistors, { a: at, b: 0, ohms: bond }] });
        if (!solved.converged) return;
        alike += 1;
        const expected = solved.resistorAmps.at(-1) ?? 0;
        expect(Math.abs(amps(circuit, at, 0) - expected)).toBeLessThanOrEqual(1e-3 + 1e-3 * expected);
      }),
      { numRuns: 400, seed: 7 },
    );
    expect(alike).toBeGreaterThan(300);
  });

  it('more copper never makes it less', () => {
    const node = fc.integer({ min: 0, max: 8 });
    fc.assert(
      fc.property(linearCircuits, fc.tuple(node, node), fc.nat(99), (circuit, [a, b], which) => {
        // One battery: with several, what one drives may run against the other.
        const one = { ...circuit, currents: [], emfs: circuit.emfs.slice(0, 1) };
        fc.pre(one.resistors.length > 0);
        const thicker = one.resistors.map((r, i) =>
          i === which % one.resistors.length ? { ...r, ohms: r.ohms / 2 } : r,
        );
        const { ohms } = FaultNetwork.of(one).at(a, b);
        fc.pre(Number.isFinite(ohms));
        expect(FaultNetwork.of({ ...one, resistors: thicker }).at(a, b).ohms).toBeLessThanOrEqual(ohms * (1 + 1e-9));
      }),
      { numRuns: 200 },
    );
  });
});

describe('what one pair of rows does to another', () => {
  it('is as dense elimination has it, for trees, meshes and full matrices', () => {
    const matrices = fc.record({
      size: fc.integer({ min: 1, max: 24 }),
      pairs: fc.array(fc.tuple(fc.nat(99), fc.nat(99), fc.integer({ min: 1, max: 1000 })), { maxLength: 120 }),
    });
    fc.assert(
      fc.property(matrices, ({ size, pairs }) => {
        const entries = new SymmetricEntries(size);
        const dense = Array.from({ length: size }, (_, i) =>
          Array.from({ length: size }, (__, j): number => (i === j ? 0.5 : 0)),
        );
        const add = (i: number, j: number, value: number) => {
          const row = dense[i] ?? [];
          row[j] = (row[j] ?? 0) + value;
        };
        for (let i = 0; i < size; i++) entries.addDiagonal(i, 0.5);
        for (const [a, b, siemens] of pairs) {
          const [i, j] = [a % size, b % size];
          if (i === j) continue;
          entries.addDiagonal(i, siemens);
          entries.addDiagonal(j, siemens);
          entries.addPair(i, j, -siemens);
          add(i, i, siemens);
          add(j, j, siemens);
          add(i, j, -siemens);
          add(j, i, -siemens);
        }
        const factor = factorise(entries);
        if (factor === undefined) throw new Error('not positive definite');
        const { place } = factor.structure;
        const halves = new HalfSolver(factor);
        const half = (i: number, j: number) => {
          halves.load(place[i] ?? -1, place[j] ?? -1);
          return halves.held();
        };
        for (let i = 0; i < size; i++) {
          const unit = new Array<number>(size).fill(0);
          unit[i] = 1;
          const column = gauss(dense, unit) ?? [];
          const ground = half(i, -1);
          expect(halves.squared() / (column[i] ?? 0)).toBeCloseTo(1, 8);
          const whole = halves.whole(inOrder(factor.structure, Float64Array.from(unit)));
          for (let j = 0; j < size; j++) {
            half(i, j);
            const between = (column[i] ?? Number.NaN) - (column[j] ?? Number.NaN);
            expect(halves.times(ground)).toBeCloseTo(between, 8);
            expect(halves.timesWhole(whole)).toBeCloseTo(between, 8);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('gives all prospective currents of a thousand nodes', () => {
    const circuit = circuitOf(1001, {
      emfs: [{ plus: 1, minus: 0, volts: 12.6, ohms: 0.004 }],
      resistors: Array.from({ length: 999 }, (_, i) => ({ a: i + 2, b: 1 + Math.floor(i / 2), ohms: 0.01 })),
    });
    const pairs = Array.from({ length: 1000 }, (_, i) => ({ a: i + 1, b: 0 }));
    const found = prospectiveAmps(circuit, pairs);
    expect(found[0]).toBeCloseTo(3150, 6);
    // A binary tree: node i + 1 hangs ⌊log₂⌋ cables deep.
    expect(found.at(-1)).toBeCloseTo(12.6 / (0.004 + 0.01 * 9), 6);
  });
});
