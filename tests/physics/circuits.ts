/** Circuits for the tests of the solver, and a plain, slow way to solve them: dense Gaussian elimination. */
import fc from 'fast-check';
import type { Circuit, Solution } from '../../server/physics/circuit.ts';

/** A circuit of what is given, grounded at node 0. */
export function circuitOf(nodeCount: number, given: Partial<Circuit>): Circuit {
  return {
    nodeCount,
    resistors: [],
    links: [],
    emfs: [],
    limited: [],
    currents: [],
    powers: [],
    diodes: [],
    references: [0],
    ...given,
  };
}

export type LimitedState = 'holds' | 'limits' | 'off';

export interface States {
  /** By limited source and by diode; where not given all hold and conduct. */
  readonly limited?: readonly LimitedState[];
  readonly conducting?: readonly boolean[];
  /** Current that each constant-power load draws; nothing where not given. */
  readonly powerAmps?: readonly number[];
}

/** Least node number joined to each node by some pairs: labels spread until they rest. */
export function labels(nodeCount: number, pairs: readonly (readonly [number, number])[]): number[] {
  const label = Array.from({ length: nodeCount }, (_, i) => i);
  for (let changed = true; changed; ) {
    changed = false;
    for (const [a, b] of pairs) {
      const least = Math.min(label[a] ?? 0, label[b] ?? 0);
      if (label[a] !== least || label[b] !== least) {
        label[a] = least;
        label[b] = least;
        changed = true;
      }
    }
  }
  return label;
}

/** Solves a x = b with partial pivoting; undefined where a is singular. */
export function gauss(a: readonly (readonly number[])[], b: readonly number[]): number[] | undefined {
  const n = b.length;
  const m = a.map((row, i) => [...row, b[i] ?? 0]);
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k; i < n; i++) if (Math.abs(m[i]?.[k] ?? 0) > Math.abs(m[best]?.[k] ?? 0)) best = i;
    const row = m[best] ?? [];
    if (Math.abs(row[k] ?? 0) < 1e-300) return undefined;
    [m[k], m[best]] = [row, m[k] ?? []];
    for (let i = k + 1; i < n; i++) {
      const below = m[i] ?? [];
      const factor = (below[k] ?? 0) / (row[k] ?? 1);
      if (factor !== 0) for (let j = k; j <= n; j++) below[j] = (below[j] ?? 0) - factor * (row[j] ?? 0);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = m[i]?.[n] ?? 0;
    for (let j = i + 1; j < n; j++) sum -= (m[i]?.[j] ?? 0) * (x[j] ?? 0);
    x[i] = sum / (m[i]?.[i] ?? 1);
  }
  return x;
}

/** Node volts of a circuit in given states, by a dense matrix over nodes joined by links; undefined where there is no answer. */
export function denseVolts(circuit: Circuit, states: States = {}): number[] | undefined {
  const { nodeCount: n } = circuit;
  const state = (i: number) => states.limited?.[i] ?? 'holds';
  const conducts = (i: number) => states.conducting?.[i] ?? true;
  const links = circuit.links.map(({ a, b }) => [a, b] as const);
  const merged = labels(n, links);
  const part = labels(n, [
    ...links,
    ...circuit.resistors.map(({ a, b }) => [a, b] as const),
    ...circuit.emfs.map(({ plus, minus }) => [plus, minus] as const),
    ...circuit.limited.flatMap(({ plus, minus }, i) => (state(i) === 'off' ? [] : [[plus, minus] as const])),
    ...circuit.diodes.flatMap(({ a, b }, i) => (conducts(i) ? [[a, b] as const] : [])),
  ]);
  const fed = new Set([
    ...circuit.emfs.map(({ plus }) => part[plus]),
    ...circuit.limited.flatMap(({ plus }, i) => (state(i) === 'off' ? [] : [part[plus]])),
  ]);
  const joined = (a: number, b: number) => part[a] === part[b] && fed.has(part[a]);
  const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const right = new Array<number>(n).fill(0);
  const add = (i: number, j: number, value: number) => {
    const row = matrix[merged[i] ?? 0] ?? [];
    row[merged[j] ?? 0] = (row[merged[j] ?? 0] ?? 0) + value;
  };
  const conduct = (a: number, b: number, siemens: number) => {
    add(a, a, siemens);
    add(b, b, siemens);
    add(a, b, -siemens);
    add(b, a, -siemens);
  };
  const push = (a: number, b: number, amps: number) => {
    right[merged[a] ?? 0] = (right[merged[a] ?? 0] ?? 0) - amps;
    right[merged[b] ?? 0] = (right[merged[b] ?? 0] ?? 0) + amps;
  };
  for (const { a, b, ohms } of circuit.resistors) conduct(a, b, 1 / ohms);
  const source = (plus: number, minus: number, volts: number, ohms: number) => {
    conduct(plus, minus, 1 / ohms);
    push(minus, plus, volts / ohms);
  };
  for (const { plus, minus, volts, ohms } of circuit.emfs) source(plus, minus, volts, ohms);
  circuit.limited.forEach(({ plus, minus, volts, ohms, mostAmps }, i) => {
    if (state(i) === 'holds') source(plus, minus, volts, ohms);
    if (state(i) === 'limits' && joined(plus, minus)) push(minus, plus, mostAmps);
  });
  circuit.diodes.forEach(({ a, b, volts, ohms }, i) => {
    if (conducts(i)) source(a, b, volts, ohms);
  });
  for (const { plus, minus, amps } of circuit.currents) if (joined(plus, minus)) push(plus, minus, amps);
  circuit.powers.forEach(({ plus, minus }, i) => {
    if (joined(plus, minus)) push(plus, minus, states.powerAmps?.[i] ?? 0);
  });
  // One node of each part is 0 V: the first reference in it, else its lowest.
  const grounded = new Map<number, number>();
  for (const node of [...circuit.references, ...Array.from({ length: n }, (_, i) => i)])
    if (!grounded.has(part[node] ?? 0)) grounded.set(part[node] ?? 0, merged[node] ?? 0);
  for (let node = 0; node < n; node++) {
    if (merged[node] === node && grounded.get(part[node] ?? 0) !== node) continue;
    const row = matrix[node] ?? [];
    row.fill(0);
    row[node] = 1;
    right[node] = 0;
  }
  const x = gauss(matrix, right);
  return x?.map((_, node) => x[merged[node] ?? 0] ?? 0);
}

/** Upper-voltage answer with constant power by repeated substitution I = P/V from no load; undefined where it falls to nought. */
export function substituted(circuit: Circuit, states: States = {}): number[] | undefined {
  let amps = circuit.powers.map(() => 0);
  for (let step = 0; step < 20_000; step++) {
    const volts = denseVolts(circuit, { ...states, powerAmps: amps });
    if (volts === undefined) return undefined;
    const across = circuit.powers.map(({ plus, minus }) => (volts[plus] ?? 0) - (volts[minus] ?? 0));
    const next = circuit.powers.map(({ watts }, i) => {
      const v = across[i] ?? 0;
      return v === 0 || watts === 0 ? 0 : watts / v;
    });
    if (across.some((v, i) => v < 0 && (circuit.powers[i]?.watts ?? 0) > 0)) return undefined;
    const change = Math.max(0, ...next.map((a, i) => Math.abs(a - (amps[i] ?? 0))));
    if (!Number.isFinite(change)) return undefined;
    amps = next;
    if (change < 1e-13 * Math.max(1, ...next.map(Math.abs))) return volts;
  }
  return undefined;
}

/** What leaves every node, by Kirchhoff's current law nought, and the greatest current there is. */
export function imbalance(circuit: Circuit, solution: Solution): { worst: number; largest: number } {
  const sum = new Array<number>(circuit.nodeCount).fill(0);
  let largest = 0;
  const flow = (from: number, to: number, amps = 0) => {
    sum[from] = (sum[from] ?? 0) + amps;
    sum[to] = (sum[to] ?? 0) - amps;
    largest = Math.max(largest, Math.abs(amps));
  };
  circuit.resistors.forEach(({ a, b }, i) => {
    flow(a, b, solution.resistorAmps[i]);
  });
  circuit.links.forEach(({ a, b }, i) => {
    flow(a, b, solution.linkAmps[i]);
  });
  circuit.diodes.forEach(({ a, b }, i) => {
    flow(a, b, solution.diodeAmps[i]);
  });
  circuit.emfs.forEach(({ plus, minus }, i) => {
    flow(minus, plus, solution.emfAmps[i]);
  });
  circuit.limited.forEach(({ plus, minus }, i) => {
    flow(minus, plus, solution.limitedAmps[i]);
  });
  circuit.currents.forEach(({ plus, minus }, i) => {
    flow(plus, minus, solution.currentAmps[i]);
  });
  circuit.powers.forEach(({ plus, minus }, i) => {
    flow(plus, minus, solution.powerAmps[i]);
  });
  return { worst: Math.max(0, ...sum.map(Math.abs)), largest };
}

/** Power that sources give at their terminals less what everything else takes, and the greatest single power. */
export function powerBalance(circuit: Circuit, { volts, ...amps }: Solution): { rest: number; largest: number } {
  let rest = 0;
  let largest = 0;
  const count = (from: number, to: number, current = 0) => {
    const watts = ((volts[from] ?? 0) - (volts[to] ?? 0)) * current;
    rest += watts;
    largest = Math.max(largest, Math.abs(watts));
  };
  circuit.resistors.forEach(({ a, b }, i) => {
    count(a, b, amps.resistorAmps[i]);
  });
  circuit.diodes.forEach(({ a, b }, i) => {
    count(a, b, amps.diodeAmps[i]);
  });
  circuit.emfs.forEach(({ plus, minus }, i) => {
    count(minus, plus, amps.emfAmps[i]);
  });
  circuit.limited.forEach(({ plus, minus }, i) => {
    count(minus, plus, amps.limitedAmps[i]);
  });
  circuit.currents.forEach(({ plus, minus }, i) => {
    count(plus, minus, amps.currentAmps[i]);
  });
  circuit.powers.forEach(({ plus, minus }, i) => {
    count(plus, minus, amps.powerAmps[i]);
  });
  return { rest, largest };
}

const nodes = 9;
const node = fc.integer({ min: 0, max: nodes - 1 });
/** Six decades: from a contact to a lamp. */
const ohms = fc.integer({ min: -36, max: 24 }).map((tenths) => 10 ** (tenths / 12));
const pair = fc.tuple(node, node).filter(([a, b]) => a !== b);

/** Networks of batteries, conductors, bars and constant currents: trees, meshes, floating parts, loops of bars. */
export const linearCircuits: fc.Arbitrary<Circuit> = fc
  .record({
    resistors: fc.array(fc.record({ ends: pair, ohms }), { maxLength: 16 }),
    links: fc.array(fc.tuple(node, node), { maxLength: 5 }),
    emfs: fc.array(
      fc.record({ ends: pair, volts: fc.integer({ min: 6, max: 60 }), milliohms: fc.integer({ min: 1, max: 100 }) }),
      { minLength: 1, maxLength: 3 },
    ),
    currents: fc.array(fc.record({ ends: pair, amps: fc.integer({ min: -20, max: 40 }) }), { maxLength: 4 }),
    references: fc.array(node, { maxLength: 3 }),
  })
  .map(({ resistors, links, emfs, currents, references }) =>
    circuitOf(nodes, {
      resistors: resistors.map(({ ends: [a, b], ohms: value }) => ({ a, b, ohms: value })),
      links: links.map(([a, b]) => ({ a, b })),
      emfs: emfs.map(({ ends: [plus, minus], volts, milliohms }) => ({ plus, minus, volts, ohms: milliohms / 1000 })),
      currents: currents.map(({ ends: [plus, minus], amps }) => ({ plus, minus, amps })),
      references,
    }),
  );

/**
 * Wiring as it is: a battery, a plus side and a minus side grown as trees with some cross ways, constant-power loads between
 * them. What they ask is moderate, so that there is an answer.
 */
export const poweredCircuits: fc.Arbitrary<Circuit> = fc
  .record({
    plus: fc.array(fc.record({ from: fc.nat(99), milliohms: fc.integer({ min: 1, max: 60 }) }), {
      minLength: 1,
      maxLength: 6,
    }),
    minus: fc.array(fc.record({ from: fc.nat(99), milliohms: fc.integer({ min: 1, max: 60 }) }), {
      minLength: 1,
      maxLength: 6,
    }),
    loads: fc.array(fc.record({ plus: fc.nat(99), minus: fc.nat(99), watts: fc.integer({ min: 0, max: 60 }) }), {
      minLength: 1,
      maxLength: 5,
    }),
    ties: fc.array(fc.record({ a: fc.nat(99), b: fc.nat(99), milliohms: fc.integer({ min: 1, max: 60 }) }), {
      maxLength: 3,
    }),
    second: fc.option(fc.record({ plus: fc.nat(99), minus: fc.nat(99) })),
  })
  .map(({ plus, minus, loads, ties, second }) => {
    // Nodes: minus of the battery 0, its plus 1, then the plus tree, then the minus tree.
    const resistors: { a: number; b: number; ohms: number }[] = [];
    const pluses = [1];
    const minuses = [0];
    const grow = (side: number[], branches: typeof plus) => {
      for (const { from, milliohms } of branches) {
        const made = pluses.length + minuses.length;
        resistors.push({ a: side[from % side.length] ?? 0, b: made, ohms: milliohms / 1000 });
        side.push(made);
      }
    };
    grow(pluses, plus);
    grow(minuses, minus);
    const onPlus = (i: number) => pluses[i % pluses.length] ?? 1;
    const onMinus = (i: number) => minuses[i % minuses.length] ?? 0;
    for (const { a, b, milliohms } of ties)
      if (onPlus(a) !== onPlus(b)) resistors.push({ a: onPlus(a), b: onPlus(b), ohms: milliohms / 1000 });
    const emfs = [{ plus: 1, minus: 0, volts: 12.6, ohms: 0.005 }];
    if (second !== null)
      emfs.push({ plus: onPlus(second.plus), minus: onMinus(second.minus), volts: 12.4, ohms: 0.01 });
    return circuitOf(pluses.length + minuses.length, {
      resistors,
      emfs,
      powers: loads.map(({ plus: p, minus: m, watts }) => ({ plus: onPlus(p), minus: onMinus(m), watts })),
    });
  });
