/** What the solver costs: operating points, how they grow, asking again after an edit, and all short circuits of a network. */
import type { Circuit } from '../../server/physics/circuit.ts';
import { eliminationOrder, graphOf } from '../../server/physics/elimination-order.ts';
import { prospectiveAmps } from '../../server/physics/faults.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { SolvedBefore } from '../../server/physics/solved-before.ts';
import {
  inOrder,
  refactor,
  SymmetricEntries,
  solveFactored,
  structureOf,
  upperValues,
} from '../../server/physics/sparse.ts';
import { measure, told } from './measure.ts';
import { network, type Shape } from './networks.ts';
import { peakMemory } from './peak-memory.ts';

export function engine(): void {
  operatingPoints();
  growth();
  askingAgain();
  shortCircuits();
  orders();
}

function operatingPoints(): void {
  console.log('Operating point of networks with constant-power loads');
  const wanted: Readonly<Record<string, number>> = { 'tree 1000': 1.5, 'tree 10000': 15 };
  for (const shape of ['tree', 'ladder', 'mesh'] as Shape[])
    for (const nodes of [1000, 10_000, 100_000]) {
      if (shape === 'mesh' && nodes > 10_000) continue;
      const circuit = network(shape, nodes);
      const solution = solveCircuit(circuit);
      if (!solution.converged) throw new Error(`${shape} ${nodes} was not solved`);
      const name = `${shape} ${nodes}`;
      const time = told(
        `  ${name} nodes`,
        measure(() => solveCircuit(circuit)),
        wanted[name],
      );
      console.log(`${time}  residual ${solution.residual.toExponential(1)} A per ampere`);
    }
}

const sizes = [1000, 3000, 10_000, 30_000, 100_000] as const;

/**
 * The power of the number of nodes that time grows with, by least squares over their logarithms. Time is the
 * processor's; a tenth of a power more than n log n is what caches take of it, which a large network does not fit into.
 */
function growth(): void {
  console.log('Growth from 1000 to 100000 nodes');
  const most = exponent(sizes.map((nodes) => nodes * Math.log2(nodes)));
  for (const shape of ['tree', 'ladder'] as Shape[]) {
    const times = sizes.map((nodes) => {
      const circuit = network(shape, nodes);
      return measure(() => solveCircuit(circuit)).leastProcessor;
    });
    const time = exponent(times);
    console.log(
      `  ${shape.padEnd(8)} time as n^${time.toFixed(2)}, n log n is n^${most.toFixed(2)}: ${time <= most + 0.1 ? 'yes' : 'NO'}; ${memoryTold(shape)}`,
    );
  }
}

/**
 * Linear is what grows by no more a node from 200 000 to 400 000 than from 100 000; below that the program itself is most of it.
 * When garbage is cleared is chance, so the least of several runs counts.
 */
function memoryTold(shape: Shape): string {
  const [small, middle, large] = [100_000, 200_000, 400_000] as const;
  const peak = (nodes: number) => Math.min(...[1, 2, 3].map(() => peakMemory(shape, nodes)));
  const [first, second, third] = [peak(small), peak(middle), peak(large)];
  const [before, after] = [(second - first) / (middle - small), (third - second) / (large - middle)];
  return `memory grows by ${before.toFixed(0)}, then by ${after.toFixed(0)} bytes a node: ${after <= 1.2 * before ? 'linear' : 'MORE THAN LINEAR'}`;
}

function exponent(values: readonly number[]): number {
  const points = values.map((value, i) => [Math.log(sizes[i] as number), Math.log(value)] as const);
  const mean = (of: 0 | 1) => points.reduce((sum, point) => sum + point[of], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const sum = (of: (point: readonly [number, number]) => number) => points.reduce((all, point) => all + of(point), 0);
  return sum(([a, b]) => (a - x) * (b - y)) / sum(([a]) => (a - x) ** 2);
}

/** After one length, that is one resistance, has changed. */
function askingAgain(): void {
  console.log('Asking again after one length of 1000 nodes has changed');
  const lengthened = (circuit: Circuit, turn: number): Circuit => {
    const resistors = circuit.resistors.slice();
    const at = (turn * 7919) % resistors.length;
    const one = resistors[at] as Circuit['resistors'][number];
    resistors[at] = { ...one, ohms: one.ohms * (1 + turn / 1e6) };
    return { ...circuit, resistors };
  };
  const again = (name: string, circuit: Circuit, wanted: number) => {
    const before = new SolvedBefore();
    solveCircuit(circuit, before);
    let turn = 0;
    const time = measure(() => {
      turn += 1;
      solveCircuit(lengthened(circuit, turn), before);
    });
    const { found, solved } = before.counted;
    const share = `${(found / turn).toFixed(0)} islands found and ${((solved - 1) / turn).toFixed(0)} solved an edit`;
    console.log(`${told(name, time, wanted)}  ${share}`);
  };
  again('  one island', network('tree', 1000), 1);
  again('  ten islands', sideBySide(10, 100), 1);
  const circuit = network('tree', 1000);
  const before = new SolvedBefore();
  console.log(
    told(
      '  nothing changed',
      measure(() => solveCircuit(circuit, before)),
    ),
  );
}

function sideBySide(count: number, nodes: number): Circuit {
  const parts = Array.from({ length: count }, (_, i) => ({ ...network('tree', nodes, i + 1), from: i * nodes }));
  return {
    ...network('tree', nodes),
    nodeCount: count * nodes,
    resistors: parts.flatMap(({ resistors, from }) =>
      resistors.map(({ a, b, ohms }) => ({ a: a + from, b: b + from, ohms })),
    ),
    emfs: parts.flatMap(({ emfs, from }) =>
      emfs.map(({ plus, minus, ...rest }) => ({ plus: plus + from, minus: minus + from, ...rest })),
    ),
    powers: parts.flatMap(({ powers, from }) =>
      powers.map(({ plus, minus, watts }) => ({ plus: plus + from, minus: minus + from, watts })),
    ),
    references: parts.map(({ from }) => from),
  };
}

/** With a second battery, two chargers that limit their current, and a diode. */
function shortCircuits(): void {
  console.log('All prospective currents of 1000 nodes, two batteries, two chargers and a diode');
  for (const shape of ['tree', 'mesh'] as Shape[]) {
    const { powers: _, ...plain } = network(shape, 1000);
    const circuit: Circuit = {
      ...plain,
      powers: [],
      emfs: [...plain.emfs, { plus: 500, minus: 0, volts: 12.6, ohms: 0.01 }],
      limited: [
        { plus: 900, minus: 0, volts: 14.4, ohms: 0.01, mostAmps: 30 },
        { plus: 300, minus: 0, volts: 14.4, ohms: 0.01, mostAmps: 15 },
      ],
      diodes: [{ a: 100, b: 700, volts: 0.7, ohms: 0.001 }],
    };
    const places = Array.from({ length: circuit.nodeCount - 1 }, (_, i) => ({ a: i + 1, b: 0 }));
    if (!prospectiveAmps(circuit, places).every((amps) => amps > 0)) throw new Error('a fault without a current');
    console.log(
      told(
        `  ${shape}`,
        measure(() => prospectiveAmps(circuit, places)),
        50,
      ),
    );
  }
}

/** One factorisation and solution, in the order that is used and in the one that the nodes come in: why there is an order. */
function orders(): void {
  console.log('One factorisation and solution of 1000 nodes, by order: ours, once it is known; ours, worked out; none');
  for (const shape of ['tree', 'mesh'] as Shape[]) {
    const circuit = network(shape, 1000);
    const entries = new SymmetricEntries(circuit.nodeCount - 1);
    for (const { a, b, ohms } of circuit.resistors) {
      entries.addDiagonal(a - 1, 1 / ohms);
      entries.addDiagonal(b - 1, 1 / ohms);
      entries.addPair(a - 1, b - 1, -1 / ohms);
    }
    entries.addDiagonal(0, 200);
    const right = new Float64Array(entries.size).fill(1e-3);
    const once = (order: Int32Array) => {
      const structure = structureOf(entries, order);
      const call = () => {
        const factor = refactor(structure, inOrder(structure, entries.diagonal), upperValues(structure, entries));
        if (factor === undefined) throw new Error('not factorised');
        solveFactored(factor, right);
      };
      return { call, filled: structure.rows.length };
    };
    const order = () => eliminationOrder(graphOf(entries.size, entries.is, entries.js, entries.count));
    const known = once(order());
    const plain = once(Int32Array.from({ length: entries.size }, (_, i) => i));
    console.log(told(`  ${shape}, known: ${known.filled} entries`, measure(known.call)));
    console.log(
      told(
        `  ${shape}, worked out`,
        measure(() => once(order()).call()),
      ),
    );
    console.log(told(`  ${shape}, none: ${plain.filled} entries`, measure(plain.call)));
  }
}
