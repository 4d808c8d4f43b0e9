/** Current-carrying capacity of single-core copper cables with 90 °C thermosetting insulation. */
import type { TableSource } from './table.ts';

export const table4E1A: TableSource = {
  title: 'Single-core 90 °C thermosetting copper cables, two cables d.c.',
  citation: 'BS 7671 (17th and 18th edition) table 4E1A',
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

export const table4E1ARows: readonly CapacityRow[] = [
  { areaMm2: 1, conduit: 17, clipped: 19 },
  { areaMm2: 1.5, conduit: 23, clipped: 25 },
  { areaMm2: 2.5, conduit: 31, clipped: 34 },
  { areaMm2: 4, conduit: 42, clipped: 46 },
  { areaMm2: 6, conduit: 54, clipped: 59 },
  { areaMm2: 10, conduit: 75, clipped: 81 },
  { areaMm2: 16, conduit: 100, clipped: 109 },
  { areaMm2: 25, conduit: 133, clipped: 143 },
  { areaMm2: 35, conduit: 164, clipped: 176 },
  { areaMm2: 50, conduit: 198, clipped: 228 },
  { areaMm2: 70, conduit: 253, clipped: 293 },
  { areaMm2: 95, conduit: 306, clipped: 355 },
  { areaMm2: 120, conduit: 354, clipped: 413 },
  { areaMm2: 150, conduit: 393, clipped: 476 },
  { areaMm2: 185, conduit: 449, clipped: 545 },
  { areaMm2: 240, conduit: 528, clipped: 644 },
];
