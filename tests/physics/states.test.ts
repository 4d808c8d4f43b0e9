/** Diodes and limited sources: the state found is the one that a search of all states finds, and closed forms. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import {
  circuitOf,
  denseVolts,
  imbalance,
  type LimitedState,
  linearCircuits,
  poweredCircuits,
  substituted,
} from './circuits.ts';

/** Node volts in every state that agrees with itself. */
function everyAnswer(circuit: Circuit, margin: number): number[][] {
  const found: number[][] = [];
  const states = ['holds', 'limits', 'off'] as const;
  const limitedCount = 3 ** circuit.limited.length;
  for (let code = 0; code < limitedCount * 2 ** circuit.diodes.length; code++) {
    const limited = circuit.limited.map((_, i): LimitedState => states[Math.floor(code / 3 ** i) % 3] ?? 'off');
    const conducting = circuit.diodes.map((_, i) => Math.floor(code / limitedCount / 2 ** i) % 2 === 1);
    const volts =
      circuit.powers.length > 0
        ? substituted(circuit, { limited, conducting })
        : denseVolts(circuit, { limited, conducting });
    if (volts === undefined) continue;
    const across = (a: number, b: number) => (volts[a] ?? 0) - (volts[b] ?? 0);
    const agrees =
      circuit.limited.every(({ plus, minus, volts: held, ohms, mostAmps }, i) => {
        const amps = (held - across(plus, minus)) / ohms;
        if (limited[i] === 'holds') return amps >= -margin && amps <= mostAmps + margin;
        return limited[i] === 'limits' ? amps >= mostAmps - margin : amps <= margin;
      }) &&
      circuit.diodes.every(({ a, b, volts: lost, ohms }, i) => {
        const amps = (across(a, b) - lost) / ohms;
        return conducting[i] ? amps >= -margin : amps <= margin;
      });
    if (agrees) found.push(volts);
  }
  return found;
}

const node = fc.integer({ min: 0, max: 8 });
const pair = fc.tuple(node, node).filter(([a, b]) => a !== b);

/** A linear network with sound ties, so that no part floats by its states alone, and some diodes and limited sources in it. */
const switchedCircuits: fc.Arbitrary<Circuit> = fc
  .record({
    circuit: linearCircuits,
    diodes: fc.array(pair, { maxLength: 3 }),
    limited: fc.array(
      fc.record({ ends: pair, volts: fc.integer({ min: 5, max: 40 }), mostAmps: fc.integer({ min: 1, max: 30 }) }),
      { maxLength: 2 },
    ),
    ties: fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 8, maxLength: 8 }),
  })
  .map(({ circuit, diodes, limited, ties }) => ({
    ...circuit,
    references: [0],
    resistors: [...circuit.resistors, ...ties.map((ohms, i) => ({ a: i, b: i + 1, ohms }))],
    diodes: diodes.map(([a, b]) => ({ a, b, volts: 0.7, ohms: 0.01 })),
    limited: limited.map(({ ends: [plus, minus], ...rest }) => ({ plus, minus, ohms: 0.01, ...rest })),
  }));

describe('states', () => {
  it('found are the one consistent state of all', () => {
    let switched = 0;
    fc.assert(
      fc.property(switchedCircuits, (circuit) => {
        const [expected] = everyAnswer(circuit, 1e-6);
        const solution = solveCircuit(circuit);
        expect(expected).toBeDefined();
        expect(solution.converged).toBe(true);
        const scale = Math.max(1, ...(expected ?? []).map(Math.abs));
        expected?.forEach((volts, i) => {
          expect(Math.abs((solution.volts[i] ?? Number.NaN) - volts)).toBeLessThan(1e-6 * scale);
        });
        const { worst, largest } = imbalance(circuit, solution);
        expect(worst).toBeLessThan(1e-8 * Math.max(1, largest));
        for (const amps of solution.diodeAmps) expect(amps).toBeGreaterThanOrEqual(-1e-6);
        circuit.limited.forEach(({ mostAmps }, i) => {
          expect(solution.limitedAmps[i]).toBeGreaterThanOrEqual(-1e-6);
          expect(solution.limitedAmps[i]).toBeLessThanOrEqual(mostAmps + 1e-6);
        });
        if (solution.diodeAmps.some((amps) => amps === 0)) switched += 1;
      }),
      { numRuns: 1500 },
    );
    expect(switched).toBeGreaterThan(50);
  });
});

describe('constant-power loads behind diodes and limited sources', () => {
  /** Wiring with loads, a diode between places of its plus side, and a source that regulates. */
  const circuits: fc.Arbitrary<Circuit> = fc
    .record({
      circuit: poweredCircuits,
      diodes: fc.array(fc.record({ a: fc.nat(99), b: fc.nat(99) }), { maxLength: 3 }),
      regulated: fc.option(
        fc.record({
          plus: fc.nat(99),
          volts: fc.constantFrom(12.2, 12.5, 13.8, 14.4),
          mostAmps: fc.integer({ min: 1, max: 40 }),
        }),
      ),
      times: fc.constantFrom(1, 2, 8),
    })
    .map(({ circuit, diodes, regulated, times }) => ({
      ...circuit,
      powers: circuit.powers.map((one) => ({ ...one, watts: one.watts * times })),
      diodes: diodes
        .map(({ a, b }) => ({ a: a % circuit.nodeCount, b: b % circuit.nodeCount, volts: 0.7, ohms: 0.01 }))
        .filter(({ a, b }) => a !== b),
      limited:
        regulated === null
          ? []
          : [{ ...regulated, plus: 1 + (regulated.plus % (circuit.nodeCount - 1)), minus: 0, ohms: 0.01 }],
    }));

  it('are answered exactly when some state bears it, by one that does', () => {
    let [answered, collapsed] = [0, 0];
    fc.assert(
      fc.property(circuits, (circuit) => {
        const consistent = everyAnswer(circuit, 1e-6);
        const solution = solveCircuit(circuit);
        expect(solution.converged).toBe(consistent.length > 0);
        if (consistent.length === 0) {
          collapsed += 1;
          return;
        }
        answered += 1;
        const apart = consistent.map((volts) =>
          Math.max(...volts.map((v, i) => Math.abs(v - (solution.volts[i] ?? 0)))),
        );
        expect(Math.min(...apart)).toBeLessThan(1e-5);
        const { worst, largest } = imbalance(circuit, solution);
        expect(worst).toBeLessThan(1e-8 * Math.max(1, largest));
      }),
      { numRuns: 300 },
    );
    expect(answered).toBeGreaterThan(30);
    expect(collapsed).toBeGreaterThan(5);
  });
});

describe('closed forms', () => {
  test.each([
    // E, its ohms, most amps, load in ohm: amps
    ['holds', 14.4, 0.1, 30, 2.3, 6],
    ['limits', 14.4, 0.1, 5, 2.3, 5],
    ['just at its limit', 14.4, 0.1, 6, 2.3, 6],
    ['into a dead short, nearly', 14.4, 0.1, 30, 1e-6, 30],
  ])('a limited source that %s', (_, volts, ohms, mostAmps, load, amps) => {
    const found = solveCircuit(
      circuitOf(2, {
        limited: [{ plus: 1, minus: 0, volts, ohms, mostAmps }],
        resistors: [{ a: 1, b: 0, ohms: load }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.limitedAmps[0]).toBeCloseTo(amps, 9);
    expect(found.volts[1]).toBeCloseTo(amps * load, 9);
  });

  test.each([
    ['charges it at its limit', 12, 20, 20],
    ['charges it until it is near', 14.3, 20, (14.4 - 14.3) / 0.02],
    ['gives it nothing when it is fuller', 14.6, 20, 0],
  ])('a charger beside a battery %s', (_, emf, mostAmps, amps) => {
    const found = solveCircuit(
      circuitOf(2, {
        limited: [{ plus: 1, minus: 0, volts: 14.4, ohms: 0.01, mostAmps }],
        emfs: [{ plus: 1, minus: 0, volts: emf, ohms: 0.01 }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.limitedAmps[0]).toBeCloseTo(amps, 9);
    expect(found.emfAmps[0]).toBeCloseTo(-amps, 9);
  });

  test.each([
    ['forwards', 1, 2, (12 - 0.7) / 1.06],
    ['backwards', 2, 1, 0],
  ])('a diode %s', (_, a, b, amps) => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.05 }],
        diodes: [{ a, b, volts: 0.7, ohms: 0.01 }],
        resistors: [{ a: 2, b: 0, ohms: 1 }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.diodeAmps[0]).toBeCloseTo(amps, 12);
    expect(found.emfAmps[0]).toBeCloseTo(amps, 12);
  });

  /** Two batteries through a diode each to one load at node 3. */
  const either = (one: number, other: number, load: Partial<Circuit>) =>
    circuitOf(4, {
      emfs: [
        { plus: 1, minus: 0, volts: one, ohms: 0.05 },
        { plus: 2, minus: 0, volts: other, ohms: 0.05 },
      ],
      diodes: [
        { a: 1, b: 3, volts: 0.7, ohms: 0.05 },
        { a: 2, b: 3, volts: 0.7, ohms: 0.05 },
      ],
      ...load,
    });

  it('of two batteries each behind a diode the fuller feeds, and both when much is asked', () => {
    const little = solveCircuit(either(13, 12, { currents: [{ plus: 3, minus: 0, amps: 5 }] }));
    expect([...little.diodeAmps]).toEqual([5, 0].map((amps) => expect.closeTo(amps, 12)));
    // 1 V between them over 0.1 Ω each way: 10 A more from the fuller.
    const much = solveCircuit(either(13, 12, { currents: [{ plus: 3, minus: 0, amps: 50 }] }));
    expect([...much.diodeAmps]).toEqual([30, 20].map((amps) => expect.closeTo(amps, 9)));
  });

  it('a load that one of them could not feed alone is fed by both', () => {
    // One behind 0.1 Ω with 12.3 V brings at most 12.3²/0.4 = 378 W; two 11.8 V on average behind 0.05 Ω bring 696 W.
    const found = solveCircuit(either(13, 12, { powers: [{ plus: 3, minus: 0, watts: 500 }] }));
    const volts = (11.8 + Math.sqrt(11.8 ** 2 - 4 * 0.05 * 500)) / 2;
    expect(found.converged).toBe(true);
    expect(found.volts[3]).toBeCloseTo(volts, 9);
    const beyond = solveCircuit(either(13, 12, { powers: [{ plus: 3, minus: 0, watts: 700 }] }));
    expect([beyond.converged, beyond.trouble]).toEqual([false, 'collapse']);
    expect((beyond.collapses[0]?.feedable ?? 0) * 700).toBeCloseTo(11.8 ** 2 / 0.2, 4);
  });

  it('a diode across a load, against its voltage, takes nothing from it', () => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01 }],
        resistors: [{ a: 1, b: 2, ohms: 0.1 }],
        powers: [{ plus: 2, minus: 0, watts: 24 }],
        diodes: [{ a: 0, b: 2, volts: 0.7, ohms: 0.001 }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.volts[2]).toBeCloseTo((12 + Math.sqrt(144 - 4 * 0.11 * 24)) / 2, 9);
    expect(found.diodeAmps[0]).toBe(0);
  });

  it('a diode into nothing but a load of constant power feeds it', () => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.05 }],
        diodes: [{ a: 1, b: 2, volts: 0.7, ohms: 0.05 }],
        powers: [{ plus: 2, minus: 0, watts: 100 }],
      }),
    );
    expect(found.volts[2]).toBeCloseTo((11.3 + Math.sqrt(11.3 ** 2 - 4 * 0.1 * 100)) / 2, 9);
  });

  it('a limited source before a diode that blocks holds its voltage and gives nothing, and the rest is fed', () => {
    // An alternator on the output of a diode that feeds two batteries, as somebody has joined it the wrong way round.
    const found = solveCircuit(
      circuitOf(4, {
        emfs: [
          { plus: 1, minus: 0, volts: 12.1, ohms: 0.008 },
          { plus: 3, minus: 0, volts: 12.3, ohms: 0.006 },
        ],
        limited: [{ plus: 2, minus: 0, volts: 14.4, ohms: 0.001, mostAmps: 90 }],
        diodes: [
          { a: 1, b: 2, volts: 0.4, ohms: 0.001 },
          { a: 1, b: 3, volts: 0.4, ohms: 0.001 },
        ],
        powers: [{ plus: 3, minus: 0, watts: 45 }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.volts[2]).toBeCloseTo(14.4, 9);
    expect([...found.diodeAmps]).toEqual([0, 0]);
    expect(found.volts[3]).toBeCloseTo((12.3 + Math.sqrt(12.3 ** 2 - 4 * 0.006 * 45)) / 2, 9);
  });

  it('a limited source feeds constant power until its limit, and then collapses', () => {
    const feed = (watts: number) =>
      solveCircuit(
        circuitOf(2, {
          limited: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01, mostAmps: 10 }],
          powers: [{ plus: 1, minus: 0, watts }],
        }),
      );
    expect(feed(100).volts[1]).toBeCloseTo((12 + Math.sqrt(144 - 4)) / 2, 9);
    const over = feed(200);
    expect([over.converged, over.trouble]).toEqual([false, 'collapse']);
    // 10 A at 11.9 V.
    expect((over.collapses[0]?.feedable ?? 0) * 200).toBeCloseTo(119, 4);
  });
});
