/** Islands solved by themselves, and kept until something in them changes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit, Solution } from '../../server/physics/circuit.ts';
import { islandsOf } from '../../server/physics/circuit-islands.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { SolvedBefore } from '../../server/physics/solved-before.ts';
import { elementwise, flattened } from '../../server/physics/topology.ts';
import { network } from '../bench/networks.ts';
import { circuitOf, linearCircuits, poweredCircuits } from './circuits.ts';

/** Circuits side by side, their nodes dealt out in turn, so that no island has its numbers together. */
function together(circuits: readonly Circuit[]): Circuit {
  const most = Math.max(...circuits.map(({ nodeCount }) => nodeCount));
  const parts = circuits.map((circuit, k) => {
    const at = (node: number) => node * circuits.length + k;
    const pair = <T extends { a: number; b: number }>(one: T) => ({ ...one, a: at(one.a), b: at(one.b) });
    const port = <T extends { plus: number; minus: number }>(one: T) => ({
      ...one,
      plus: at(one.plus),
      minus: at(one.minus),
    });
    return {
      resistors: circuit.resistors.map(pair),
      links: circuit.links.map(pair),
      emfs: circuit.emfs.map(port),
      limited: circuit.limited.map(port),
      currents: circuit.currents.map(port),
      powers: circuit.powers.map(port),
      diodes: circuit.diodes.map(pair),
      references: circuit.references.map(at),
    };
  });
  return {
    nodeCount: most * circuits.length,
    resistors: parts.flatMap((one) => one.resistors),
    links: parts.flatMap((one) => one.links),
    emfs: parts.flatMap((one) => one.emfs),
    limited: parts.flatMap((one) => one.limited),
    currents: parts.flatMap((one) => one.currents),
    powers: parts.flatMap((one) => one.powers),
    diodes: parts.flatMap((one) => one.diodes),
    references: parts.flatMap((one) => one.references),
  };
}

const figures = [
  'volts',
  'resistorAmps',
  'linkAmps',
  'emfAmps',
  'limitedAmps',
  'currentAmps',
  'powerAmps',
  'diodeAmps',
] as const;

/** Every figure within a part in 10⁹ of the greatest of its sort. */
function expectSame(found: Solution, expected: Solution): void {
  expect([found.converged, found.trouble, found.linkAssumed]).toEqual([
    expected.converged,
    expected.trouble,
    expected.linkAssumed,
  ]);
  for (const name of figures) {
    const [all, fresh] = [found[name], expected[name]];
    expect(all.length, name).toBe(fresh.length);
    const scale = fresh.reduce((most, one) => Math.max(most, Math.abs(one)), 1);
    fresh.forEach((one, i) => {
      expect(Math.abs((all[i] ?? Number.NaN) - one), `${name} ${i}`).toBeLessThanOrEqual(1e-9 * scale);
    });
  }
}

interface Edit {
  readonly of: 'resistor' | 'emf' | 'power' | 'current' | 'undo' | 'cut';
  readonly which: number;
  readonly times: number;
}

const edits: fc.Arbitrary<Edit[]> = fc.array(
  fc.record({
    of: fc.constantFrom('resistor', 'emf', 'power', 'current', 'undo', 'cut'),
    which: fc.nat(999),
    times: fc.constantFrom(0.5, 0.9, 1.1, 1.5),
  }),
  { minLength: 1, maxLength: 12 },
);

function edited(circuit: Circuit, { of, which, times }: Edit): Circuit {
  const change = <T>(all: readonly T[], how: (one: T) => T) =>
    all.map((one, i) => (i === which % all.length ? how(one) : one));
  switch (of) {
    case 'resistor':
      return { ...circuit, resistors: change(circuit.resistors, (one) => ({ ...one, ohms: one.ohms * times })) };
    case 'emf':
      return { ...circuit, emfs: change(circuit.emfs, (one) => ({ ...one, volts: one.volts * times })) };
    case 'power':
      return { ...circuit, powers: change(circuit.powers, (one) => ({ ...one, watts: one.watts * times })) };
    case 'current':
      return { ...circuit, currents: change(circuit.currents, (one) => ({ ...one, amps: one.amps * times })) };
    case 'cut':
      return { ...circuit, resistors: circuit.resistors.filter((_, i) => i !== which % circuit.resistors.length) };
    case 'undo':
      return circuit;
  }
}

const several = fc.array(fc.oneof(linearCircuits, poweredCircuits), { minLength: 1, maxLength: 4 }).map(together);

describe('islands', () => {
  it('have among them every element that joins anything, each once, in circuits with the answer of the whole', () => {
    let split = 0;
    fc.assert(
      fc.property(several, (circuit) => {
        const { topology, figures } = flattened(circuit);
        const apart = islandsOf(topology);
        if (apart === undefined) return;
        const { islands, deadEnds } = apart;
        split += 1;
        for (const kind of ['resistors', 'links', 'emfs', 'limited', 'diodes'] as const) {
          const own = islands.flatMap(({ elements, topology: { first, counts } }) => [
            ...elements.subarray(first[kind], first[kind] + counts[kind]),
          ]);
          const all = circuit[kind].map((_, i) => topology.first[kind] + i);
          expect(own.sort((a, b) => a - b)).toEqual(all.filter((k) => deadEnds.elements[k] === 0));
        }
        const nodes = islands.flatMap((island) => [...island.nodes]);
        expect(new Set(nodes).size).toBe(nodes.length);
        const { volts } = solveCircuit(circuit);
        for (const island of islands) {
          const own = Float64Array.from(island.figures, (at) => figures[at] ?? Number.NaN);
          solveCircuit(elementwise({ topology: island.topology, figures: own })).volts.forEach((one, i) => {
            expect(volts[island.nodes[i] ?? -1]).toBe(one);
          });
        }
      }),
      { numRuns: 200 },
    );
    expect(split).toBeGreaterThan(100);
  });

  it('that collapse leave the others their answer, and are told by their loads', () => {
    const fed = circuitOf(2, {
      emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 1 }],
      powers: [{ plus: 1, minus: 0, watts: 20 }],
    });
    const starved = { ...fed, powers: [{ plus: 1, minus: 0, watts: 72 }] };
    const found = solveCircuit(together([starved, fed, starved]));
    expect([found.converged, found.trouble]).toEqual([false, 'collapse']);
    expect(found.collapses).toEqual([
      { powers: [0], feedable: expect.closeTo(0.5, 7), weak: [0], weakFeedable: expect.closeTo(0.5, 7) },
      { powers: [2], feedable: expect.closeTo(0.5, 7), weak: [2], weakFeedable: expect.closeTo(0.5, 7) },
    ]);
    expect([...found.powerAmps]).toEqual([0, expect.closeTo(2, 12), 0]);
    expect([...found.volts]).toEqual([0, 0, 0, 0, expect.closeTo(10, 12), 0]);
  });
});

describe('what was solved before', () => {
  it('after any edits gives what solving afresh gives', () => {
    fc.assert(
      fc.property(several, edits, (circuit, list) => {
        const before = new SolvedBefore();
        expectSame(solveCircuit(circuit, before), solveCircuit(circuit));
        let [now, earlier] = [circuit, circuit];
        for (const edit of list) {
          const next = edit.of === 'undo' ? earlier : edited(now, edit);
          [earlier, now] = [now, next];
          expectSame(solveCircuit(now, before), solveCircuit(now));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('is not solved again: of twenty islands an edit touches one', () => {
    const vans = Array.from({ length: 20 }, (_, i) => network('tree', 50, i + 1));
    const circuit = together(vans);
    const before = new SolvedBefore();
    solveCircuit(circuit, before);
    expect(before.counted).toEqual({ found: 0, solved: 20 });
    const { found, solved } = before.counted;
    solveCircuit(circuit, before);
    expect(before.counted).toEqual({ found: found + 20, solved });
    const longer = edited(circuit, { of: 'resistor', which: 123, times: 1.1 });
    const answer = solveCircuit(longer, before);
    expect(before.counted).toEqual({ found: found + 39, solved: solved + 1 });
    expectSame(answer, solveCircuit(longer));
    // Undone, all is known.
    solveCircuit(circuit, before);
    expect(before.counted).toEqual({ found: found + 59, solved: solved + 1 });
  });

  it('tells figures apart to the last bit, and elements by their place', () => {
    const before = new SolvedBefore();
    const lamp = (ohms: number, minus = 0) =>
      circuitOf(3, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01 }],
        resistors: [{ a: 1, b: minus, ohms }],
      });
    const volts = [lamp(1), lamp(1 + Number.EPSILON), lamp(2), lamp(1, 2)].map(
      (circuit) => solveCircuit(circuit, before).resistorAmps[0],
    );
    expect(before.counted).toEqual({ found: 0, solved: 4 });
    expect(volts[2]).toBeCloseTo(12 / 2.01, 12);
    expect(volts[3]).toBe(0);
  });

  it('lets go of what was not asked for longest, and never holds more than its room', () => {
    const vans = Array.from({ length: 30 }, (_, i) => network('tree', 40, i + 1));
    const room = 3000;
    const before = new SolvedBefore(room);
    for (const van of vans) {
      solveCircuit(van, before);
      expect(before.size).toBeLessThanOrEqual(room);
      // The first is asked for all along.
      solveCircuit(vans[0] as Circuit, before);
    }
    expect(before.size).toBeGreaterThan(room / 2);
    expect(before.counted).toEqual({ found: 30, solved: 30 });
    solveCircuit(vans[29] as Circuit, before);
    expect(before.counted.found).toBe(31);
    solveCircuit(vans[1] as Circuit, before);
    expect(before.counted.solved).toBe(31);
    // What would fill most of it by itself is not kept.
    const large = network('tree', 400);
    solveCircuit(large, before);
    solveCircuit(large, before);
    expect(before.counted.solved).toBe(33);
  });
});
