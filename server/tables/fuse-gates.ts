/** Time-current gates of fuse-links by their standard body style: between which times a fuse operates at a multiple of In. */
import type { TableSource } from './table.ts';

export interface Gate {
  /** Of the rated current. */
  readonly multiple: number;
  /** Operates no sooner, and no later, in second; no latest time where it need not operate at all. */
  readonly least: number;
  readonly most: number | undefined;
}

export const bladeGates: TableSource = {
  title: 'Operating-time gates of blade fuses',
  citation: 'ISO 8820-3 types C and F',
  units: 's at multiples of the rated current',
  status: 'from memory',
};

export const maxiGates: TableSource = {
  title: 'Operating-time gates of maxi-blade fuses',
  citation: 'ISO 8820-3 type E',
  units: 's at multiples of the rated current',
  status: 'from memory',
};

export const boltInGates: TableSource = {
  title: 'Operating-time gates of bolt-in fuses',
  citation: 'ISO 8820-5',
  units: 's at multiples of the rated current',
  status: 'from memory',
};

const typeC: readonly Gate[] = [
  { multiple: 1.1, least: 360_000, most: undefined },
  { multiple: 1.35, least: 0.75, most: 600 },
  { multiple: 1.6, least: 0.25, most: 50 },
  { multiple: 2, least: 0.15, most: 5 },
  { multiple: 3.5, least: 0.04, most: 0.5 },
  { multiple: 6, least: 0.02, most: 0.1 },
];

const typeE: readonly Gate[] = [
  { multiple: 1.1, least: 360_000, most: undefined },
  { multiple: 1.35, least: 60, most: 1800 },
  { multiple: 2, least: 4, most: 60 },
  { multiple: 3.5, least: 0.3, most: 7 },
  { multiple: 6, least: 0.1, most: 1 },
];

const boltIn: readonly Gate[] = [
  { multiple: 1.1, least: 14_400, most: undefined },
  { multiple: 1.35, least: 120, most: 1800 },
  { multiple: 2, least: 1, most: 15 },
  { multiple: 3.5, least: 0.3, most: 5 },
  { multiple: 6, least: 0.1, most: 1 },
];

/** Gates of a body style; undefined where none are known. The small blade is taken to be as the regular one. */
export function fuseGates(
  style: string | undefined,
): { readonly gates: readonly Gate[]; readonly source: TableSource } | undefined {
  if (style === 'blade' || style === 'mini-blade') return { gates: typeC, source: bladeGates };
  if (style === 'bolt-in' || style === 'strip') return { gates: boltIn, source: boltInGates };
  return style === 'maxi-blade' ? { gates: typeE, source: maxiGates } : undefined;
}
