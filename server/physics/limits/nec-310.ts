/** The set `nec-310`: NEC article 310 for wiring in gauges. It counts current-carrying conductors. */
import { dropEssential, dropNec, pvCurrentFactorNec, unfusedNec } from '../../tables/limits.ts';
import {
  kcmilMm2,
  type NecRow,
  nec31016,
  necAdjustment,
  necAdjustmentFactors,
  necAmbient,
  necAmbientFactors,
  necColumns,
  necRows,
  necSmallAluminium,
  necSmallAluminiumAmps,
  necSmallConductors,
  necSmallCopperAmps,
} from '../../tables/nec-310.ts';
import type { TableSource } from '../../tables/table.ts';
import { areaMm2, awgAreaMm2, type Size } from '../conductors.ts';
import { type Capacity, type CapacityConditions, conductorsBunched, type LimitSet } from './limit-set.ts';

function rowArea({ size }: NecRow): number {
  return 'gauge' in size ? awgAreaMm2(size.gauge) : size.kcmil * kcmilMm2;
}

/** The gauge itself; for mm² the thickest listed size that is not thicker. */
function rowFor(size: Size): NecRow | undefined {
  if (size.system === 'awg') return necRows.find((row) => 'gauge' in row.size && row.size.gauge === size.gauge);
  return necRows.findLast((row) => rowArea(row) <= areaMm2(size) * 1.0001);
}

function ambientFactor(celsius: number, column: number): number | undefined {
  const band = necAmbientFactors.find(({ upTo }) => celsius <= upTo);
  return band?.factors[column];
}

/** What 240.4(D) lets a device be for a small conductor, whatever its capacity. */
function deviceLimit({ size }: NecRow, aluminium: boolean): Capacity['deviceLimit'] {
  if (!('gauge' in size)) return undefined;
  const amps = (aluminium ? necSmallAluminiumAmps : necSmallCopperAmps).get(size.gauge);
  return amps === undefined ? undefined : { amps, source: aluminium ? necSmallAluminium : necSmallConductors };
}

function capacity(c: CapacityConditions): Capacity {
  const { insulationCelsius, ambientCelsius } = c;
  const conductors = conductorsBunched(c);
  const sources: TableSource[] = [nec31016];
  const bunching = necAdjustmentFactors.findLast(({ from }) => conductors >= from)?.factor ?? 1;
  if (bunching !== 1) sources.push(necAdjustment);
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
  const column = necColumns.findLastIndex((celsius) => celsius <= insulationCelsius);
  if (column === -1) return none('insulation-below-table');
  const row = rowFor(c.size);
  const tableAmps = (c.aluminium ? row?.aluminium : row?.copper)?.[column];
  if (row === undefined || tableAmps === undefined) return none('size-not-in-table');
  const factor = ambientFactor(ambientCelsius, column);
  // Where the table of factors ends there is no capacity any more.
  if (factor === undefined) return none('ambient-at-limit');
  if (factor !== 1) sources.push(necAmbient);
  return {
    ...base,
    amps: tableAmps * factor * bunching,
    tableAmps,
    ambientFactor: factor,
    derived: c.size.system === 'mm2' || necColumns[column] !== insulationCelsius,
    reason: undefined,
    sources,
    deviceLimit: deviceLimit(row, c.aluminium),
  };
}

export const nec310: LimitSet = {
  id: 'nec-310',
  title: 'NEC article 310',
  capacity,
  permittedDeviceAmps: ({ amps, deviceLimit: limit }) =>
    limit !== undefined && limit.amps < amps ? limit : { amps, source: undefined },
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.05, source: dropNec }),
  unfusedLength: () => ({ metres: 18 * 0.0254, source: unfusedNec }),
  pvFactor: { factor: 1.25 * 1.25, source: pvCurrentFactorNec },
};
