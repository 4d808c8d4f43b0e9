/** Sizes of paper. Lengths of a sheet are in the unit of drawings, of which there are 96 in an inch. */

export const papers = ['a4', 'a3', 'letter'] as const;
export type Paper = (typeof papers)[number];

/** Upright, in millimetres: ISO 216, and letter of ANSI/ASME Y14.1. */
const millimetres: Readonly<Record<Paper, readonly [width: number, height: number]>> = {
  a4: [210, 297],
  a3: [297, 420],
  letter: [215.9, 279.4],
};

export interface Page {
  readonly width: number;
  readonly height: number;
}

export const unitsOf = (mm: number): number => (mm * 96) / 25.4;

/** For PDF, which counts 72 to the inch. */
export const pointsOf = (units: number): number => (units * 72) / 96;

export function pageOf(paper: Paper, lies: 'upright' | 'across'): Page {
  const [width, height] = millimetres[paper].map(unitsOf) as [number, number];
  return lies === 'upright' ? { width, height } : { width: height, height: width };
}
