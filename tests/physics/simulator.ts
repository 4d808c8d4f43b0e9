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

/** Node volts of a circuit by the simulator. Throws where it finds no operating point. */
export function simulate(circuit: Circuit): number[] {
  const folder = mkdtempSync(join(tmpdir(), 'netlist-'));
  try {
    const file = join(folder, 'circuit.cir');
    writeFileSync(file, netlistOf(circuit));
    const output = execFileSync('ngspice', ['-b', file], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
    const found = new Map<string, number>();
    for (const [, node = '', volts] of output.matchAll(/^v\((n\d+)\) = (\S+)$/gm)) found.set(node, Number(volts));
    const { merged, grounds } = topology(circuit);
    const zero = new Set(grounds.map((node) => merged[node]));
    return merged.map((node, i) => {
      const volts = zero.has(node) ? 0 : found.get(`n${node}`);
      if (volts === undefined || !Number.isFinite(volts)) throw new Error(`no voltage at node ${i}:\n${output}`);
      return volts;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * The netlist of a circuit. Nodes joined by links have one name, since a loop of 0 V sources has no answer there. What is
 * piecewise (limited sources, diodes) or of constant power is a current by expression. The simulator starts from the volts
 * without load, so that of the two answers of a constant-power load it finds the upper.
 */
function netlistOf(circuit: Circuit): string {
  const { merged, part, grounds } = topology(circuit);
  const zero = new Set(grounds.map((node) => merged[node]));
  const n = (node: number) => (zero.has(merged[node]) ? '0' : `n${merged[node]}`);
  const across = (a: number, b: number) => `(v(${n(a)})-v(${n(b)}))`;
  const sourced = new Set([...circuit.emfs, ...circuit.limited].map(({ plus }) => part[plus]));
  const drawn = ({ plus, minus }: { plus: number; minus: number }) =>
    part[plus] === part[minus] && sourced.has(part[plus]) && merged[plus] !== merged[minus];
  const unloaded = denseVolts({ ...circuit, currents: [], powers: [], diodes: [], limited: [] }) ?? [];
  const names = [...new Set(merged)].filter((node) => !zero.has(node));
  const lines = [
    '* operating point',
    '.options reltol=1e-10 abstol=1e-12 vntol=1e-12 gmin=1e-18 itl1=5000',
    ...circuit.resistors.map(({ a, b, ohms }, i) => `R${i} ${n(a)} ${n(b)} ${ohms}`),
    ...circuit.emfs.flatMap(({ plus, minus, volts, ohms }, i) => [
      `V${i} e${i} ${n(minus)} ${volts}`,
      `Rv${i} e${i} ${n(plus)} ${ohms}`,
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
    ...names.map((node) => `.nodeset v(n${node})=${unloaded[node] ?? 0}`),
    '.control',
    'set numdgt=15',
    'op',
    ...names.map((node) => `print v(n${node})`),
    'quit 0',
    '.endc',
    '.end',
  ];
  return `${lines.join('\n')}\n`;
}

/** Nodes joined by links, parts that anything joins, and the node of each part that is 0 V. */
function topology(circuit: Circuit): { merged: number[]; part: number[]; grounds: number[] } {
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
