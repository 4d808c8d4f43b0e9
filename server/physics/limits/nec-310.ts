/** The set `nec-310`: NEC article 310 for wiring in gauges. It counts current-carrying conductors. */
import { dropEssential, dropNec, pvCurrentFactorNec, tailNec, unfusedNec } from '../../tables/limits.ts';
import {
  kcmilMm2,
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
import { awgAreaMm2 } from '../conductors.ts';
import { type CapacityTable, rowOfSize, tableCapacity } from './capacity-table.ts';
import { type Capacity, conductorsBunched, type LimitSet } from './limit-set.ts';

const rows = necRows.map(({ size, copper, aluminium }) =>
  'gauge' in size
    ? { gauge: size.gauge, areaMm2: awgAreaMm2(size.gauge), copper, aluminium }
    : { gauge: undefined, areaMm2: size.kcmil * kcmilMm2, copper, aluminium },
);

/** What 240.4(D) lets a device be for a small conductor, whatever its capacity. */
function deviceLimit(gauge: number | undefined, aluminium: boolean): Capacity['deviceLimit'] {
  if (gauge === undefined) return undefined;
  const amps = (aluminium ? necSmallAluminiumAmps : necSmallCopperAmps).get(gauge);
  return amps === undefined ? undefined : { amps, source: aluminium ? necSmallAluminium : necSmallConductors };
}

const table: CapacityTable = {
  columns: necColumns,
  source: () => nec31016,
  listed: ({ insulationCelsius }, column) => necColumns[column] === insulationCelsius,
  counts: 'conductors',
  bunching(conditions) {
    const together = conductorsBunched(conditions);
    const factor = necAdjustmentFactors.findLast(({ from }) => together >= from)?.factor ?? 1;
    return { together, factor, source: factor === 1 ? undefined : necAdjustment };
  },
  amps({ size, aluminium }, column) {
    const row = rowOfSize(rows, size);
    // Aluminium has columns of its own here.
    const amps = (aluminium ? row?.aluminium : row?.copper)?.[column];
    return row === undefined || amps === undefined
      ? undefined
      : { amps, exact: size.system === 'awg', deviceLimit: deviceLimit(row.gauge, aluminium) };
  },
  ambient({ ambientCelsius }, column) {
    // Where the table of factors ends there is no capacity any more.
    const factor = necAmbientFactors.find(({ upTo }) => ambientCelsius <= upTo)?.factors[column];
    return factor === undefined ? undefined : { factor, source: factor === 1 ? undefined : necAmbient };
  },
};

export const nec310: LimitSet = {
  id: 'nec-310',
  title: 'NEC article 310',
  sizesIn: 'awg',
  table,
  capacity: (conditions) => tableCapacity(table, conditions),
  permittedDeviceAmps: ({ amps, deviceLimit: limit }) =>
    limit !== undefined && limit.amps < amps ? limit : { amps, source: undefined },
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.05, source: dropNec }),
  unfusedLength: () => ({ metres: 18 * 0.0254, source: unfusedNec }),
  tail: () => ({ metres: 10 * 0.3048, timesCapacity: 10, source: tailNec }),
  pvFactor: { factor: 1.25 * 1.25, source: pvCurrentFactorNec },
};
