/**
 * What a topology makes of the matrix while its limited sources and diodes are in given states: which node has which row,
 * where each element goes in, and which draws are fed at all. Figures come into it later.
 */
import { type Structure, SymmetricEntries, structureOf } from './sparse.ts';
import type { Sort, Topology } from './topology.ts';
import { UnionFind } from './union-find.ts';

export type LimitedState = 'holds' | 'limits' | 'off';

/** What limited sources do and which diodes conduct. */
export interface States {
  readonly limited: readonly LimitedState[];
  readonly conducting: readonly boolean[];
}

export interface StateRows {
  readonly size: number;
  readonly structure: Structure;
  /** Row of each node, in the order of elimination; of what is grounded the number of rows, where volts are 0. */
  readonly row: Int32Array;
  /** Rows of the two ends of each element. */
  readonly ends: Int32Array;
  /** Slot of the pair that joins them, by element; -1 for none. */
  readonly slots: Int32Array;
  /** By element: a current, a power or a limited source that stands where something is fed. */
  readonly active: Uint8Array;
}

export function stateRows(topology: Topology, { limited, conducting }: States): StateRows {
  const { nodeCount: n, ends, first, counts, elements } = topology;
  const one = (k: number) => ends[2 * k] as number;
  const other = (k: number) => ends[2 * k + 1] as number;
  const each = (sort: Sort, of: (element: number, index: number) => void) => {
    for (let i = 0; i < counts[sort]; i++) of(first[sort] + i, i);
  };
  const merged = new UnionFind(n);
  // Galvanic parts: what resistances and sources join. A draw across two parts, or in one without a source, gets nothing.
  const galvanic = new UnionFind(n);
  const join = (k: number) => galvanic.join(one(k), other(k));
  each('links', (k) => {
    merged.join(one(k), other(k));
    join(k);
  });
  each('resistors', join);
  each('emfs', join);
  each('limited', (k, i) => {
    if (limited[i] !== 'off') join(k);
  });
  each('diodes', (k, i) => {
    if (conducting[i] === true) join(k);
  });
  const fed = new Uint8Array(n);
  each('emfs', (k) => {
    fed[galvanic.find(one(k))] = 1;
  });
  // A source at its limit feeds as well: where nothing else holds a voltage and its loads ask for more, that is a collapse.
  each('limited', (k, i) => {
    if (limited[i] !== 'off') fed[galvanic.find(one(k))] = 1;
  });
  const active = new Uint8Array(elements);
  const activate = (k: number) => {
    const part = galvanic.find(one(k));
    if (part === galvanic.find(other(k)) && fed[part] === 1 && merged.find(one(k)) !== merged.find(other(k)))
      active[k] = 1;
  };
  each('limited', activate);
  each('currents', activate);
  each('powers', activate);

  // One grounded node a galvanic part.
  const grounded = new Int32Array(n).fill(-1);
  for (const node of topology.references) {
    const part = galvanic.find(node);
    if (grounded[part] === -1) grounded[part] = merged.find(node);
  }
  const row = new Int32Array(n).fill(-1);
  let size = 0;
  for (let node = 0; node < n; node++) {
    if (merged.find(node) !== node) continue;
    const part = galvanic.find(node);
    if (grounded[part] === -1) grounded[part] = node;
    if (grounded[part] !== node) row[node] = size++;
  }
  for (let node = 0; node < n; node++) {
    const own = row[merged.find(node)] as number;
    row[node] = own < 0 ? size : own;
  }
  const entries = new SymmetricEntries(size);
  const slots = new Int32Array(elements).fill(-1);
  const pair = (k: number) => {
    const i = row[one(k)] as number;
    const j = row[other(k)] as number;
    if (i !== j && i < size && j < size) slots[k] = entries.addPair(i, j, 0);
  };
  each('resistors', pair);
  each('emfs', pair);
  each('limited', (k, i) => {
    if (limited[i] === 'holds') pair(k);
  });
  each('diodes', (k, i) => {
    if (conducting[i] === true) pair(k);
  });
  // Powers couple their two nodes whatever their present conductance: the pattern, and so the structure, stays.
  each('powers', (k) => {
    if (active[k] === 1) pair(k);
  });
  const structure = structureOf(entries);
  // From here on everything is in the order of elimination: what belongs together lies together.
  for (let node = 0; node < n; node++) row[node] = structure.place[row[node] as number] ?? size;
  for (let k = 0; k < elements; k++) {
    const pairAt = slots[k] as number;
    if (pairAt >= 0) slots[k] = structure.slots[pairAt] as number;
  }
  return { size, structure, row, ends: ends.map((node) => row[node] as number), slots, active };
}
