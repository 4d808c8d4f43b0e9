/** The set `iso-13297`: small craft. Its capacities come from memory, and every finding that rests on it says so. */
import {
  iso13297Columns,
  iso13297Engine,
  iso13297EngineCelsius,
  iso13297EngineFactors,
  iso13297Rows,
  iso13297Table,
} from '../../tables/iso-13297.ts';
import { dropEssential, dropOther, pvCurrentFactor, unfusedIec, unfusedIso } from '../../tables/limits.ts';
import type { TableSource } from '../../tables/table.ts';
import { areaMm2 } from '../conductors.ts';
import { type Capacity, type CapacityConditions, conductorsBunched, type LimitSet } from './limit-set.ts';

/** Aluminium carries about 0.78 of copper's current at the same size (from memory). */
const aluminiumFactor = 0.78;

function ambientFactor({ ambientCelsius, insulationCelsius, engineSpace }: CapacityConditions, column: number): number {
  // The column of 85 °C serves up to 90 °C.
  const limit = iso13297Columns[column] === 85 ? Math.min(90, insulationCelsius) : (iso13297Columns[column] ?? 0);
  const engine = engineSpace ? iso13297EngineFactors[column] : undefined;
  if (engine !== undefined && ambientCelsius <= iso13297EngineCelsius) return engine;
  // Other ambients have no table here: the square-root rule, and no gain in the cold.
  const byRule = Math.min(1, Math.sqrt(Math.max(0, limit - ambientCelsius) / (limit - 30)));
  return Math.min(byRule, engine ?? 1);
}

function capacity(c: CapacityConditions): Capacity {
  const { insulationCelsius, ambientCelsius } = c;
  const sources: TableSource[] = [iso13297Table];
  // For direct current of up to 50 V no factor for bunching is known to stand in it.
  const base = {
    ambientCelsius,
    insulationCelsius,
    bunchingFactor: 1,
    circuits: conductorsBunched(c),
    counts: 'conductors' as const,
  };
  const none = (reason: Capacity['reason']): Capacity => ({
    ...base,
    amps: 0,
    tableAmps: 0,
    ambientFactor: 0,
    derived: false,
    reason,
    sources,
  });
  const column = iso13297Columns.findLastIndex((celsius) => celsius <= insulationCelsius);
  if (column === -1) return none('insulation-below-table');
  const area = areaMm2(c.size);
  // A size between two counts as the thinner.
  const row = iso13297Rows.findLast((one) => one.areaMm2 <= area * 1.0001);
  const tableAmps = row?.amps[column];
  if (row === undefined || tableAmps === undefined) return none('size-not-in-table');
  const factor = ambientFactor(c, column);
  if (factor === 0) return none('ambient-at-limit');
  const inEngineSpace = c.engineSpace && ambientCelsius <= iso13297EngineCelsius && column > 0;
  if (inEngineSpace) sources.push(iso13297Engine);
  // 90 °C insulation stands in the column of 85 °C to 90 °C.
  const listed = iso13297Columns[column] === insulationCelsius || insulationCelsius === 90;
  return {
    ...base,
    amps: tableAmps * factor * (c.aluminium ? aluminiumFactor : 1),
    tableAmps,
    ambientFactor: factor,
    derived: row.areaMm2 !== area || !listed || c.aluminium || (factor !== 1 && !inEngineSpace),
    reason: undefined,
    sources,
  };
}

export const iso13297: LimitSet = {
  id: 'iso-13297',
  title: 'ISO 13297 (values not checked against the printed standard)',
  caution:
    'The values of iso-13297 are not checked against the printed standard: compare them with it before relying on this.',
  capacity,
  permittedDeviceAmps: ({ amps }) => ({ amps, source: undefined }),
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.1, source: dropOther }),
  // Longer is allowed where it is sheathed and nothing else is possible; the figure then is that of IEC 60364.
  unfusedLength: (sheathed) => (sheathed ? { metres: 3, source: unfusedIec } : { metres: 0.2, source: unfusedIso }),
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
