/** The set `cfr-33-183`: 33 CFR 183 subpart I, for wiring in gauges. */
import {
  cfr183BundleFactors,
  cfr183Bundles,
  cfr183Columns,
  cfr183Device,
  cfr183DeviceAt50,
  cfr183EngineFactors,
  cfr183EngineSpace,
  cfr183Rows,
  cfr183Table5,
} from '../../tables/cfr-33-183.ts';
import { dropEssential, dropOther, pvCurrentFactor, tailCfr, unfusedCfr } from '../../tables/limits.ts';
import { fuseAmps } from '../../tables/sizes.ts';
import { awgAreaMm2 } from '../conductors.ts';
import { type CapacityTable, ofMaterial, rowOfSize, squareRootFactor, tableCapacity } from './capacity-table.ts';
import { conductorsBunched, type LimitSet } from './limit-set.ts';

const rows = [...cfr183Rows].map(([gauge, amps]) => ({ gauge, areaMm2: awgAreaMm2(gauge), amps }));

/** Note 1 is for 50 °C. */
const engineCelsius = 50;
/** Note 2 and the 150 % of 183.455 part at this nominal voltage. */
const partingVolts = 50;

/** A device may be this part of the table; from 50 V on only where no standard rating lies below. */
const mostPart = 1.5;

/** From 50 V on no more than the capacity, or the next standard rating where none is as much. */
function nextStandard(amps: number) {
  const rating = fuseAmps(undefined).find((one) => one >= amps * (1 - 1e-9));
  return rating !== undefined && rating > amps && rating <= amps * mostPart
    ? { amps: rating, source: cfr183DeviceAt50 }
    : { amps, source: undefined };
}

const table: CapacityTable = {
  columns: cfr183Columns,
  source: () => cfr183Table5,
  listed: ({ insulationCelsius }, column) => cfr183Columns[column] === insulationCelsius,
  counts: 'conductors',
  bunching(conditions) {
    const together = conductorsBunched(conditions);
    // Note 2 speaks of conductors at 50 V and above only: there is no bundle limit below.
    const row =
      conditions.nominalVolts < partingVolts ? undefined : cfr183BundleFactors.findLast(({ from }) => together >= from);
    return row === undefined ? { together, factor: 1 } : { together, factor: row.factor, source: cfr183Bundles };
  },
  amps({ size, aluminium }, column) {
    const amps = rowOfSize(rows, size)?.amps[column];
    return amps === undefined ? undefined : ofMaterial({ amps, exact: size.system === 'awg' }, aluminium);
  },
  ambient({ ambientCelsius, engineSpace }, column) {
    if (engineSpace && ambientCelsius <= engineCelsius)
      return { factor: cfr183EngineFactors[column] ?? 1, source: cfr183EngineSpace };
    if (ambientCelsius <= 30) return { factor: 1 };
    // The table stops at its two ambients; between and beyond them the square-root rule that its note 1 follows.
    return { factor: squareRootFactor(cfr183Columns[column] ?? 0, ambientCelsius), derived: true };
  },
};

export const cfr33183: LimitSet = {
  id: 'cfr-33-183',
  title: '33 CFR 183 subpart I',
  sizesIn: 'awg',
  table,
  capacity: (conditions) => tableCapacity(table, conditions),
  permittedDeviceAmps: ({ amps }, nominalVolts) =>
    nominalVolts < partingVolts ? { amps: amps * mostPart, source: cfr183Device } : nextStandard(amps),
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.1, source: dropOther }),
  unfusedLength: () => ({ metres: 72 * 0.0254, source: unfusedCfr }),
  tail: (sheathed) => ({ metres: (sheathed ? 40 : 7) * 0.0254, source: tailCfr }),
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
