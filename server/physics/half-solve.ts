/**
 * Solutions for right-hand sides of two entries, half done: with A = LDLᵀ and h = D^−½L⁻¹e, what one pair of rows does to
 * another is the product of their halves, hᵀh′ = eᵀA⁻¹e′. A half has entries on the ways of its two rows up the elimination
 * tree only, so that it costs next to nothing (W. Tinney, V. Brandwajn and S. Chan, Sparse vector methods, IEEE Trans. Power
 * Apparatus and Systems 104, 1985).
 */
import type { Factor } from './sparse.ts';

/** Entries of a half by their places in the order of elimination, ascending. */
export interface Half {
  readonly count: number;
  readonly places: Int32Array;
  readonly values: Float64Array;
}

export class HalfSolver {
  private readonly roots: Float64Array;
  private readonly work: Float64Array;
  private readonly places: Int32Array;
  private readonly values: Float64Array;

  constructor(private readonly factor: Factor) {
    const { size } = factor.structure;
    this.roots = new Float64Array(size);
    for (let k = 0; k < size; k++) this.roots[k] = 1 / Math.sqrt(factor.pivots[k] as number);
    this.work = new Float64Array(size);
    this.places = new Int32Array(size);
    this.values = new Float64Array(size);
  }

  /** Of 1 into place i and out of j of the order of elimination; -1 is ground. It is written over by the next. */
  passing(i: number, j: number): Half {
    const { work, places, values, roots } = this;
    const { columns, rows } = this.factor.structure;
    const factors = this.factor.values;
    let count = 0;
    if (i !== j) {
      if (i >= 0) work[i] = 1;
      if (j >= 0) work[j] = -1;
      let [one, other] = [i, j];
      while (one >= 0 || other >= 0) {
        const k = other < 0 || (one >= 0 && one < other) ? one : other;
        const x = work[k] as number;
        work[k] = 0;
        places[count] = k;
        values[count++] = x * (roots[k] as number);
        const [start, end] = [columns[k] as number, columns[k + 1] as number];
        for (let p = start; p < end; p++) {
          const r = rows[p] as number;
          work[r] = (work[r] as number) - (factors[p] as number) * x;
        }
        // The first row of a column is its parent in the elimination tree.
        const parent = start < end ? (rows[start] as number) : -1;
        if (one === k) one = parent;
        if (other === k) other = parent;
        if (one === other) other = -1;
      }
    }
    return { count, places, values };
  }

  /** Half of a right-hand side that has entries anywhere, in the order of elimination; by place. */
  whole(rhs: Float64Array): Float64Array {
    const { columns, rows, size } = this.factor.structure;
    const factors = this.factor.values;
    const x = rhs.slice();
    for (let k = 0; k < size; k++) {
      const xk = x[k] as number;
      if (xk === 0) continue;
      for (let p = columns[k] as number; p < (columns[k + 1] as number); p++) {
        const r = rows[p] as number;
        x[r] = (x[r] as number) - (factors[p] as number) * xk;
      }
    }
    for (let k = 0; k < size; k++) x[k] = (x[k] as number) * (this.roots[k] as number);
    return x;
  }
}

/** A half to keep. */
export function kept({ count, places, values }: Half): Half {
  return { count, places: places.slice(0, count), values: values.slice(0, count) };
}

export function squared({ count, values }: Half): number {
  let sum = 0;
  for (let p = 0; p < count; p++) sum += (values[p] as number) * (values[p] as number);
  return sum;
}

export function product(one: Half, other: Half): number {
  let [p, q, sum] = [0, 0, 0];
  while (p < one.count && q < other.count) {
    const [k, l] = [one.places[p] as number, other.places[q] as number];
    if (k === l) sum += (one.values[p++] as number) * (other.values[q++] as number);
    else if (k < l) p++;
    else q++;
  }
  return sum;
}

export function productWith({ count, places, values }: Half, whole: Float64Array): number {
  let sum = 0;
  for (let p = 0; p < count; p++) sum += (values[p] as number) * (whole[places[p] as number] as number);
  return sum;
}
