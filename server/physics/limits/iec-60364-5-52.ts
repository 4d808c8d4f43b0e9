/** The set `iec-60364-5-52`: capacities of BS 7671 4D1A/4E1A with the correction factors of IEC 60364-5-52. */
import { type CapacityRow, table4D1A, table4D1ARows } from '../../tables/bs-7671-4d1a.ts';
import { table4E1A, table4E1ARows } from '../../tables/bs-7671-4e1a.ts';
import { ambientFactors, bunchingFactor, bunchingFactors, lightlyLoadedIec } from '../../tables/factors.ts';
import { dropEssential, dropIec, pvCurrentFactor, tailIec, unfusedIec } from '../../tables/limits.ts';
import { areaMm2 } from '../conductors.ts';
import { type CapacityTable, ofMaterial, squareRootFactor, tableCapacity } from './capacity-table.ts';
import type { LimitSet } from './limit-set.ts';

/**
 * Amperes at 30 °C. Between rows, below 1 mm² and for gauges, the capacity goes with the size by the power law that joins
 * the two nearest rows; that is derived, not read.
 */
function tabled(rows: readonly CapacityRow[], area: number, inConduit: boolean): { amps: number; exact: boolean } {
  const amps = (row: CapacityRow) => (inConduit ? row.conduit : row.clipped);
  const exact = rows.find((row) => row.areaMm2 === area);
  if (exact !== undefined) return { amps: amps(exact), exact: true };
  const above = rows.findIndex((row) => row.areaMm2 > area);
  const upper = rows[above === -1 ? rows.length - 1 : Math.max(1, above)] as CapacityRow;
  const lower = rows[above === -1 ? rows.length - 2 : Math.max(0, above - 1)] as CapacityRow;
  const power = Math.log(amps(upper) / amps(lower)) / Math.log(upper.areaMm2 / lower.areaMm2);
  return { amps: amps(lower) * (area / lower.areaMm2) ** power, exact: false };
}

/** ⌈(cables + 1)/2⌉ for single cores, this one included among the cables; every multicore cable is a circuit of its own. */
export function bunchedCircuits(bunchedWith: number, cores: number, bunchedCores?: readonly number[]): number {
  if (bunchedCores === undefined) return cores > 1 ? bunchedWith + 1 : Math.max(1, Math.ceil((bunchedWith + 1) / 2));
  const all = [cores, ...bunchedCores];
  const multicore = all.filter((one) => one > 1).length;
  return multicore + Math.ceil((all.length - multicore) / 2);
}

/** One column for each table, by the insulation that it is for, °C. */
const columns = [70, 90] as const;
const tables = [
  { rows: table4D1ARows, source: table4D1A },
  { rows: table4E1ARows, source: table4E1A },
] as const;

const table: CapacityTable = {
  columns,
  source: (column) => tables[column === 0 ? 0 : 1].source,
  // Below 90 °C the 70 °C column counts as it stands; above 90 °C the 90 °C column is carried on by the square-root rule.
  listed: ({ insulationCelsius }) => insulationCelsius <= 90,
  counts: 'circuits',
  bunching({ bunchedWith, cores, bunchedCores }) {
    const together = bunchedCircuits(bunchedWith, cores, bunchedCores);
    const factor = bunchingFactor(together);
    return { together, factor, source: factor === 1 ? undefined : bunchingFactors };
  },
  amps({ size, inConduit, aluminium }, column) {
    return ofMaterial(tabled(tables[column === 0 ? 0 : 1].rows, areaMm2(size), inConduit), aluminium);
  },
  ambient({ ambientCelsius, insulationCelsius }, column) {
    const reference = columns[column === 0 ? 0 : 1];
    const limit = Math.max(reference, insulationCelsius > 90 ? insulationCelsius : 0);
    return {
      factor: squareRootFactor(limit, ambientCelsius, reference),
      source: ambientCelsius === 30 ? undefined : ambientFactors,
    };
  },
};

export const iec60364552: LimitSet = {
  id: 'iec-60364-5-52',
  title: 'IEC 60364-5-52 with the capacities of BS 7671',
  sizesIn: 'mm2',
  table,
  capacity: (conditions) => tableCapacity(table, conditions),
  permittedDeviceAmps: ({ amps }) => ({ amps, source: undefined }),
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.05, source: dropIec }),
  unfusedLength: () => ({ metres: 3, source: unfusedIec }),
  tail: () => ({ metres: 3, source: tailIec }),
  lightlyLoaded: { ratio: 0.3, source: lightlyLoadedIec },
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
