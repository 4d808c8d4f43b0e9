/** Current-carrying capacity of single-core copper cables with 70 °C thermoplastic insulation. */
import type { TableSource } from './table.ts';

export const table4D1A: TableSource = {
  title: 'Single-core 70 °C thermoplastic copper cables, two cables d.c.',
  citation: 'BS 7671 (17th and 18th edition) table 4D1A',
  units: 'mm², A; ambient 30 °C',
  status: 'confirmed',
};

export interface CapacityRow {
  readonly areaMm2: number;
  /** Reference method B: in conduit or trunking on a wall, two cables. */
  readonly conduit: number;
  /** Reference method C: clipped direct, two cables. */
  readonly clipped: number;
}

export const table4D1ARows: readonly CapacityRow[] = [
  { areaMm2: 1, conduit: 13.5, clipped: 15.5 },
  { areaMm2: 1.5, conduit: 17.5, clipped: 20 },
  { areaMm2: 2.5, conduit: 24, clipped: 27 },
  { areaMm2: 4, conduit: 32, clipped: 37 },
  { areaMm2: 6, conduit: 41, clipped: 47 },
  { areaMm2: 10, conduit: 57, clipped: 65 },
  { areaMm2: 16, conduit: 76, clipped: 87 },
  { areaMm2: 25, conduit: 101, clipped: 114 },
  { areaMm2: 35, conduit: 125, clipped: 141 },
  { areaMm2: 50, conduit: 151, clipped: 182 },
  { areaMm2: 70, conduit: 192, clipped: 234 },
  { areaMm2: 95, conduit: 232, clipped: 284 },
  { areaMm2: 120, conduit: 269, clipped: 330 },
  { areaMm2: 150, conduit: 300, clipped: 381 },
  { areaMm2: 185, conduit: 341, clipped: 436 },
  { areaMm2: 240, conduit: 400, clipped: 515 },
];
