/** Breaking capacity with direct current that fuse-links of a body style usually have: what stands in where none is stated. */
import type { TableSource } from './table.ts';

interface Usual {
  readonly amps: number;
  readonly source: TableSource;
}

function usual(amps: number, citation: string): Usual {
  return {
    amps,
    source: { title: 'Rated breaking capacity with d.c.', citation, units: 'A', status: 'from memory' },
  };
}

const byStyle: Readonly<Record<string, Usual>> = {
  blade: usual(1000, 'ISO 8820-3, blade, 32 V'),
  'mini-blade': usual(1000, 'ISO 8820-3, blade, 32 V'),
  'maxi-blade': usual(1000, 'ISO 8820-3, blade, 32 V'),
  'bolt-in': usual(2000, 'ISO 8820-5, bolt-in, 32 V and 58 V'),
  strip: usual(2000, 'ISO 8820-5, bolt-in, 32 V and 58 V'),
  'class-t': usual(20_000, 'UL 248-15, optional d.c. marking at 125 V'),
  gpv: usual(10_000, 'IEC 60269-6, least for gPV'),
};

/**
 * In ampere; undefined where a style has no usual figure: cartridges differ too much, and their standards rate them with
 * alternating current. Glass: 35 A, or ten times the rating where that is more.
 */
export function usualBreakingCapacity(style: string | undefined, ratedAmps: number | undefined): Usual | undefined {
  if (style === 'glass')
    return usual(Math.max(35, 10 * (ratedAmps ?? 0)), 'IEC 60127-2, 5 × 20, low breaking capacity');
  return style === undefined ? undefined : byStyle[style];
}
