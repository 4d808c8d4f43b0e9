/** Networks of any size for the benchmarks: a radial one as wiring is, a ladder, a mesh. Seeded, so that every run is of the same. */
import type { Circuit } from '../../server/physics/circuit.ts';

/** A linear congruential generator (Numerical Recipes, 1992): the same numbers everywhere. */
export function randomly(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

type Branch = readonly [number, number];

/** Branches over the nodes 1 to n; node 0 is the return, node 1 the battery's positive. */
const branches: Readonly<Record<Shape, (n: number, next: () => number) => Branch[]>> = {
  ladder: (n) => Array.from({ length: n - 1 }, (_, i): Branch => [i + 1, i + 2]),
  tree: (n, next) =>
    Array.from({ length: n - 1 }, (_, i): Branch => [1 + Math.floor(Math.sqrt(next()) * (i + 1)), i + 2]),
  mesh: (n) => {
    const side = Math.floor(Math.sqrt(n));
    const all: Branch[] = [];
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++) {
        const here = 1 + y * side + x;
        if (x + 1 < side) all.push([here, here + 1]);
        if (y + 1 < side) all.push([here, here + side]);
      }
    return all;
  },
};

export type Shape = 'ladder' | 'tree' | 'mesh';

/** Resistances of a few milliohms; three nodes in ten feed a load of constant power, all together what the battery gives easily. */
export function network(shape: Shape, nodes: number, seed = 1): Circuit {
  const next = randomly(seed);
  const pairs = branches[shape](nodes - 1, next);
  const depth = shape === 'ladder' ? nodes : shape === 'tree' ? Math.log2(nodes) : 1;
  const resistors = pairs.map(([a, b]) => ({ a, b, ohms: (0.002 + 0.01 * next()) / depth }));
  const count = pairs.reduce((most, [a, b]) => Math.max(most, a, b), 0) + 1;
  const powers = [];
  for (let node = 2; node < count; node++)
    if (next() < 0.3) powers.push({ plus: node, minus: 0, watts: (400 * next()) / nodes });
  return {
    nodeCount: count,
    resistors,
    links: [],
    emfs: [{ plus: 1, minus: 0, volts: 12.8, ohms: 0.005 }],
    limited: [],
    currents: [],
    powers,
    diodes: [],
    references: [0],
  };
}
