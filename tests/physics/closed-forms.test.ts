/** Circuits whose answers are known: by formula, and from textbooks. */
import { describe, expect, it, test } from 'vitest';
import { solveCircuit } from '../../server/physics/solve.ts';
import { workedExample } from '../reference/read.ts';
import { circuitOf } from './circuits.ts';

const battery = { plus: 1, minus: 0, volts: 12, ohms: 0.01 };

describe('resistances', () => {
  test.each([[[1]], [[1, 2]], [[0.001, 1000]], [[0.5, 0.25, 4, 8, 0.01]]])('%j Ω in series add up', (ohms) => {
    const found = solveCircuit(
      circuitOf(ohms.length + 1, {
        emfs: [battery],
        resistors: ohms.map((value, i) => ({ a: i + 1, b: i + 1 === ohms.length ? 0 : i + 2, ohms: value })),
      }),
    );
    const amps = 12 / (0.01 + ohms.reduce((sum, value) => sum + value, 0));
    for (const value of found.resistorAmps) expect(value / amps).toBeCloseTo(1, 9);
    expect((found.emfAmps[0] ?? 0) / amps).toBeCloseTo(1, 9);
  });

  test.each([[[1]], [[1, 2]], [[0.001, 1000]], [[0.5, 0.25, 4, 8, 0.01]]])('%j Ω in parallel share by 1/R', (ohms) => {
    const found = solveCircuit(
      circuitOf(2, { emfs: [battery], resistors: ohms.map((value) => ({ a: 1, b: 0, ohms: value })) }),
    );
    const siemens = ohms.reduce((sum, value) => sum + 1 / value, 0);
    const volts = 12 / (1 + 0.01 * siemens);
    expect(found.volts[1]).toBeCloseTo(volts, 11);
    ohms.forEach((value, i) => {
      expect((found.resistorAmps[i] ?? 0) / (volts / value)).toBeCloseTo(1, 10);
    });
  });

  it('divide a voltage, loaded and not', () => {
    const divider = (load: number | undefined) =>
      solveCircuit(
        circuitOf(3, {
          emfs: [{ ...battery, ohms: 1e-6 }],
          resistors: [
            { a: 1, b: 2, ohms: 1000 },
            { a: 2, b: 0, ohms: 3000 },
            ...(load === undefined ? [] : [{ a: 2, b: 0, ohms: load }]),
          ],
        }),
      ).volts[2];
    expect(divider(undefined)).toBeCloseTo(9, 7);
    expect(divider(1500)).toBeCloseTo(6, 7);
  });

  test.each([1, 5, 20])('in a ladder of %d equal steps follow the Fibonacci numbers', (steps) => {
    // Each step is 1 Ω along and 1 Ω across.
    const found = solveCircuit(
      circuitOf(steps + 2, {
        emfs: [{ ...battery, ohms: 1 }],
        resistors: Array.from({ length: steps }, (_, i) => [
          { a: i + 1, b: i + 2, ohms: 1 },
          { a: i + 2, b: 0, ohms: 1 },
        ]).flat(),
      }),
    );
    const fibonacci = [0, 1];
    for (let i = 2; i <= 2 * steps + 3; i++) fibonacci.push((fibonacci[i - 1] ?? 0) + (fibonacci[i - 2] ?? 0));
    // R(n) = F(2n + 1)/F(2n); with the battery's 1 Ω before it.
    const ohms = (fibonacci[2 * steps + 1] ?? 0) / (fibonacci[2 * steps] ?? 1);
    expect(found.emfAmps[0]).toBeCloseTo(12 / (1 + ohms), 11);
  });

  test.each([
    [100, 200, 50, 100],
    [3, 4, 6, 8],
  ])('%d, %d over %d, %d Ω balance a Wheatstone bridge', (r1, r2, r3, r4) => {
    const found = solveCircuit(
      circuitOf(4, {
        emfs: [battery],
        resistors: [
          { a: 1, b: 2, ohms: r1 },
          { a: 2, b: 0, ohms: r2 },
          { a: 1, b: 3, ohms: r3 },
          { a: 3, b: 0, ohms: r4 },
          { a: 2, b: 3, ohms: 7 },
        ],
      }),
    );
    expect(found.resistorAmps[4]).toBeCloseTo(0, 12);
    expect(found.resistorAmps[0]).toBeCloseTo((found.volts[1] ?? 0) / (r1 + r2), 12);
  });

  it('of a cube along its edges: 5/6 Ω across it', () => {
    const edges: { a: number; b: number; ohms: number }[] = [];
    for (let corner = 0; corner < 8; corner++)
      for (const bit of [1, 2, 4]) if ((corner & bit) === 0) edges.push({ a: corner, b: corner | bit, ohms: 1 });
    const found = solveCircuit(circuitOf(8, { emfs: [{ plus: 7, minus: 0, volts: 11, ohms: 1 }], resistors: edges }));
    expect(found.emfAmps[0]).toBeCloseTo(6, 12);
    // A third and a sixth of it along the edges.
    expect([...found.resistorAmps].map((amps) => Math.round(Math.abs(amps) * 1e9) / 1e9).sort()).toEqual([
      ...new Array(6).fill(1),
      ...new Array(6).fill(2),
    ]);
  });
});

describe('sources', () => {
  test.each([
    [12.6, 0.01, 12.6, 0.01, 20],
    [12.8, 0.01, 12.2, 0.02, 30],
    [13, 0.005, 11.8, 0.02, 0],
  ])('%d V behind %d Ω beside %d V behind %d Ω, %d A drawn', (e1, r1, e2, r2, amps) => {
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [
          { plus: 1, minus: 0, volts: e1, ohms: r1 },
          { plus: 1, minus: 0, volts: e2, ohms: r2 },
        ],
        currents: [{ plus: 1, minus: 0, amps }],
      }),
    );
    const volts = (e1 / r1 + e2 / r2 - amps) / (1 / r1 + 1 / r2);
    expect(found.volts[1]).toBeCloseTo(volts, 11);
    expect([...found.emfAmps]).toEqual([(e1 - volts) / r1, (e2 - volts) / r2].map((a) => expect.closeTo(a, 8)));
  });

  it('in series add up, and a centre tap is 0 V where it is the reference', () => {
    const found = solveCircuit(
      circuitOf(3, {
        emfs: [
          { plus: 1, minus: 0, volts: 12, ohms: 0.01 },
          { plus: 2, minus: 1, volts: 12, ohms: 0.01 },
        ],
        resistors: [{ a: 2, b: 0, ohms: 2.38 }],
        references: [1],
      }),
    );
    expect([...found.volts]).toEqual([-11.9, 0, 11.9].map((volts) => expect.closeTo(volts, 12)));
  });
});

describe('a load of constant power', () => {
  // V = (E + √(E² − 4 R P))/2, up to P = E²/(4 R).
  test.each([
    [12, 0.1, 0],
    [12, 0.1, 100],
    [12, 0.1, 300],
    [12, 0.1, 359.9],
    [12, 0.1, 359.9999],
    [24, 0.5, 287],
    [12.8, 0.005, 2000],
    [48, 0.02, 5000],
  ])('%d V behind %d Ω, %d W', (emf, ohms, watts) => {
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [{ plus: 1, minus: 0, volts: emf, ohms }],
        powers: [{ plus: 1, minus: 0, watts }],
      }),
    );
    const volts = (emf + Math.sqrt(emf * emf - 4 * ohms * watts)) / 2;
    expect(found.converged).toBe(true);
    // Close to the edge the root magnifies what rounding does to P.
    expect(found.volts[1]).toBeCloseTo(volts, watts > 359.99 ? 6 : 10);
    expect(found.powerAmps[0]).toBeCloseTo(watts / volts, watts > 359.99 ? 4 : 8);
  });

  test.each([
    [12, 0.1, 360.1],
    [12, 0.1, 400],
    [12, 0.1, 1e6],
    [12.8, 0.005, 8200],
  ])('%d V behind %d Ω cannot feed %d W, more than E²/(4 R)', (emf, ohms, watts) => {
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [{ plus: 1, minus: 0, volts: emf, ohms }],
        powers: [{ plus: 1, minus: 0, watts }],
      }),
    );
    expect([found.converged, found.trouble]).toEqual([false, 'collapse']);
    const share = (emf * emf) / (4 * ohms) / watts;
    expect(found.collapses).toEqual([
      { powers: [0], feedable: expect.any(Number), weak: [0], weakFeedable: found.collapses[0]?.feedable },
    ]);
    expect((found.collapses[0]?.feedable ?? 0) / share).toBeLessThan(1 + 1e-9);
    expect((found.collapses[0]?.feedable ?? 0) / share).toBeGreaterThan(1 - 1e-7);
    // No figure stands where there is no answer.
    expect([...found.volts, ...found.powerAmps, ...found.emfAmps].every((figure) => figure === 0)).toBe(true);
  });

  it('gets most where its voltage is half', () => {
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [{ plus: 1, minus: 0, volts: 12, ohms: 0.1 }],
        powers: [{ plus: 1, minus: 0, watts: 360 * (1 - 1e-8) }],
      }),
    );
    expect(found.converged).toBe(true);
    expect(found.volts[1]).toBeCloseTo(6, 2);
  });

  it('out and back counts both ways', () => {
    // 12 V, 10 mΩ inside, 40 mΩ out, 50 mΩ back: 0.1 Ω in all.
    const found = solveCircuit(
      circuitOf(4, {
        emfs: [battery],
        resistors: [
          { a: 1, b: 2, ohms: 0.04 },
          { a: 3, b: 0, ohms: 0.05 },
        ],
        powers: [{ plus: 2, minus: 3, watts: 200 }],
      }),
    );
    const volts = (12 + Math.sqrt(144 - 80)) / 2;
    expect((found.volts[2] ?? 0) - (found.volts[3] ?? 0)).toBeCloseTo(volts, 11);
    expect(found.volts[3]).toBeCloseTo((200 / volts) * 0.05, 11);
  });

  it('the wrong way round has no answer', () => {
    const found = solveCircuit(circuitOf(2, { emfs: [battery], powers: [{ plus: 0, minus: 1, watts: 10 }] }));
    expect([found.converged, found.collapses]).toEqual([
      false,
      [{ powers: [0], feedable: 0, weak: [0], weakFeedable: 0 }],
    ]);
  });
});

describe('textbook circuits', () => {
  it('two batteries in parallel on one load (U.P.T.U. examination, July 2002)', () => {
    const { inputs } = workedExample('CI1');
    const [one, other] = inputs.emfs.map((volts: number, i: number) => ({
      plus: 1,
      minus: 0,
      volts,
      ohms: inputs.internalOhms[i],
    }));
    const { emfAmps, resistorAmps } = solveCircuit(
      circuitOf(2, { emfs: [one, other], resistors: [{ a: 1, b: 0, ohms: inputs.loadOhms }] }),
    );
    const [i1 = 0, i2 = 0] = emfAmps;
    // The two printed equations, and their solution.
    expect(2 * i1 - 4 * i2).toBeCloseTo(-4, 11);
    expect(4 * i2 + 6 * (i1 + i2)).toBeCloseTo(44, 11);
    expect([i1, i2, resistorAmps[0]]).toEqual([34 / 11, 28 / 11, 62 / 11].map((amps) => expect.closeTo(amps, 11)));
  });

  it('a network of five resistors on 13 V (Young and Freedman, example 26.6): 6 A, 5 A, −1 A', () => {
    const { inputs, answer } = workedExample('CI2');
    const { R1, R2, R3, R4, R5 } = inputs.ohms;
    // R1 then R3 on the left, R2 then R4 on the right, R5 between their middles.
    const found = solveCircuit(
      circuitOf(4, {
        emfs: [{ plus: 1, minus: 0, volts: inputs.volts, ohms: 1e-9 }],
        resistors: [
          { a: 1, b: 2, ohms: R1 },
          { a: 1, b: 3, ohms: R2 },
          { a: 2, b: 0, ohms: R3 },
          { a: 3, b: 0, ohms: R4 },
          { a: 2, b: 3, ohms: R5 },
        ],
      }),
    );
    expect([found.resistorAmps[0], found.resistorAmps[1], found.resistorAmps[4]]).toEqual(
      [answer.I1, answer.I2, answer.I3].map((amps) => expect.closeTo(amps, 6)),
    );
  });

  it('a bridge behind a resistance (mesh analysis exercise): 0.659 A, 2.64 W', () => {
    const { inputs, answer } = workedExample('CI3');
    const { topLeft, topRight, bottomLeft, bottomRight, middle } = inputs.ohms;
    const { emfAmps } = solveCircuit(
      circuitOf(4, {
        emfs: [{ plus: 1, minus: 0, volts: inputs.volts, ohms: inputs.seriesOhms }],
        resistors: [
          { a: 1, b: 2, ohms: topLeft },
          { a: 2, b: 0, ohms: bottomLeft },
          { a: 1, b: 3, ohms: topRight },
          { a: 3, b: 0, ohms: bottomRight },
          { a: 2, b: 3, ohms: middle },
        ],
      }),
    );
    expect(emfAmps[0]).toBeCloseTo(14060 / 21349, 9);
    expect(emfAmps[0]).toBeCloseTo(answer.sourceAmps, 3);
    expect(inputs.volts * (emfAmps[0] ?? 0)).toBeCloseTo(answer.watts, 1);
  });

  it('jumper cables (Serway, from memory): 171 A to the starter, 0.283 A into the flat battery', () => {
    const { inputs, answer } = workedExample('CI4');
    const found = solveCircuit(
      circuitOf(2, {
        emfs: [
          { plus: 1, minus: 0, volts: inputs.liveVolts, ohms: inputs.liveOhms },
          { plus: 1, minus: 0, volts: inputs.deadVolts, ohms: inputs.deadOhms },
        ],
        resistors: [{ a: 1, b: 0, ohms: inputs.starterOhms }],
      }),
    );
    expect(found.resistorAmps[0]).toBeCloseTo(answer.starterAmps, 0);
    expect(found.emfAmps[1]).toBeCloseTo(-answer.deadAmps, 3);
  });
});
