/** Batteries: electromotive force by chemistry and state of charge, and internal resistance where none is stated. */
import type { TableSource } from './table.ts';

export const restVoltage: TableSource = {
  title: 'Rest voltage of a 12 V lead-acid battery by state of charge, 25 °C',
  citation:
    'published rest-voltage tables for flooded batteries; they differ by up to 0.15 V at the same state of charge',
  units: 'V per 12 V nominal (six cells)',
  status: 'confirmed',
};

export const lithiumVoltage: TableSource = {
  title: 'Rest voltage of a lithium iron phosphate battery of four cells by state of charge, 25 °C',
  citation: 'typical cell curve',
  units: 'V per 12.8 V nominal (four cells)',
  status: 'from memory',
};

type Curve = readonly (readonly [charge: number, volts: number])[];

const leadAcid: Curve = [
  [0, 11.6],
  [0.25, 12.0],
  [0.5, 12.2],
  [0.75, 12.4],
  [1, 12.6],
];

// The middle is flat, which is why its voltage tells little of its charge.
const lithiumIronPhosphate: Curve = [
  [0, 10.0],
  [0.1, 12.8],
  [0.2, 12.9],
  [0.3, 13.0],
  [0.4, 13.1],
  [0.5, 13.12],
  [0.6, 13.16],
  [0.7, 13.2],
  [0.8, 13.28],
  [0.9, 13.36],
  [1, 13.6],
];

const lithiumIon: Curve = [
  [0, 9.0],
  [0.1, 10.2],
  [0.2, 10.62],
  [0.5, 11.1],
  [0.8, 11.85],
  [1, 12.6],
];

const curves: Readonly<
  Record<string, { readonly curve: Curve; readonly nominal: number; readonly source: TableSource }>
> = {
  'lead-acid': { curve: leadAcid, nominal: 12, source: restVoltage },
  agm: {
    curve: leadAcid.map(([c, v]) => [c, v + 0.2] as const),
    nominal: 12,
    source: { ...restVoltage, citation: 'flooded table raised by 0.2 V', status: 'from memory' },
  },
  gel: {
    curve: leadAcid.map(([c, v]) => [c, v + 0.2] as const),
    nominal: 12,
    source: { ...restVoltage, citation: 'flooded table raised by 0.2 V', status: 'from memory' },
  },
  'lithium-iron-phosphate': { curve: lithiumIronPhosphate, nominal: 12.8, source: lithiumVoltage },
  'lithium-ion': {
    curve: lithiumIon,
    nominal: 11.1,
    source: { ...lithiumVoltage, title: 'Rest voltage of three lithium-ion cells' },
  },
};

/**
 * Electromotive force of a battery of nominal voltage `nominalVolts` at a state of charge from 0 to 1, in volt. The table
 * of its chemistry is taken per nominal volt, so that 24 V is twice 12 V. Between rows it is linear.
 */
export function electromotiveForce(chemistry: string, nominalVolts: number, charge: number): number {
  const known = curves[chemistry] ?? curves['lead-acid'];
  if (known === undefined) return nominalVolts;
  const bounded = Math.max(0, Math.min(1, charge));
  const scale = nominalVolts / known.nominal;
  let [lowCharge, lowVolts] = known.curve[0] ?? [0, nominalVolts];
  for (const row of known.curve) {
    const atCharge = row[0];
    const volts = row[1];
    if (bounded <= atCharge) {
      const part = atCharge === lowCharge ? 0 : (bounded - lowCharge) / (atCharge - lowCharge);
      return (lowVolts + part * (volts - lowVolts)) * scale;
    }
    lowCharge = atCharge;
    lowVolts = volts;
  }
  return lowVolts * scale;
}

export function chargeCurveSource(chemistry: string): TableSource {
  return (curves[chemistry] ?? curves['lead-acid'])?.source ?? restVoltage;
}

export const internalResistance: TableSource = {
  title: 'Internal resistance of a battery where none is stated',
  citation:
    'typical figures: a 100 Ah 12 V block has about 5 mΩ as flooded lead-acid, 4 mΩ as AGM or gel, 3 mΩ as lithium',
  units: 'Ω, in proportion to nominal voltage and in inverse proportion to capacity',
  status: 'from memory',
};

const ohmsPer12V100Ah: Readonly<Record<string, number>> = {
  'lead-acid': 0.005,
  agm: 0.004,
  gel: 0.004,
  'lithium-iron-phosphate': 0.003,
  'lithium-ion': 0.003,
};

/** Default internal resistance in ohm, never 0. Capacity in Ah; 100 Ah when unknown. */
export function defaultInternalOhms(chemistry: string, nominalVolts: number, ampereHours: number | undefined): number {
  const base = ohmsPer12V100Ah[chemistry] ?? 0.005;
  const capacity = ampereHours === undefined || ampereHours <= 0 ? 100 : ampereHours;
  return Math.max(1e-6, (base * (Math.abs(nominalVolts) / 12) * 100) / capacity);
}
