/** The set `iso-13297`: small craft. Its capacities come from memory, and every finding that rests on it says so. */
import {
  iso13297Columns,
  iso13297Engine,
  iso13297EngineCelsius,
  iso13297EngineFactors,
  iso13297Rows,
  iso13297Table,
} from '../../tables/iso-13297.ts';
import { dropEssential, dropOther, pvCurrentFactor, tailIec, unfusedIec, unfusedIso } from '../../tables/limits.ts';
import { areaMm2 } from '../conductors.ts';
import { type CapacityTable, ofMaterial, squareRootFactor, tableCapacity, thickestWithin } from './capacity-table.ts';
import { conductorsBunched, type LimitSet } from './limit-set.ts';

const rows = iso13297Rows.map((row) => ({ gauge: undefined, ...row }));

const caution =
  'The values of iso-13297 are not checked against the printed standard: compare them with it before relying on this.';

/** The column of 85 °C serves up to this. */
const hotColumnCelsius = 90;

const table: CapacityTable = {
  columns: iso13297Columns,
  source: () => iso13297Table,
  listed: ({ insulationCelsius }, column) =>
    iso13297Columns[column] === insulationCelsius || insulationCelsius === hotColumnCelsius,
  counts: 'conductors',
  // For direct current of up to 50 V no factor for bunching is known to stand in it.
  bunching: (conditions) => ({ together: conductorsBunched(conditions), factor: 1 }),
  amps({ size, aluminium }, column) {
    // A size between two counts as the thinner.
    const row = thickestWithin(rows, size);
    const amps = row?.amps[column];
    return row === undefined || amps === undefined
      ? undefined
      : ofMaterial({ amps, exact: row.areaMm2 === areaMm2(size) }, aluminium);
  },
  ambient({ ambientCelsius, insulationCelsius, engineSpace }, column) {
    const own = iso13297Columns[column] ?? 0;
    const engine = engineSpace ? iso13297EngineFactors[column] : undefined;
    if (engine !== undefined && ambientCelsius <= iso13297EngineCelsius)
      return { factor: engine, source: iso13297Engine };
    // Other ambients have no table here: the square-root rule, and no gain in the cold.
    const limit = own === 85 ? Math.min(hotColumnCelsius, insulationCelsius) : own;
    const factor = Math.min(1, squareRootFactor(limit, ambientCelsius), engine ?? 1);
    return { factor, derived: factor !== 1 };
  },
};

export const iso13297: LimitSet = {
  id: 'iso-13297',
  title: 'ISO 13297 (values not checked against the printed standard)',
  cautionOn: () => caution,
  sizesIn: 'mm2',
  table,
  capacity: (conditions) => tableCapacity(table, conditions),
  permittedDeviceAmps: ({ amps }) => ({ amps, source: undefined }),
  drop: (essential) => (essential ? { ratio: 0.03, source: dropEssential } : { ratio: 0.1, source: dropOther }),
  // Longer is allowed where it is sheathed and nothing else is possible; the figure then is that of IEC 60364.
  unfusedLength: (sheathed) => (sheathed ? { metres: 3, source: unfusedIec } : { metres: 0.2, source: unfusedIso }),
  tail: (sheathed) => (sheathed ? { metres: 3, source: tailIec } : { metres: 0.2, source: unfusedIso }),
  pvFactor: { factor: 1.25, source: pvCurrentFactor },
};
