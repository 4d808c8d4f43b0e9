/**
 * Node volts against an outside reference, the circuit simulator ngspice: always against its recorded answers, and where it
 * is installed against itself as well. RECORD_SIMULATOR=1 makes the recordings anew.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeEach, describe, expect, it, test, vi } from 'vitest';
import type { OperatingPoint } from '../../server/answers/operating-points.ts';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { elementwise } from '../../server/physics/topology.ts';
import { analyseText } from '../analysed.ts';
import { linearCircuits, poweredCircuits } from './circuits.ts';
import { simulate, simulatorVersion } from './simulator.ts';

/** What analysing a sample solved last for each of its cases. */
const solved = vi.hoisted(() => ({ circuit: undefined as unknown, points: new Map<string, unknown>() }));

vi.mock('../../server/physics/solve.ts', async (original) => {
  const real = await original<typeof import('../../server/physics/solve.ts')>();
  return {
    ...real,
    CircuitSolver: class extends real.CircuitSolver {
      override solve(figures: Float64Array) {
        solved.circuit = elementwise({ topology: this.topology, figures });
        return super.solve(figures);
      }
    },
  };
});

vi.mock('../../server/answers/operating-points.ts', async (original) => {
  const real = await original<typeof import('../../server/answers/operating-points.ts')>();
  return {
    ...real,
    operatingPoint(...given: Parameters<typeof real.operatingPoint>): OperatingPoint {
      const point = real.operatingPoint(...given);
      if (given[3] === 'actual') solved.points.set(point.stated.name, solved.circuit);
      return point;
    },
  };
});

interface Recorded {
  readonly name: string;
  readonly circuit: Circuit;
  readonly volts: readonly number[];
}

interface Recording {
  readonly simulator: string;
  readonly analysis: string;
  readonly circuits: readonly Recorded[];
}

const folder = new URL('../reference/ngspice/', import.meta.url);
const samplesFolder = new URL('../../samples/', import.meta.url);
const version = simulatorVersion();

function readSamples(): Readonly<Record<string, string>> {
  const names = readdirSync(samplesFolder).filter((name) => name.endsWith('.amps'));
  return Object.fromEntries(names.map((name) => [name, readFileSync(new URL(name, samplesFolder), 'utf8')]));
}

/** The circuit of each case of a sample, as it was solved last. */
function casesOf(sample: string): { name: string; circuit: Circuit; volts: Float64Array }[] {
  solved.points.clear();
  const files = readSamples();
  const { answers } = analyseText(files[sample] ?? '', files);
  return answers.cases
    .filter(({ converged }) => converged)
    .map(({ name }) => {
      const circuit = solved.points.get(name) as Circuit | undefined;
      if (circuit === undefined) throw new Error(`no circuit was captured of case ${name}`);
      return { name, circuit, volts: solveCircuit(circuit).volts };
    });
}

/** Thirty networks: linear, of constant power, near their collapse, and with diodes and limited sources. */
function randomNetworks(): { name: string; circuit: Circuit }[] {
  const named = (what: string, circuits: readonly Circuit[]) =>
    circuits.map((circuit, i) => ({ name: `${what} ${i + 1}`, circuit }));
  const linear = fc.sample(linearCircuits, { seed: 60364, numRuns: 10 });
  const powered = fc.sample(poweredCircuits, { seed: 60228, numRuns: 8 });
  const strained = fc.sample(poweredCircuits, { seed: 60947, numRuns: 16 }).flatMap((circuit) => {
    const times = (factor: number) => ({
      ...circuit,
      powers: circuit.powers.map((one) => ({ ...one, watts: (one.watts + 1) * factor })),
    });
    // 85 % of what they can be fed at most.
    const { feedable = 0 } = solveCircuit(times(1000)).collapses[0] ?? {};
    return feedable === 0 ? [] : [times(1000 * feedable * 0.85)];
  });
  const switched = fc.sample(poweredCircuits, { seed: 60050, numRuns: 6 }).map((circuit, i) => ({
    ...circuit,
    diodes: [{ a: 1, b: circuit.nodeCount, volts: 0.7, ohms: 0.01 }],
    nodeCount: circuit.nodeCount + 1,
    resistors: [...circuit.resistors, { a: circuit.nodeCount, b: 0, ohms: 0.5 + i }],
    limited: [{ plus: 1, minus: 0, volts: 13.8 - 0.4 * i, ohms: 0.01, mostAmps: 4 * (i + 1) }],
  }));
  return [
    ...named('linear', linear),
    ...named('constant power', powered),
    ...named('near collapse', strained.slice(0, 6)),
    ...named('diode and limited source', switched),
  ];
}

function expectSame(found: ArrayLike<number>, expected: ArrayLike<number>): void {
  expect(found.length).toBe(expected.length);
  const largest = Math.max(1, ...Array.from(expected, Math.abs));
  Array.from(expected).forEach((volts, node) => {
    expect(Math.abs((found[node] ?? Number.NaN) - volts), `node ${node}`).toBeLessThanOrEqual(
      1e-6 * Math.abs(volts) + 1e-9 * largest,
    );
  });
}

function record(file: string, circuits: readonly { name: string; circuit: Circuit }[]): void {
  const recording: Recording = {
    simulator: version ?? '',
    analysis: 'op with reltol=1e-10 vntol=1e-12 abstol=1e-12, from the volts without load',
    circuits: circuits.map(({ name, circuit }) => ({ name, circuit, volts: simulate(circuit) })),
  };
  mkdirSync(folder, { recursive: true });
  const { circuits: all, ...head } = recording;
  const lines = all.map((one) => JSON.stringify(one));
  writeFileSync(new URL(file, folder), `${JSON.stringify(head).slice(0, -1)},"circuits":[\n${lines.join(',\n')}\n]}\n`);
}

const samples = Object.keys(readSamples()).filter((name) => /^(system|battery) /m.test(readSamples()[name] ?? ''));

if (process.env.RECORD_SIMULATOR === '1') {
  record('random-networks.json', randomNetworks());
  for (const name of samples) record(name.replace('.amps', '.json'), casesOf(name));
}

const recordings = readdirSync(folder).map((file) => ({
  file,
  ...(JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Recording),
}));

beforeEach(() => {
  solved.points.clear();
});

describe.each(recordings)('recorded by $simulator: $file', ({ simulator, circuits }) => {
  it('says what made it', () => {
    expect(simulator).toMatch(/^ngspice-\d+/);
    expect(circuits.length).toBeGreaterThan(0);
  });

  test.each(circuits)('$name', ({ circuit, volts }) => {
    const solution = solveCircuit(circuit);
    expect(solution.converged).toBe(true);
    expectSame(solution.volts, volts);
  });
});

it('recorded are thirty random networks, and every sample', () => {
  const byFile = new Map(recordings.map(({ file, circuits }) => [file, circuits]));
  expect(byFile.get('random-networks.json')?.length).toBe(30);
  for (const name of samples) expect(byFile.get(name.replace('.amps', '.json'))?.length).toBeGreaterThan(0);
});

describe('the simulator on this machine', () => {
  const live = version === undefined ? [] : randomNetworks();

  it(version === undefined ? 'is not installed: its recordings stand in' : `is ${version}`, () => {
    expect(live.length).toBe(version === undefined ? 0 : 30);
  });

  for (const { name, circuit } of live)
    it(`agrees on ${name}`, () => {
      expectSame(solveCircuit(circuit).volts, simulate(circuit));
    });

  for (const sample of version === undefined ? [] : samples)
    it(`agrees on every case of ${sample}`, () => {
      const cases = casesOf(sample);
      expect(cases.length).toBeGreaterThan(0);
      // What is captured is a circuit of this sample, and not one left over.
      const { answers } = analyseText(readSamples()[sample] ?? '', readSamples());
      expect(cases.map(({ name }) => name)).toEqual(answers.cases.flatMap((one) => (one.converged ? [one.name] : [])));
      for (const { circuit } of cases) expect(circuit.nodeCount).toBe(cases[0]?.circuit.nodeCount);
      for (const { circuit, volts } of cases) expectSame(volts, simulate(circuit));
    });
});
