/** Rated d.c. voltage that fuse-links of a body style usually have: what stands in where none is stated. */
import type { TableSource } from './table.ts';

interface Usual {
  readonly volts: number;
  readonly source: TableSource;
}

function usual(volts: number, citation: string): Usual {
  return { volts, source: { title: 'Rated voltage with d.c.', citation, units: 'V', status: 'from memory' } };
}

const blade = usual(32, 'ISO 8820-3, blade, 32 V');
const boltIn = usual(32, 'ISO 8820-5, bolt-in, 32 V');

const byStyle: Readonly<Record<string, Usual>> = {
  blade,
  'mini-blade': blade,
  'maxi-blade': blade,
  'bolt-in': boltIn,
  strip: boltIn,
  glass: usual(32, 'SAE J554, glass, 32 V'),
};

/** In volt; undefined where a style has no usual figure. */
export function usualFuseVolts(style: string | undefined): Usual | undefined {
  return style === undefined ? undefined : byStyle[style];
}
