/**
 * Sparse symmetric LDLᵀ factorisation, up-looking (T. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapter
 * 4), with a minimum-degree order. The matrix of a resistive network is symmetric and, grounded, positive definite, so no
 * pivoting is needed; a pivot that is not positive tells that there is no stable answer.
 */

/** Symmetric matrix as a list of entries; duplicates add up. Off-diagonal entries are given once, in either triangle. */
export class SymmetricEntries {
  readonly diagonal: Float64Array;
  readonly neighbours: Map<number, number>[];

  constructor(readonly size: number) {
    this.diagonal = new Float64Array(size);
    this.neighbours = Array.from({ length: size }, () => new Map<number, number>());
  }

  addDiagonal(i: number, value: number): void {
    this.diagonal[i] = (this.diagonal[i] ?? 0) + value;
  }

  addPair(i: number, j: number, value: number): void {
    this.neighbours[i]?.set(j, (this.neighbours[i]?.get(j) ?? 0) + value);
    this.neighbours[j]?.set(i, (this.neighbours[j]?.get(i) ?? 0) + value);
  }
}

/** Elimination order by least degree, kept in buckets so that finding the next node does not scan them all. */
export function minimumDegreeOrder(entries: SymmetricEntries): Int32Array {
  const { size } = entries;
  const adjacent = entries.neighbours.map((row) => new Set(row.keys()));
  const buckets: Set<number>[] = [];
  const degree = new Int32Array(size);
  const put = (node: number, d: number) => {
    degree[node] = d;
    while (buckets.length <= d) buckets.push(new Set());
    buckets[d]?.add(node);
  };
  for (let i = 0; i < size; i++) put(i, adjacent[i]?.size ?? 0);
  const order = new Int32Array(size);
  let low = 0;
  for (let k = 0; k < size; k++) {
    while ((buckets[low]?.size ?? 0) === 0) low += 1;
    const node = (buckets[low] as Set<number>).values().next().value as number;
    buckets[low]?.delete(node);
    order[k] = node;
    const around = [...(adjacent[node] as Set<number>)];
    for (const a of around) {
      const set = adjacent[a] as Set<number>;
      set.delete(node);
      for (const b of around) if (a !== b) set.add(b);
      const d = set.size;
      if (d !== degree[a]) {
        buckets[degree[a] ?? 0]?.delete(a);
        put(a, d);
        if (d < low) low = d;
      }
    }
    adjacent[node] = new Set();
  }
  return order;
}

export interface Factor {
  readonly size: number;
  readonly order: Int32Array;
  readonly columns: Int32Array;
  readonly rows: Int32Array;
  readonly values: Float64Array;
  readonly pivots: Float64Array;
}

/** A pivot below this part of its own diagonal is nought. */
const leastPivot = 1e-14;

/** Factorises; undefined when a pivot is not positive. An order worked out before for the same pattern may be handed in. */
export function factorise(entries: SymmetricEntries, order = minimumDegreeOrder(entries)): Factor | undefined {
  const n = entries.size;
  const place = new Int32Array(n);
  for (let k = 0; k < n; k++) place[order[k] ?? 0] = k;
  // Upper triangle of the permuted matrix, by column.
  const columnRows: number[][] = Array.from({ length: n }, () => []);
  const columnValues: number[][] = Array.from({ length: n }, () => []);
  for (let i = 0; i < n; i++) {
    const pi = place[i] ?? 0;
    for (const [j, value] of entries.neighbours[i] as Map<number, number>) {
      const pj = place[j] ?? 0;
      if (pi < pj) {
        columnRows[pj]?.push(pi);
        columnValues[pj]?.push(value);
      }
    }
  }
  // Elimination tree and column counts.
  const parent = new Int32Array(n).fill(-1);
  const flag = new Int32Array(n).fill(-1);
  const count = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    flag[k] = k;
    for (let i of columnRows[k] as number[]) {
      for (; flag[i] !== k; i = parent[i] ?? -1) {
        if (parent[i] === -1) parent[i] = k;
        count[i] = (count[i] ?? 0) + 1;
        flag[i] = k;
      }
    }
  }
  const columns = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) columns[k + 1] = (columns[k] ?? 0) + (count[k] ?? 0);
  const total = columns[n] ?? 0;
  const rows = new Int32Array(total);
  const values = new Float64Array(total);
  const pivots = new Float64Array(n);
  const filled = new Int32Array(n);
  const y = new Float64Array(n);
  const pattern = new Int32Array(n);
  const stack = new Int32Array(n);
  flag.fill(-1);
  for (let k = 0; k < n; k++) {
    let top = n;
    flag[k] = k;
    const theseRows = columnRows[k] as number[];
    const theseValues = columnValues[k] as number[];
    for (let p = 0; p < theseRows.length; p++) {
      let i = theseRows[p] ?? 0;
      y[i] = (y[i] ?? 0) + (theseValues[p] ?? 0);
      let length = 0;
      for (; flag[i] !== k; i = parent[i] ?? -1) {
        stack[length++] = i;
        flag[i] = k;
      }
      while (length > 0) pattern[--top] = stack[--length] ?? 0;
    }
    let pivot = entries.diagonal[order[k] ?? 0] ?? 0;
    for (; top < n; top++) {
      const i = pattern[top] ?? 0;
      const yi = y[i] ?? 0;
      y[i] = 0;
      const start = columns[i] ?? 0;
      const end = start + (filled[i] ?? 0);
      for (let p = start; p < end; p++) {
        const r = rows[p] ?? 0;
        y[r] = (y[r] ?? 0) - (values[p] ?? 0) * yi;
      }
      const l = yi / (pivots[i] ?? 1);
      pivot -= l * yi;
      rows[end] = k;
      values[end] = l;
      filled[i] = (filled[i] ?? 0) + 1;
    }
    // What is left of a node that nothing ties to ground is rounding.
    if (!(pivot > leastPivot * (entries.diagonal[order[k] ?? 0] ?? 0))) return undefined;
    pivots[k] = pivot;
  }
  return { size: n, order, columns, rows, values, pivots };
}

/** Solves in place of a copy of the right-hand side. */
export function solveFactored(factor: Factor, rhs: Float64Array): Float64Array {
  const { size, order, columns, rows, values, pivots } = factor;
  const x = new Float64Array(size);
  for (let k = 0; k < size; k++) x[k] = rhs[order[k] ?? 0] ?? 0;
  for (let j = 0; j < size; j++) {
    const xj = x[j] ?? 0;
    for (let p = columns[j] ?? 0; p < (columns[j + 1] ?? 0); p++) {
      const r = rows[p] ?? 0;
      x[r] = (x[r] ?? 0) - (values[p] ?? 0) * xj;
    }
  }
  for (let j = 0; j < size; j++) x[j] = (x[j] ?? 0) / (pivots[j] ?? 1);
  for (let j = size - 1; j >= 0; j--) {
    let xj = x[j] ?? 0;
    for (let p = columns[j] ?? 0; p < (columns[j + 1] ?? 0); p++) xj -= (values[p] ?? 0) * (x[rows[p] ?? 0] ?? 0);
    x[j] = xj;
  }
  const out = new Float64Array(size);
  for (let k = 0; k < size; k++) out[order[k] ?? 0] = x[k] ?? 0;
  return out;
}
