/**
 * An independent reference: the circuit simulator ngspice, as an operating-point analysis of a netlist. Where it is not
 * installed its recorded answers stand in.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Circuit } from '../../server/physics/circuit.ts';
import { denseVolts, labels } from './circuits.ts';

/** Name and version of the simulator on this machine; undefined where there is none. */
export function simulatorVersion(): string | undefined {
  try {
    return /ngspice-\d+\S*/.exec(execFileSync('ngspice', ['--version'], { encoding: 'utf8' }))?.[0];
  } catch {
    return undefined;
  }
}

/** Tolerances of a recording. */
const recorded = 'reltol=1e-10 abstol=1e-12 vntol=1e-12';

/** Node volts of a circuit by the simulator. Throws where it finds no operating point. */
export function simulate(circuit: Circuit): number[] {
  const [volts] = simulateAll([circuit], recorded);
  if (volts instanceof Error) throw volts;
  return volts ?? [];
}

/**
 * Node volts of many circuits by one process of the simulator, under its own options for the tolerances; in place of a
 * circuit's volts stands the error where it finds no operating point.
 */
export function simulateAll(circuits: readonly Circuit[], tolerances: string): (number[] | Error)[] {
  const folder = mkdtempSync(join(tmpdir(), 'netlist-'));
  try {
    const wired = circuits.map((circuit) => topology(circuit));
    // What an earlier circuit left must not stand in for the answer of one that has none.
    const control = circuits.flatMap((circuit, i) => {
      const zero = zeroOf(wired[i] as Topology);
      const names = namesOf(wired[i] as Topology, zero);
      writeFileSync(join(folder, `${i}.cir`), netlistOf(circuit, wired[i] as Topology, tolerances));
      return [
        `source ${i}.cir`,
        'destroy all',
        `echo circuit ${i}`,
        'op',
        ...names.map((n) => `print v(n${n})`),
        'remcirc',
      ];
    });
    const lines = [
      '* operating points',
      '.control',
      'set numdgt=15',
      ...control,
      'echo circuit end',
      'quit 0',
      '.endc',
      '.end',
    ];
    const file = join(folder, 'all.cir');
    writeFileSync(file, `${lines.join('\n')}\n`);
    const output = execFileSync('ngspice', ['-b', file], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      maxBuffer: 2 ** 28,
    });
    return circuits.map((_, i) => {
      const from = output.indexOf(`circuit ${i}\n`);
      const own =
        from < 0 ? '' : output.slice(from, output.indexOf(`circuit ${i + 1 < circuits.length ? i + 1 : 'end'}\n`));
      return voltsOf(wired[i] as Topology, own);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function voltsOf(wired: Topology, output: string): number[] | Error {
  const found = new Map<string, number>();
  for (const [, node = '', volts] of output.matchAll(/^v\((n\d+)\) = (\S+)$/gm)) found.set(node, Number(volts));
  const zero = zeroOf(wired);
  const volts = wired.merged.map((node) => (zero.has(node) ? 0 : (found.get(`n${node}`) ?? Number.NaN)));
  const missing = volts.findIndex((one) => !Number.isFinite(one));
  return missing < 0 ? volts : new Error(`no voltage at node ${missing}:\n${output}`);
}

/**
 * The netlist of a circuit. Nodes joined by links have one name, since a loop of 0 V sources has no answer there. What is
 * piecewise (limited sources, diodes) or of constant power is a current by expression. The simulator starts from the volts
 * without load, so that of the two answers of a constant-power load it finds the upper.
 */
function netlistOf(circuit: Circuit, wired: Topology, tolerances: string): string {
  const { merged, part } = wired;
  const zero = zeroOf(wired);
  const n = (node: number) => (zero.has(merged[node]) ? '0' : `n${merged[node]}`);
  const across = (a: number, b: number) => `(v(${n(a)})-v(${n(b)}))`;
  const sourced = new Set([...circuit.emfs, ...circuit.limited].map(({ plus }) => part[plus]));
  const drawn = ({ plus, minus }: { plus: number; minus: number }) =>
    part[plus] === part[minus] && sourced.has(part[plus]) && merged[plus] !== merged[minus];
  const holding = [...circuit.emfs, ...circuit.limited];
  const unloaded = denseVolts({ ...circuit, currents: [], powers: [], diodes: [], limited: [], emfs: holding }) ?? [];
  const lines = [
    '* operating point',
    `.options ${tolerances} gmin=1e-18 itl1=5000`,
    ...circuit.resistors.map(({ a, b, ohms }, i) => `R${i} ${n(a)} ${n(b)} ${ohms}`),
    // A battery as a current beside its resistance: the nodes that the start holds (.nodeset) and the branches of voltage
    // sources together led the simulator to pivots by which its answers left the current law far behind.
    ...circuit.emfs.flatMap(({ plus, minus, volts, ohms }, i) => [
      `IV${i} ${n(minus)} ${n(plus)} ${volts / ohms}`,
      `RV${i} ${n(plus)} ${n(minus)} ${ohms}`,
    ]),
    ...circuit.limited.map(
      ({ plus, minus, volts, ohms, mostAmps }, i) =>
        `BL${i} ${n(minus)} ${n(plus)} I={min(${mostAmps},max(0,(${volts}-${across(plus, minus)})/${ohms}))}`,
    ),
    ...circuit.diodes.map(
      ({ a, b, volts, ohms }, i) => `BD${i} ${n(a)} ${n(b)} I={max(0,(${across(a, b)}-${volts})/${ohms})}`,
    ),
    ...circuit.currents.filter(drawn).map(({ plus, minus, amps }, i) => `I${i} ${n(plus)} ${n(minus)} ${amps}`),
    ...circuit.powers
      .filter((one) => drawn(one) && one.watts > 0)
      .map(({ plus, minus, watts }, i) => `BP${i} ${n(plus)} ${n(minus)} I={${watts}/${across(plus, minus)}}`),
    ...namesOf(wired, zero).map((node) => `.nodeset v(n${node})=${unloaded[node] ?? 0}`),
    '.end',
  ];
  return `${lines.join('\n')}\n`;
}

/** Nodes joined by links, parts that anything joins, and the node of each part that is 0 V. */
interface Topology {
  readonly merged: readonly number[];
  readonly part: readonly number[];
  readonly grounds: readonly number[];
}

function zeroOf({ merged, grounds }: Topology): ReadonlySet<number | undefined> {
  return new Set(grounds.map((node) => merged[node]));
}

/** Nodes that the simulator has a name for. */
function namesOf({ merged }: Topology, zero: ReadonlySet<number | undefined>): number[] {
  return [...new Set(merged)].filter((node) => !zero.has(node));
}

function topology(circuit: Circuit): Topology {
  const links = circuit.links.map(({ a, b }) => [a, b] as const);
  const merged = labels(circuit.nodeCount, links);
  const part = labels(circuit.nodeCount, [
    ...links,
    ...[...circuit.resistors, ...circuit.diodes].map(({ a, b }) => [a, b] as const),
    ...[...circuit.emfs, ...circuit.limited].map(({ plus, minus }) => [plus, minus] as const),
  ]);
  const grounds = new Map<number, number>();
  for (const node of [...circuit.references, ...merged])
    if (!grounds.has(part[node] ?? 0)) grounds.set(part[node] ?? 0, node);
  return { merged, part, grounds: [...grounds.values()] };
}
