/** Standard sizes and ratings, smallest first: what a fix or a blank may choose. */
import type { TableSource } from './table.ts';

export const conductorSizes: TableSource = {
  title: 'Standard cross-sections',
  citation: 'IEC 60228, nominal cross-sections',
  units: 'mm²',
  status: 'confirmed',
};

export const areasMm2 = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240] as const;

/** Gauges from thin to thick; 0 is 1/0, -3 is 4/0. */
export const gauges = [18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3] as const;

export const fuseSource: TableSource = {
  title: 'Rated currents of blade fuses and of bolt-in and cartridge fuses',
  citation: 'ISO 8820-3 (blade, confirmed); bolt-in and cartridge ratings',
  units: 'A',
  status: 'from memory',
};

export const bladeAmps = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40] as const;
export const largeFuseAmps = [
  20, 25, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400,
] as const;

/** Ratings that a fuse of this body style comes in. */
export function fuseAmps(style: string | undefined): readonly number[] {
  if (style === 'blade' || style === 'mini-blade' || style === 'glass') return bladeAmps;
  if (style === undefined) return [...new Set([...bladeAmps, ...largeFuseAmps])].sort((a, b) => a - b);
  return largeFuseAmps;
}

/** What fuse-links of a body style are made in, for telling a rating that there is none of. */
export interface FuseSeries {
  readonly amps: readonly number[];
  readonly source: TableSource;
}

const series = (
  title: string,
  citation: string,
  status: TableSource['status'],
  amps: readonly number[],
): FuseSeries => ({
  amps,
  source: { title, citation, units: 'A', status },
});

const bladeSeries = series('Rated currents of blade fuses', 'ISO 8820-3', 'confirmed', [0.5, ...bladeAmps]);
const boltInSeries = series('Rated currents of bolt-in fuses', 'ISO 8820-5', 'from memory', [
  ...largeFuseAmps,
  35,
  120,
  275,
  425,
  450,
  500,
]);

const fuseSeriesByStyle: Readonly<Record<string, FuseSeries>> = {
  blade: bladeSeries,
  'mini-blade': bladeSeries,
  'maxi-blade': series(
    'Rated currents of maxi-blade fuses',
    'ISO 8820-3 type E',
    'from memory',
    [20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120],
  ),
  'bolt-in': boltInSeries,
  strip: boltInSeries,
};

/** Undefined where a style comes in series that differ from country to country and from maker to maker. */
export function fuseSeries(style: string | undefined): FuseSeries | undefined {
  return style === undefined ? undefined : fuseSeriesByStyle[style];
}

/** Styles of vehicle fuses that come in a rating, those of small ones first. */
export function stylesOf(rating: number): string[] {
  return Object.entries(fuseSeriesByStyle).flatMap(([style, { amps }]) => (amps.includes(rating) ? [style] : []));
}

/** Usual rated currents of fuses for panel strings (gPV), A: common practice, no source. */
export const stringFuseAmps = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 32] as const;

/** IEC 62548: a string fuse is above 1.5 and below 2.4 times the short-circuit current of its string (confirmed). */
export const stringFuseFactors = { least: 1.5, most: 2.4 } as const;

export const switchSource: TableSource = {
  title: 'Usual rated currents of isolators, switches and relays',
  citation: 'series of IEC 60059 preferred current ratings',
  units: 'A',
  status: 'from memory',
};

export const switchAmps = [6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400] as const;

/** Usual rated d.c. voltages of isolators, V: common practice, no source. */
export const isolatorVolts = [60, 80, 100, 125, 150, 250, 500, 600, 800, 1000, 1500] as const;

/** Usual rated currents of measuring shunts, A: common practice, no source. */
export const shuntAmps = [50, 100, 150, 200, 300, 500, 1000] as const;

/** Usual rated currents of low-voltage socket-outlets, A: common practice, no source. */
export const socketAmps = [5, 10, 15, 20] as const;
