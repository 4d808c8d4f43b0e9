/**
 * Solutions for right-hand sides of two entries, half done: with A = LDLᵀ and h = D^−½L⁻¹e, what one pair of rows does to
 * another is the product of their halves, hᵀh′ = eᵀA⁻¹e′. A half has entries on the ways of its two rows up the elimination
 * tree only, so that it costs next to nothing (W. Tinney, V. Brandwajn and S. Chan, Sparse vector methods, IEEE Trans. Power
 * Apparatus and Systems 104, 1985).
 */
import type { Factor } from './sparse.ts';

/** Entries of a half by their places in the order of elimination, ascending. */
export interface Half {
  readonly places: Int32Array;
  readonly values: Float64Array;
}

/** Holds one half at a time, to be multiplied by others. */
export class HalfSolver {
  private readonly roots: Float64Array;
  private readonly work: Float64Array;
  private count = 0;
  private readonly places: Int32Array;
  /** By place; 0 where it has no entry. */
  private readonly values: Float64Array;

  constructor(private readonly factor: Factor) {
    const { size } = factor.structure;
    this.roots = new Float64Array(size);
    for (let k = 0; k < size; k++) this.roots[k] = 1 / Math.sqrt(factor.pivots[k] as number);
    this.work = new Float64Array(size);
    this.places = new Int32Array(size);
    this.values = new Float64Array(size);
  }

  /** The half of 1 into place i and out of j of the order of elimination; -1 is ground. */
  load(i: number, j: number): void {
    const { work, places, values, roots } = this;
    const { columns, rows } = this.factor.structure;
    const factors = this.factor.values;
    for (let p = 0; p < this.count; p++) values[places[p] as number] = 0;
    let count = 0;
    let one = i === j ? -1 : i;
    let other = i === j ? -1 : j;
    if (one >= 0) work[one] = 1;
    if (other >= 0) work[other] = -1;
    while (one >= 0 || other >= 0) {
      const k = other < 0 || (one >= 0 && one < other) ? one : other;
      const x = work[k] as number;
      work[k] = 0;
      places[count++] = k;
      values[k] = x * (roots[k] as number);
      const start = columns[k] as number;
      const end = columns[k + 1] as number;
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
    this.count = count;
  }

  /** A copy of what is held. */
  held(): Half {
    const places = this.places.slice(0, this.count);
    const values = new Float64Array(this.count);
    for (let p = 0; p < this.count; p++) values[p] = this.values[places[p] as number] as number;
    return { places, values };
  }

  /** What is held by itself: the resistance between its two rows. */
  squared(): number {
    let sum = 0;
    for (let p = 0; p < this.count; p++) {
      const value = this.values[this.places[p] as number] as number;
      sum += value * value;
    }
    return sum;
  }

  /** What is held by another. */
  times({ places, values }: Half): number {
    let sum = 0;
    for (let p = 0; p < places.length; p++) sum += (values[p] as number) * (this.values[places[p] as number] as number);
    return sum;
  }

  /** What is held by the half of a whole right-hand side. */
  timesWhole(half: Float64Array): number {
    let sum = 0;
    for (let p = 0; p < this.count; p++) {
      const place = this.places[p] as number;
      sum += (half[place] as number) * (this.values[place] as number);
    }
    return sum;
  }

  /** Half of a right-hand side that has entries anywhere; both by place in the order of elimination. */
  whole(rhs: Float64Array): Float64Array {
    const { columns, rows, size } = this.factor.structure;
    const factors = this.factor.values;
    const x = rhs.slice();
    for (let k = 0; k < size; k++) {
      const xk = x[k] as number;
      if (xk === 0) continue;
      const end = columns[k + 1] as number;
      for (let p = columns[k] as number; p < end; p++) {
        const r = rows[p] as number;
        x[r] = (x[r] as number) - (factors[p] as number) * xk;
      }
    }
    for (let k = 0; k < size; k++) x[k] = (x[k] as number) * (this.roots[k] as number);
    return x;
  }
}
