/** Correction factors of IEC 60364-5-52 for ambient temperature and for circuits bunched together. */
import type { TableSource } from './table.ts';

export const ambientFactors: TableSource = {
  title: 'Correction for ambient air temperatures other than 30 °C',
  citation: 'IEC 60364-5-52 table B.52.14',
  units: 'multiplier; the square-root rule √((θmax − θa)/(θmax − 30)) stays within 0.01 of it',
  status: 'confirmed',
};

export const bunchingFactors: TableSource = {
  title: 'Reduction for bunched circuits or multicore cables, in air, on a surface, embedded or enclosed',
  citation: 'IEC 60364-5-52 table B.52.17, item 1 (BS 7671 table 4C1)',
  units: 'multiplier by number of circuits',
  status: 'confirmed',
};

export const lightlyLoadedIec: TableSource = {
  title: 'Cables that need not be counted in a bunch',
  citation: 'IEC 60364-5-52 clause 523.5: a cable expected to carry no more than 30 % of its grouped capacity',
  units: 'part of the grouped capacity',
  status: 'from memory',
};

export const aluminiumRule: TableSource = {
  title: 'Aluminium against copper of the same size',
  citation: '0.78 of what copper carries',
  units: 'multiplier',
  status: 'from memory',
};

const byCircuits: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 0.8],
  [3, 0.7],
  [4, 0.65],
  [5, 0.6],
  [6, 0.57],
  [7, 0.54],
  [8, 0.52],
  [9, 0.5],
  [12, 0.45],
  [16, 0.41],
  [20, 0.38],
];

/** Factor for a number of circuits; between the table's columns the next larger number counts, above 20 that of 20. */
export function bunchingFactor(circuits: number): number {
  for (const [count, factor] of byCircuits) if (circuits <= count) return factor;
  return byCircuits.at(-1)?.[1] ?? 1;
}
