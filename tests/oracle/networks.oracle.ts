/** The operating point of 500 random networks against that of the circuit simulator ngspice, solved there and then. */
import { beforeAll, describe, expect, it, test } from 'vitest';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { imbalance } from '../physics/circuits.ts';
import { simulateAll, simulatorVersion } from '../physics/simulator.ts';
import { type Network, randomNetworks, reordered, type Strain, timesPower } from './networks.ts';
import { shapes } from './shapes.ts';
import { upperVolts } from './upper.ts';

/** Beside the tolerances: no way round by steps of gmin or of the sources, which may end at the lower answer. */
const options = 'reltol=1e-9 vntol=1e-12 abstol=1e-15 gminsteps=0 srcsteps=0';
const count = 500;
const perProcess = 100;
/** In about one network of 500 rounding keeps the simulator from settling to such tolerances; another order frees it. */
const mostTries = 4;
const networks = randomNetworks(count, 60364).map((network) => ({
  ...network,
  solution: solveCircuit(network.circuit),
  upper: upperVolts(network.circuit) ?? [],
}));
const simulated = new Map<string, number[] | Error>();

function tableOf(all: readonly Network[]): string {
  const strains: Strain[] = ['no constant power', 'constant power', 'near collapse'];
  const rows = shapes.map(({ name }) => [
    name,
    ...strains.map((strain) => all.filter((one) => one.shape.name === name && one.strain === strain).length),
  ]);
  const sums = ['all', ...strains.map((strain) => all.filter((one) => one.strain === strain).length)];
  const range = (of: (one: Network) => number) => {
    const sorted = all.map(of).sort((a, b) => a - b);
    return `${sorted[0]} to ${sorted.at(-1)}, median ${sorted[Math.floor(sorted.length / 2)]}`;
  };
  const line = (cells: readonly (string | number)[]) =>
    cells.map((cell, i) => (i === 0 ? String(cell).padEnd(24) : String(cell).padStart(19))).join('');
  return [
    line(['networks', ...strains]),
    ...[...rows, sums].map(line),
    `meshed: ${all.filter(({ shape }) => shape.meshed).length} of ${all.length}`,
    `above 80 % of collapse: ${all.filter(aboveMostOfCollapse).length} of ${all.length}`,
    `nodes: ${range(({ circuit }) => circuit.nodeCount)}`,
    `batteries: ${range(({ batteries }) => batteries)}`,
    `decades of resistance: ${range((one) => Math.round(decadesOf(one) * 100) / 100)}`,
    `loads of constant current: ${range(({ circuit }) => circuit.currents.length)}`,
    `loads of constant power: ${range(({ circuit }) => circuit.powers.length)}`,
  ].join('\n');
}

/** By substitution, not by the solver: with a quarter more of its constant power nothing is fed. */
function aboveMostOfCollapse({ circuit }: Network): boolean {
  return circuit.powers.length > 0 && upperVolts(timesPower(circuit, 1 / 0.8)) === undefined;
}

function decadesOf({ circuit }: Network): number {
  const ohms = circuit.resistors.map((one) => one.ohms);
  return Math.log10(Math.max(...ohms) / Math.min(...ohms));
}

/** Whether the constant-power loads have the volts of the upper answer. */
function isUpper({ powers }: Circuit, volts: ArrayLike<number>, upper: readonly number[]): boolean {
  return powers.every(({ plus, minus }, k) => {
    const across = (volts[plus] ?? 0) - (volts[minus] ?? 0);
    return Math.abs(across - (upper[k] ?? Number.NaN)) <= 1e-6 * across;
  });
}

/** Asks the simulator, and again in another order of parts where it did not settle; what it then answers stands. */
function simulateNetworks(): void {
  const tried: number[] = [];
  let open = networks;
  for (let round = 0; round < mostTries && open.length > 0; round++) {
    tried.push(open.length);
    for (let from = 0; from < open.length; from += perProcess) {
      const some = open.slice(from, from + perProcess);
      const circuits = some.map(({ circuit }) => (round === 0 ? circuit : reordered(circuit, round)));
      simulateAll(circuits, options).forEach((volts, i) => {
        simulated.set(some[i]?.name ?? '', volts);
      });
    }
    open = open.filter(({ name }) => !Array.isArray(simulated.get(name)));
  }
  console.log(`${simulatorVersion()} was asked for ${tried.join(', then in another order for ')}`);
}

beforeAll(() => {
  console.log(tableOf(networks));
  simulateNetworks();
});

describe('the networks', () => {
  it('are at least a third meshed, and a third above 80 % of collapse', () => {
    expect(networks.length).toBe(count);
    expect(networks.filter(({ shape }) => shape.meshed).length).toBeGreaterThanOrEqual(count / 3);
    const near = networks.filter(aboveMostOfCollapse);
    expect(near.length).toBeGreaterThanOrEqual(count / 3);
    // Near it, and not beyond.
    for (const { name, upper, circuit } of near) expect(upper.length, name).toBe(circuit.powers.length);
  });

  it('have two batteries or more, and resistances over six decades', () => {
    for (const network of networks) {
      expect(network.batteries, network.name).toBeGreaterThanOrEqual(2);
      expect(decadesOf(network), network.name).toBeGreaterThan(6 - 1e-9);
    }
  });
});

describe.each(shapes)('$name', ({ name: shape }) => {
  test.each(networks.filter((one) => one.shape.name === shape))(
    '$name',
    ({ name, circuit, strain, solution, upper }) => {
      expect(solution.converged).toBe(true);
      const { worst, largest } = imbalance(circuit, solution);
      expect(worst).toBeLessThan(1e-9 * largest);
      expect(solution.residual).toBeLessThan(1e-9);

      const expected = simulated.get(name);
      if (!Array.isArray(expected)) throw expected ?? new Error('not simulated');
      const highest = Math.max(...expected.map(Math.abs));
      expect(solution.volts.length).toBe(expected.length);
      expected.forEach((volts, node) => {
        expect(Math.abs((solution.volts[node] ?? Number.NaN) - volts), `node ${node}`).toBeLessThanOrEqual(
          1e-6 * Math.abs(volts) + 1e-9 * highest,
        );
      });

      if (strain === 'no constant power') return;
      expect(circuit.powers.length).toBeGreaterThan(0);
      expect(upper.length).toBe(circuit.powers.length);
      expect(isUpper(circuit, solution.volts, upper), 'the solver has the upper answer').toBe(true);
      expect(isUpper(circuit, expected, upper), 'the simulator has the upper answer').toBe(true);
      // Above 80 % of the most that can be fed: with a quarter more nothing is left.
      if (strain === 'near collapse') expect(upperVolts(timesPower(circuit, 1 / 0.8))).toBeUndefined();
    },
  );
});
