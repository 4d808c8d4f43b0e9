/** Charging voltages by chemistry, where neither the battery nor what charges it states one. */
import type { TableSource } from './table.ts';

export const chargeVoltageSource: TableSource = {
  title: 'Charging voltage of a battery by chemistry',
  citation:
    'typical makers’ figures at 25 °C: 14.4 V for six lead-acid cells, 14.1 V as gel, 14.2 V for four lithium iron phosphate cells, 4.2 V for one lithium-ion cell',
  units: 'V',
  status: 'from memory',
};

/** Volt, and the nominal voltage that it belongs to. */
const byChemistry: Readonly<Record<string, readonly [volts: number, nominal: number]>> = {
  'lead-acid': [14.4, 12],
  agm: [14.4, 12],
  gel: [14.1, 12],
  'lithium-iron-phosphate': [14.2, 12.8],
  'lithium-ion': [12.6, 11.1],
};

/** In proportion to the nominal voltage, in volt. */
export function typicalChargeVolts(chemistry: string, nominalVolts: number): number {
  const [volts, nominal] = byChemistry[chemistry] ?? [14.4, 12];
  return (volts * nominalVolts) / nominal;
}
