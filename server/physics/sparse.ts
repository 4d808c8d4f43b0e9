/**
 * Sparse symmetric LDLᵀ factorisation, up-looking (T. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapter 4).
 * What depends on the pattern alone (order, elimination tree, places of the factor) is worked out once; a matrix of the same
 * pattern with other values is then only arithmetic. The matrix of a resistive network is symmetric and, grounded, positive
 * definite, so no pivoting is needed; a pivot that is not positive tells that there is no stable answer.
 */
import { eliminationOrder, graphOf } from './elimination-order.ts';

/** Symmetric matrix as a list of entries; what is added twice adds up. Off-diagonal entries are given once, in either triangle. */
export class SymmetricEntries {
  readonly diagonal: Float64Array;
  is: Int32Array;
  js: Int32Array;
  values: Float64Array;
  count = 0;

  /** `pairs` is how many are likely to be added; more may be. */
  constructor(
    readonly size: number,
    pairs = 2 * size + 8,
  ) {
    this.diagonal = new Float64Array(size);
    this.is = new Int32Array(pairs);
    this.js = new Int32Array(pairs);
    this.values = new Float64Array(pairs);
  }

  addDiagonal(i: number, value: number): void {
    this.diagonal[i] = (this.diagonal[i] as number) + value;
  }

  /** Adds an entry off the diagonal and tells its index among all that were added. */
  addPair(i: number, j: number, value: number): number {
    if (this.count === this.is.length) this.grow();
    this.is[this.count] = i;
    this.js[this.count] = j;
    this.values[this.count] = value;
    this.count += 1;
    return this.count - 1;
  }

  private grow(): void {
    const length = 2 * this.is.length + 8;
    const is = new Int32Array(length);
    const js = new Int32Array(length);
    const values = new Float64Array(length);
    is.set(this.is);
    js.set(this.js);
    values.set(this.values);
    this.is = is;
    this.js = js;
    this.values = values;
  }
}

/** What the pattern of a matrix decides. */
export interface Structure {
  readonly size: number;
  readonly order: Int32Array;
  /** Where in the order each node comes. */
  readonly place: Int32Array;
  /** Upper triangle of the matrix in its new order, by column. */
  readonly upperStart: Int32Array;
  readonly upperRows: Int32Array;
  /** Where in it each added pair goes. */
  readonly slots: Int32Array;
  /** The factor by columns, without its unit diagonal. */
  readonly columns: Int32Array;
  readonly rows: Int32Array;
  /** Columns that row k of the factor has, in the order in which they are worked out. */
  readonly rowStart: Int32Array;
  readonly rowColumns: Int32Array;
}

/** An order by which little is filled in. */
export function minimumDegreeOrder(entries: SymmetricEntries): Int32Array {
  return eliminationOrder(graphOf(entries.size, entries.is, entries.js, entries.count));
}

interface Kept {
  readonly is: Int32Array;
  readonly js: Int32Array;
  readonly structure: Structure;
}

/**
 * Structures of late by a digest of their patterns, the longest unasked first: from case to case and from edit to edit the
 * same wiring is asked again with other values, and a van alone has some fifty patterns.
 */
const recent = new Map<number, Kept>();
const mostRecent = 1000;
/** Pairs of all that are kept together, some 50 bytes each. */
const mostKeptPairs = 250_000;
let keptPairs = 0;

/** The structure of a pattern; by an order that is handed in, or by one that fills little in. */
export function structureOf(entries: SymmetricEntries, order?: Int32Array): Structure {
  if (order !== undefined) return structureInOrder(entries, order);
  const { size, count } = entries;
  const digest = digestOf(entries);
  const known = recent.get(digest);
  const found =
    known?.structure.size === size &&
    known.is.length === count &&
    begins(entries.is, known.is) &&
    begins(entries.js, known.js)
      ? known
      : undefined;
  const structure = found?.structure ?? structureInOrder(entries, minimumDegreeOrder(entries));
  if (count > mostKeptPairs) return structure;
  if (known !== undefined) forget(digest, known);
  const kept = found ?? { is: entries.is.slice(0, count), js: entries.js.slice(0, count), structure };
  recent.set(digest, kept);
  keptPairs += count;
  for (const [oldest, one] of recent) {
    if (recent.size <= mostRecent && keptPairs <= mostKeptPairs) break;
    forget(oldest, one);
  }
  return structure;
}

function forget(digest: number, { is }: Kept): void {
  recent.delete(digest);
  keptPairs -= is.length;
}

/** Of the pattern alone. */
function digestOf({ size, is, js, count }: SymmetricEntries): number {
  let digest = Math.imul(size, 0x9e3779b1);
  for (let p = 0; p < count; p++)
    digest =
      Math.imul((digest << 5) ^ (digest >>> 27) ^ (is[p] as number), 0x85ebca6b) ^
      Math.imul(js[p] as number, 0xc2b2ae35);
  return digest;
}

function begins(longer: Int32Array, start: Int32Array): boolean {
  for (let i = 0; i < start.length; i++) if (longer[i] !== start[i]) return false;
  return true;
}

function structureInOrder(entries: SymmetricEntries, order: Int32Array): Structure {
  const { size: n, is, js, count: pairs } = entries;
  const place = new Int32Array(n);
  for (let k = 0; k < n; k++) place[order[k] as number] = k;
  // Counting sort of the pairs by column; a pair given twice has two slots, which add up in the factorisation.
  const upperStart = new Int32Array(n + 1);
  for (let p = 0; p < pairs; p++) {
    const column = Math.max(place[is[p] as number] as number, place[js[p] as number] as number);
    upperStart[column + 1] = (upperStart[column + 1] as number) + 1;
  }
  for (let k = 0; k < n; k++) upperStart[k + 1] = (upperStart[k + 1] as number) + (upperStart[k] as number);
  const next = upperStart.slice(0, n);
  const upperRows = new Int32Array(pairs);
  const slots = new Int32Array(pairs);
  for (let p = 0; p < pairs; p++) {
    const a = place[is[p] as number] as number;
    const b = place[js[p] as number] as number;
    const column = Math.max(a, b);
    const slot = next[column] as number;
    next[column] = slot + 1;
    upperRows[slot] = Math.min(a, b);
    slots[p] = slot;
  }
  // Elimination tree, and how many entries each column and row of the factor has.
  const parent = new Int32Array(n).fill(-1);
  const flag = new Int32Array(n).fill(-1);
  const columns = new Int32Array(n + 1);
  const rowStart = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) {
    flag[k] = k;
    let inRow = 0;
    for (let p = upperStart[k] as number; p < (upperStart[k + 1] as number); p++) {
      for (let i = upperRows[p] as number; flag[i] !== k; i = parent[i] as number) {
        if ((parent[i] as number) < 0) parent[i] = k;
        columns[i + 1] = (columns[i + 1] as number) + 1;
        inRow += 1;
        flag[i] = k;
      }
    }
    rowStart[k + 1] = (rowStart[k] as number) + inRow;
  }
  for (let k = 0; k < n; k++) columns[k + 1] = (columns[k + 1] as number) + (columns[k] as number);
  const total = columns[n] as number;
  const rows = new Int32Array(total);
  const rowColumns = new Int32Array(total);
  const filled = columns.slice(0, n);
  const stack = new Int32Array(n);
  flag.fill(-1);
  for (let k = 0; k < n; k++) {
    flag[k] = k;
    let top = rowStart[k + 1] as number;
    for (let p = upperStart[k] as number; p < (upperStart[k + 1] as number); p++) {
      let length = 0;
      for (let i = upperRows[p] as number; flag[i] !== k; i = parent[i] as number) {
        stack[length++] = i;
        flag[i] = k;
      }
      while (length > 0) rowColumns[--top] = stack[--length] as number;
    }
    for (let p = rowStart[k] as number; p < (rowStart[k + 1] as number); p++) {
      const i = rowColumns[p] as number;
      rows[filled[i] as number] = k;
      filled[i] = (filled[i] as number) + 1;
    }
  }
  return { size: n, order, place, upperStart, upperRows, slots, columns, rows, rowStart, rowColumns };
}

export interface Factor {
  readonly structure: Structure;
  readonly values: Float64Array;
  readonly pivots: Float64Array;
  /** What a factorisation works in: a row, and how many entries each column has so far. */
  readonly work: { readonly row: Float64Array; readonly filled: Int32Array };
}

/** Room for a factor of a structure. */
export function newFactor(structure: Structure): Factor {
  const { size, rows } = structure;
  return {
    structure,
    values: new Float64Array(rows.length),
    pivots: new Float64Array(size),
    work: { row: new Float64Array(size), filled: new Int32Array(size + 1) },
  };
}

/** A pivot below this part of its own diagonal is nought. */
const leastPivot = 1e-14;

/** Values of the pairs in their slots, as `refactor` takes them. */
export function upperValues({ slots }: Structure, { values, count }: SymmetricEntries): Float64Array {
  const upper = new Float64Array(count);
  for (let p = 0; p < count; p++) upper[slots[p] as number] = values[p] as number;
  return upper;
}

/** Factorises; undefined when a pivot is not positive. An order or structure worked out before for the pattern may be handed in. */
export function factorise(entries: SymmetricEntries, known?: Int32Array | Structure): Factor | undefined {
  const structure = known === undefined || known instanceof Int32Array ? structureOf(entries, known) : known;
  return refactor(structure, inOrder(structure, entries.diagonal), upperValues(structure, entries));
}

/** Values by node in the order of elimination. */
export function inOrder({ size, order }: Structure, values: Float64Array): Float64Array {
  const out = new Float64Array(size);
  for (let k = 0; k < size; k++) out[k] = values[order[k] as number] as number;
  return out;
}

/**
 * Factorises a matrix of known structure: `diagonal` in the order of elimination, `upper` by slots. A factor of the same
 * structure that is not needed any more may be handed in to be written over.
 */
export function refactor(
  structure: Structure,
  diagonal: Float64Array,
  upper: Float64Array,
  over: Factor = newFactor(structure),
): Factor | undefined {
  const { size: n, upperStart, upperRows, columns, rows, rowStart, rowColumns } = structure;
  const { values, pivots, work } = over;
  const { row: y, filled } = work;
  filled.set(columns);
  y.fill(0);
  for (let k = 0; k < n; k++) {
    for (let p = upperStart[k] as number; p < (upperStart[k + 1] as number); p++) {
      const i = upperRows[p] as number;
      y[i] = (y[i] as number) + (upper[p] as number);
    }
    const own = diagonal[k] as number;
    let pivot = own;
    for (let q = rowStart[k] as number; q < (rowStart[k + 1] as number); q++) {
      const i = rowColumns[q] as number;
      const yi = y[i] as number;
      y[i] = 0;
      const end = filled[i] as number;
      for (let p = columns[i] as number; p < end; p++) {
        const r = rows[p] as number;
        y[r] = (y[r] as number) - (values[p] as number) * yi;
      }
      const l = yi / (pivots[i] as number);
      pivot -= l * yi;
      values[end] = l;
      filled[i] = end + 1;
    }
    // What is left of a node that nothing ties to ground is rounding.
    if (!(pivot > leastPivot * own)) return undefined;
    pivots[k] = pivot;
  }
  return over;
}

/** Solves for one right-hand side, which is left as it is; both by node. */
export function solveFactored(factor: Factor, rhs: Float64Array): Float64Array {
  const { structure } = factor;
  const { size, order } = structure;
  const x = inOrder(structure, rhs);
  solveInOrder(factor, x);
  const out = new Float64Array(size);
  for (let k = 0; k < size; k++) out[order[k] as number] = x[k] as number;
  return out;
}

/** Puts the solution in the place of a right-hand side, both in the order of elimination. */
export function solveInOrder({ structure, values, pivots }: Factor, x: Float64Array): void {
  const { size, columns, rows } = structure;
  for (let j = 0; j < size; j++) {
    const xj = x[j] as number;
    if (xj === 0) continue;
    const end = columns[j + 1] as number;
    for (let p = columns[j] as number; p < end; p++) {
      const r = rows[p] as number;
      x[r] = (x[r] as number) - (values[p] as number) * xj;
    }
  }
  for (let j = 0; j < size; j++) x[j] = (x[j] as number) / (pivots[j] as number);
  for (let j = size - 1; j >= 0; j--) {
    let xj = x[j] as number;
    const end = columns[j + 1] as number;
    for (let p = columns[j] as number; p < end; p++) xj -= (values[p] as number) * (x[rows[p] as number] as number);
    x[j] = xj;
  }
}
