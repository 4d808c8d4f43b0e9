/** The smallest conductors that a set of limits lets be used, whatever they carry. */
import type { TableSource } from './table.ts';

export interface LeastSize {
  /** A conductor laid by itself, and one inside a sheath with others, in mm². */
  readonly aloneMm2: number;
  readonly sheathedMm2: number;
  /** A conductor no longer than this is let off, in metres. */
  readonly shortMetres: number;
  readonly source: TableSource;
}

const iso: LeastSize = {
  aloneMm2: 1,
  sheathedMm2: 0.75,
  shortMetres: 0.2,
  source: {
    title: 'Least cross-section of conductors',
    citation:
      'ISO 10133 clause 7.7: 1 mm² where longer than 200 mm and laid separately, 0.75 mm² in a sheath with others',
    units: 'mm²',
    status: 'confirmed',
  },
};

/** 16 and 18 AWG by ASTM B258. */
const cfr: LeastSize = {
  aloneMm2: 1.3087,
  sheathedMm2: 0.823,
  shortMetres: 0,
  source: {
    title: 'Least gauge of conductors',
    citation: '33 CFR 183.425(d) and (e): 16 AWG where installed separately, 18 AWG in a sheath with others',
    units: 'mm²',
    status: 'confirmed',
  },
};

const nec: LeastSize = {
  aloneMm2: 0.823,
  sheathedMm2: 0.823,
  shortMetres: 0,
  source: {
    title: 'Least gauge of conductors',
    citation: 'NEC (NFPA 70) table 551.10(E)(1): from 18 AWG on',
    units: 'mm²',
    status: 'from memory',
  },
};

/** By the published set; the others follow the standard for small craft. */
export const leastSizes: ReadonlyMap<string, LeastSize> = new Map([
  ['iec-60364-5-52', iso],
  ['iso-13297', iso],
  ['cfr-33-183', cfr],
  ['nec-310', nec],
]);

/** Least cross-section in mm² that a conductor of so many metres may have by a published set; undefined where it sets none. */
export function leastAreaMm2(set: string, sheathed: boolean, lengthMetres: number | undefined): number | undefined {
  const least = leastSizes.get(set);
  if (least === undefined || (lengthMetres !== undefined && lengthMetres <= least.shortMetres)) return undefined;
  return sheathed ? least.sheathedMm2 : least.aloneMm2;
}

/** A gauge is told to two figures more than anybody measures. */
export function isAtLeast(areaMm2: number, neededMm2: number): boolean {
  return areaMm2 >= neededMm2 * 0.999;
}
