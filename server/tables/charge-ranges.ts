/** Least and greatest voltage that batteries of a chemistry are usually charged to. */
import type { TableSource } from './table.ts';

export const chargeRangeSource: TableSource = {
  title: 'Usual range of charging voltages by chemistry, 25 °C',
  citation:
    'typical makers’ figures: 14.2 to 14.8 V for six lead-acid cells, flooded or in glass mat, 13.8 to 14.4 V as gel, 13.8 to 14.6 V for four lithium iron phosphate cells, 4.1 to 4.2 V for one lithium-ion cell',
  units: 'V',
  status: 'from memory',
};

const ranges: Readonly<Record<string, readonly [least: number, most: number, nominal: number]>> = {
  'lead-acid': [14.2, 14.8, 12],
  agm: [14.2, 14.8, 12],
  gel: [13.8, 14.4, 12],
  'lithium-iron-phosphate': [13.8, 14.6, 12.8],
  'lithium-ion': [12.3, 12.6, 11.1],
};

/** In proportion to the nominal voltage, in volt; undefined for a chemistry that is not in the table. */
export function chargeRange(
  chemistry: string,
  nominalVolts: number,
): { readonly least: number; readonly most: number } | undefined {
  const [least, most, nominal] = ranges[chemistry] ?? [];
  if (least === undefined || most === undefined || nominal === undefined) return undefined;
  return { least: (least * nominalVolts) / nominal, most: (most * nominalVolts) / nominal };
}
