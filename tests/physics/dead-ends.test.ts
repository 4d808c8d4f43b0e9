/** Conductors that lead nowhere carry nothing, and have no part in what the others do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { SolvedBefore } from '../../server/physics/solved-before.ts';
import { circuitOf, poweredCircuits } from './circuits.ts';

interface Twig {
  readonly on: number;
  /** None for a link. */
  readonly ohms: number | undefined;
}

const twigs = fc.array(
  fc.record({ on: fc.nat(), ohms: fc.option(fc.double({ min: 1e-3, max: 10, noNaN: true }), { nil: undefined }) }),
  { minLength: 1, maxLength: 12 },
);

/** The circuit with twigs on its nodes and on one another, and what each hangs on. */
function withTwigs(circuit: Circuit, grown: readonly Twig[]): { circuit: Circuit; hangsOn: number[] } {
  const [resistors, links, hangsOn] = [[...circuit.resistors], [...circuit.links], [] as number[]];
  grown.forEach(({ on, ohms }, i) => {
    const [a, b] = [on % (circuit.nodeCount + i), circuit.nodeCount + i];
    hangsOn.push(a);
    if (ohms === undefined) links.push({ a: b, b: a });
    else resistors.push({ a, b, ohms });
  });
  return { circuit: { ...circuit, nodeCount: circuit.nodeCount + grown.length, resistors, links }, hangsOn };
}

describe('dead ends', () => {
  it('carry nothing, lie at the voltage of what they hang on, and change no other', () => {
    fc.assert(
      fc.property(poweredCircuits, twigs, (bare, grown) => {
        const { circuit, hangsOn } = withTwigs(bare, grown);
        const expected = solveCircuit(bare);
        const found = solveCircuit(circuit);
        expect([found.converged, found.trouble]).toEqual([expected.converged, expected.trouble]);
        const most = Math.max(1, ...expected.volts.map(Math.abs));
        expected.volts.forEach((volts, node) => {
          expect(Math.abs((found.volts[node] ?? Number.NaN) - volts)).toBeLessThanOrEqual(1e-9 * most);
        });
        hangsOn.forEach((node, i) => {
          expect(found.volts[bare.nodeCount + i]).toBe(found.volts[node]);
        });
        const own = [
          ...found.resistorAmps.subarray(bare.resistors.length),
          ...found.linkAmps.subarray(bare.links.length),
        ];
        expect(own.every((amps) => amps === 0)).toBe(true);
        expect(found.linkAssumed.slice(bare.links.length)).not.toContain(true);
      }),
    );
  });

  it('may be as long as they like: what was solved before is found', () => {
    const lamp = (ohms: number, switched: boolean) =>
      circuitOf(5, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.01 }],
        resistors: [
          { a: 1, b: 2, ohms: 0.02 },
          { a: 2, b: 3, ohms },
        ],
        links: switched ? [{ a: 3, b: 4 }] : [],
        powers: [
          { plus: 2, minus: 0, watts: 24 },
          { plus: 4, minus: 0, watts: 12 },
        ],
      });
    const before = new SolvedBefore();
    solveCircuit(lamp(0.05, false), before);
    const { solved } = before.counted;
    solveCircuit(lamp(0.06, false), before);
    expect(before.counted.solved).toBe(solved);
    solveCircuit(lamp(0.06, true), before);
    expect(before.counted.solved).toBe(solved + 1);
  });

  it('end at what is 0 V, and where there is nothing else there is nothing', () => {
    const { volts, resistorAmps, converged } = solveCircuit(
      circuitOf(3, {
        resistors: [
          { a: 0, b: 1, ohms: 1 },
          { a: 1, b: 2, ohms: 1 },
        ],
      }),
    );
    expect([converged, [...volts], [...resistorAmps]]).toEqual([true, [0, 0, 0], [0, 0]]);
  });
});
