/** How much less a battery gives the faster it is emptied: Peukert's exponent and the hours of the rated capacity, by chemistry. */
import type { TableSource } from './table.ts';

export const peukertUsual: TableSource = {
  title: 'Peukert’s exponent, and the hours in which the rated capacity is drawn',
  citation: 'usual figures of the trade by chemistry',
  units: 'none; h',
  status: 'common practice, no source',
};

export interface PeukertFigures {
  readonly exponent: number;
  readonly ratedHours: number;
}

const usual: Readonly<Record<string, PeukertFigures>> = {
  'lead-acid': { exponent: 1.2, ratedHours: 20 },
  agm: { exponent: 1.12, ratedHours: 20 },
  gel: { exponent: 1.15, ratedHours: 20 },
  'lithium-iron-phosphate': { exponent: 1.03, ratedHours: 5 },
  'lithium-ion': { exponent: 1.05, ratedHours: 5 },
};

/** Undefined for a chemistry that is not known. */
export function usualPeukert(chemistry: string | undefined): PeukertFigures | undefined {
  return chemistry === undefined ? undefined : usual[chemistry];
}
