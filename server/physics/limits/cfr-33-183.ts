/** The set `cfr-33-183`: 33 CFR 183 subpart I, for wiring in gauges. */
import {
  cfr183BundleFactors,
  cfr183Bundles,
  cfr183Columns,
  cfr183Device,
  cfr183EngineFactors,
  cfr183EngineSpace,
  cfr183Rows,
  cfr183Table5,
} from '../../tables/cfr-33-183.ts';
import { dropEssential, dropOther, pvCurrentFactor, unfusedCfr } from '../../tables/limits.ts';
import type { TableSource } from '../../tables/table.ts';
import { areaMm2, awgAreaMm2, type Size } from '../conductors.ts';
import { type Capacity, type CapacityConditions, conductorsBunched, type LimitSet } from './limit-set.ts';

/** The gauge itself; for mm² the thickest gauge that is not thicker. */
function gaugeFor(size: Size): number | undefined {
  if (size.system === 'awg') return cfr183Rows.has(size.gauge) ? size.gauge : undefined;
  const area = areaMm2(size);
  const fitting = [...cfr183Rows.keys()].filter((gauge) => awgAreaMm2(gauge) <= area * 1.0001);
  return fitting.length === 0 ? undefined : Math.min(...fitting);
}

function capacity(c: CapacityConditions): Capacity {
  const { insulationCelsius, ambientCelsius } = c;
  const conductors = conductorsBunched(c);
  const sources: TableSource[] = [cfr183Table5];
  let bunching = 1;
  // Note 2 speaks of conductors at 50 V and above only: there is no bundle limit below.
  if (c.nominalVolts >= 50) for (const row of cfr183BundleFactors) if (conductors >= row.from) bunching = row.factor;
  if (bunching !== 1) sources.push(cfr183Bundles);
  const base = {
    ambientCelsius,
    insulationCelsius,
    bunchingFactor: bunching,
    circuits: conductors,
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
  const column = cfr183Columns.findLastIndex((celsius) => celsius <= insulationCelsius);
  if (column === -1) return none('insulation-below-table');
  if (ambientCelsius >= insulationCelsius) return none('ambient-at-limit');
  const gauge = gaugeFor(c.size);
  const tableAmps = gauge === undefined ? undefined : cfr183Rows.get(gauge)?.[column];
  if (tableAmps === undefined) return none('size-not-in-table');
  const limit = cfr183Columns[column] ?? insulationCelsius;
  let ambientFactor = 1;
  let derived = c.size.system === 'mm2' || limit !== insulationCelsius;
  if (c.engineSpace && ambientCelsius <= 50) {
    ambientFactor = cfr183EngineFactors[column] ?? 1;
    sources.push(cfr183EngineSpace);
  } else if (ambientCelsius > 30) {
    // The table stops at its two ambients; between and beyond them the square-root rule that its note 1 follows.
    ambientFactor = Math.sqrt(Math.max(0, limit - ambientCelsius) / (limit - 30));
    derived = true;
    if (ambientFactor === 0) return none('ambient-at-limit');
  }
  return {
    ...base,
    amps: tableAmps * ambientFactor * bunching * (c.aluminium ? 0.78 : 1),
    tableAmps,
    ambientFactor,
    derived: derived || c.aluminium,
    reason: undefined,
    sources,
  };
}

export const cfr33183: LimitSet = {
  id: 'cfr-33-183',
  title: '33 CFR 183 subpart I',
  capacity,
  permittedDeviceAmps: ({ amps }, nominalVolts) =>
    nominalVolts < 50 ? { amps: amps * 1.5, source: cfr183Device } : { amps, source: undefined },
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.1, source: dropOther }),
  unfusedLength: () => ({ metres: 72 * 0.0254, source: unfusedCfr }),
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
