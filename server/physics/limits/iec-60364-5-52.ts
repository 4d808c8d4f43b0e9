/** The set `iec-60364-5-52`: capacities of BS 7671 4D1A/4E1A with the correction factors of IEC 60364-5-52. */
import { type CapacityRow, table4D1A, table4D1ARows } from '../../tables/bs-7671-4d1a.ts';
import { table4E1A, table4E1ARows } from '../../tables/bs-7671-4e1a.ts';
import { ambientFactors, bunchingFactor, bunchingFactors, lightlyLoadedIec } from '../../tables/factors.ts';
import { dropEssential, dropIec, pvCurrentFactor, unfusedIec } from '../../tables/limits.ts';
import type { TableSource } from '../../tables/table.ts';
import { areaMm2 } from '../conductors.ts';
import type { Capacity, CapacityConditions, LimitSet } from './limit-set.ts';

/** Aluminium carries about 0.78 of copper's current at the same size (from memory). */
const aluminiumFactor = 0.78;

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

function capacity(c: CapacityConditions): Capacity {
  const { insulationCelsius, ambientCelsius } = c;
  const circuits = bunchedCircuits(c.bunchedWith, c.cores, c.bunchedCores);
  const bunching = bunchingFactor(circuits);
  const sources: TableSource[] = [];
  const base = { ambientCelsius, insulationCelsius, bunchingFactor: bunching, circuits, counts: 'circuits' as const };
  const none = (reason: Capacity['reason']): Capacity => ({
    ...base,
    amps: 0,
    tableAmps: 0,
    ambientFactor: 0,
    derived: false,
    reason,
    sources,
  });
  if (insulationCelsius < 70) return none('insulation-below-table');
  if (ambientCelsius >= insulationCelsius) return none('ambient-at-limit');
  const hot = insulationCelsius >= 90;
  const rows = hot ? table4E1ARows : table4D1ARows;
  sources.push(hot ? table4E1A : table4D1A);
  const read = tabled(rows, areaMm2(c.size), c.inConduit);
  const tableAmps = read.amps * (c.aluminium ? aluminiumFactor : 1);
  // Below 90 °C the 70 °C column counts as it stands; above 90 °C the 90 °C column is carried on by the square-root rule.
  const limit = insulationCelsius > 90 ? insulationCelsius : hot ? 90 : 70;
  const effectiveAmbient = ambientCelsius;
  if (effectiveAmbient >= limit) return none('ambient-at-limit');
  const ambientFactor = Math.sqrt((limit - effectiveAmbient) / ((hot ? 90 : 70) - 30));
  if (ambientCelsius !== 30) sources.push(ambientFactors);
  if (bunching !== 1) sources.push(bunchingFactors);
  return {
    ...base,
    amps: tableAmps * ambientFactor * bunching,
    tableAmps,
    ambientFactor,
    derived: insulationCelsius > 90 || !read.exact || c.aluminium,
    reason: undefined,
    sources,
  };
}

export const iec60364552: LimitSet = {
  id: 'iec-60364-5-52',
  title: 'IEC 60364-5-52 with the capacities of BS 7671',
  capacity,
  permittedDeviceAmps: ({ amps }) => ({ amps, source: undefined }),
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.05, source: dropIec }),
  unfusedLength: () => ({ metres: 3, source: unfusedIec }),
  lightlyLoaded: { ratio: 0.3, source: lightlyLoadedIec },
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
