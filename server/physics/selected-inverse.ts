/**
 * Those entries of a matrix's inverse that lie where its factor has entries, diagonal included, without a solve for each
 * (K. Takahashi, J. Fagan and M.-S. Chin, 1973; A. M. Erisman and W. F. Tinney, 1975): with A = LDLᵀ the inverse Z obeys
 * Z = D⁻¹L⁻¹ + (I − Lᵀ)Z, so that each column follows from those that were eliminated after it.
 */
import type { Factor } from './sparse.ts';

/** Diagonal of the inverse, by row of the matrix as it was before it was ordered. */
export function inverseDiagonal({ structure, values, pivots }: Factor): Float64Array {
  const { size, order, columns, rows } = structure;
  const diagonal = new Float64Array(size);
  const below = new Float64Array(values.length);
  // Sums of the column at hand, by row; and which of its rows it has.
  const sums = new Float64Array(size);
  const weight = new Float64Array(size);
  const inColumn = new Int32Array(size).fill(-1);
  for (let j = size - 1; j >= 0; j--) {
    const [start, end] = [columns[j] ?? 0, columns[j + 1] ?? 0];
    for (let p = start; p < end; p++) {
      const i = rows[p] ?? 0;
      sums[i] = 0;
      weight[i] = values[p] ?? 0;
      inColumn[i] = j;
    }
    for (let p = start; p < end; p++) {
      const k = rows[p] ?? 0;
      const lk = values[p] ?? 0;
      let sum = (diagonal[k] ?? 0) * lk;
      for (let q = columns[k] ?? 0; q < (columns[k + 1] ?? 0); q++) {
        const i = rows[q] ?? 0;
        if (inColumn[i] !== j) continue;
        const z = below[q] ?? 0;
        sums[i] = (sums[i] ?? 0) + z * lk;
        sum += z * (weight[i] ?? 0);
      }
      sums[k] = (sums[k] ?? 0) + sum;
    }
    let own = 1 / (pivots[j] ?? 1);
    for (let p = start; p < end; p++) {
      const z = -(sums[rows[p] ?? 0] ?? 0);
      below[p] = z;
      own -= z * (values[p] ?? 0);
    }
    diagonal[j] = own;
  }
  const out = new Float64Array(size);
  for (let k = 0; k < size; k++) out[order[k] ?? 0] = diagonal[k] ?? 0;
  return out;
}
