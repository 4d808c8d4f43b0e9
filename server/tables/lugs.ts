/** Studs that cable lugs of a size are made for. */
import type { TableSource } from './table.ts';

export const lugSource: TableSource = {
  title: 'Studs that compression cable lugs are made for',
  citation: 'DIN 46235 and makers’ lists of compression cable lugs',
  units: 'mm of thread',
  status: 'from memory',
};

/** Up to this cross-section, the smallest and largest thread: the widest of what is usually sold. */
export const lugs: readonly { readonly toMm2: number; readonly leastMm: number; readonly mostMm: number }[] = [
  { toMm2: 1.6, leastMm: 3, mostMm: 10 },
  { toMm2: 2.7, leastMm: 3, mostMm: 10 },
  { toMm2: 6.7, leastMm: 4, mostMm: 12 },
  { toMm2: 10.6, leastMm: 5, mostMm: 12 },
  { toMm2: 16.9, leastMm: 5, mostMm: 12 },
  { toMm2: 26.8, leastMm: 5, mostMm: 16 },
  { toMm2: 35.1, leastMm: 6, mostMm: 16 },
  { toMm2: 53.6, leastMm: 6, mostMm: 16 },
  { toMm2: 70.1, leastMm: 8, mostMm: 20 },
  { toMm2: 120.1, leastMm: 8, mostMm: 20 },
  { toMm2: 240.1, leastMm: 10, mostMm: 20 },
];
