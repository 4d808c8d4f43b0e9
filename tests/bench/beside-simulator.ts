/** The solver side by side with ngspice on the same networks, by the time that the simulator itself reports. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { simulatorVersion } from '../physics/simulator.ts';
import { measure } from './measure.ts';
import { network, type Shape } from './networks.ts';

const nodes = 10_000;

function netlist(circuit: Circuit, control: readonly string[]): string {
  const n = (node: number) => (node === 0 ? '0' : `n${node}`);
  return [
    '* operating point',
    '.options reltol=1e-9 abstol=1e-15 vntol=1e-12',
    ...circuit.resistors.map(({ a, b, ohms }, i) => `R${i} ${n(a)} ${n(b)} ${ohms}`),
    ...circuit.emfs.flatMap(({ plus, minus, volts, ohms }, i) => [
      `V${i} e${i} ${n(minus)} ${volts}`,
      `Rv${i} e${i} ${n(plus)} ${ohms}`,
    ]),
    ...circuit.currents.map(({ plus, minus, amps }, i) => `I${i} ${n(plus)} ${n(minus)} ${amps}`),
    '.control',
    ...control,
    'quit 0',
    '.endc',
    '.end',
    '',
  ].join('\n');
}

/** Each figure is repeated until it has taken the simulator this long by its own report, in milliseconds. */
const least = 500;

/** Times that it reports after each `rusage`, in milliseconds, and the volts of the last node. */
function run(text: string): { times: number[]; volts: number } {
  const folder = mkdtempSync(join(tmpdir(), 'netlist-'));
  try {
    const file = join(folder, 'circuit.cir');
    writeFileSync(file, text);
    const output = execFileSync('ngspice', ['-b', file], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: 1e9,
    });
    const times = [...output.matchAll(/analysis time[^=]*=\s*(\S+)/gi)].map((match) => 1000 * Number(match[1]));
    return { times, volts: Number(/^v\(n\d+\) = (\S+)$/m.exec(output)?.[1]) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Simulated {
  /** Of the first analysis of a process, and of each further one, in milliseconds. */
  readonly first: number;
  readonly further: number;
  readonly volts: number;
}

function simulated(circuit: Circuit): Simulated {
  const last = circuit.nodeCount - 1;
  const ask = (more: number) =>
    run(
      netlist(circuit, [
        'set numdgt=15',
        'op',
        'rusage time',
        `print v(n${last})`,
        `repeat ${more}`,
        'op',
        'end',
        'rusage time',
      ]),
    );
  const firsts: number[] = [];
  let further = Number.NaN;
  let volts = Number.NaN;
  for (let more = 1, asked = 0; ; ) {
    const { times, volts: found } = ask(more);
    const [first = Number.NaN, all = Number.NaN] = times;
    if (!(first > 0 && all > first)) throw new Error('the simulator told no times');
    firsts.push(first);
    volts = found;
    if (Number.isNaN(further) && (all - first >= least || more >= 2000)) further = (all - first) / more;
    asked += first;
    if (asked >= least && !Number.isNaN(further)) break;
    more = Number.isNaN(further) ? Math.ceil((1.3 * least * more) / (all - first)) : 1;
  }
  const sorted = firsts.sort((a, b) => a - b);
  return { first: sorted[Math.floor(sorted.length / 2)] as number, further, volts };
}

export function besideSimulator(): void {
  const version = simulatorVersion();
  if (version === undefined) {
    console.log('ngspice is not on this machine, so nothing is measured beside it (Debian: apt-get install ngspice).');
    return;
  }
  console.log(`Beside ${version}, ${nodes} nodes, constant-current loads: its first analysis, and each further one`);
  for (const shape of ['ladder', 'tree', 'mesh'] as Shape[]) {
    // Of constant power the simulator knows only as an expression, which it takes many times as long for.
    const { powers, ...linear } = network(shape, nodes);
    const currents = powers.map(({ plus, minus, watts }) => ({ plus, minus, amps: watts / 12.8 }));
    const circuit: Circuit = { ...linear, currents, powers: [] };
    const last = circuit.nodeCount - 1;
    const { first, further, volts } = simulated(circuit);
    const ours = measure(() => solveCircuit(circuit)).median;
    const apart = Math.abs((solveCircuit(circuit).volts[last] ?? 0) - volts);
    console.log(
      `  ${shape.padEnd(8)} it ${first.toFixed(1)} and ${further.toFixed(1)} ms, we ${ours.toFixed(2)} ms: ` +
        `${(first / ours).toFixed(1)} and ${(further / ours).toFixed(1)} times faster; wanted 5 and 3; ${apart.toExponential(1)} V apart`,
    );
  }
}
