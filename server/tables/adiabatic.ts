/** Factors k for what a conductor withstands in a short circuit: I²t = k²S², for at most 5 s. */
import type { TableSource } from './table.ts';

export const adiabaticTable: TableSource = {
  title: 'Values of k for line conductors',
  citation: 'IEC 60364-4-43 table 43A (BS 7671 table 43.1)',
  units: 'A·√s/mm², for at most 5 s, from the greatest temperature in service',
  status: 'confirmed',
};

export const adiabaticTableThick: TableSource = {
  ...adiabaticTable,
  title: 'Values of k for line conductors above 300 mm²',
  status: 'from memory',
};

/**
 * k = K √ln((β + θf)/(β + θi)), K = √(Qc (β + 20)/ρ20). From memory, yet it gives every confirmed k of tables 43A and
 * A.54.2 to A.54.6 back to within 1: the test holds it to that.
 */
export const adiabaticRule: TableSource = {
  title: 'Rule that the values of k follow',
  citation: 'IEC 60364-5-54 annex A',
  units: 'K in A·√s/mm², β in °C',
  status: 'from memory',
};

export type ConductorMaterial = 'copper' | 'aluminium';

export const adiabaticConstants: Readonly<
  Record<ConductorMaterial, { readonly amps: number; readonly betaCelsius: number }>
> = {
  copper: { amps: 226, betaCelsius: 234.5 },
  aluminium: { amps: 148, betaCelsius: 228 },
};

export type InsulationKind = 'pvc' | 'rubber' | 'xlpe' | 'mineral-pvc' | 'mineral-bare' | 'mineral-bare-touchable';

/** What the insulation bears for the few seconds of a fault, °C. Rubber is 200 °C where it serves at 60 °C. */
export const faultCelsius: Readonly<Record<InsulationKind, number>> = {
  pvc: 160,
  rubber: 220,
  xlpe: 250,
  'mineral-pvc': 160,
  'mineral-bare': 250,
  'mineral-bare-touchable': 160,
};

/** Above 300 mm² PVC bears 140 °C only. */
export const thickMm2 = 300;
export const faultCelsiusThickPvc = 140;
/** PVC that serves above this is not made (from memory): warmer insulation is cross-linked. */
export const warmestPvcCelsius = 105;
/** Nothing of the table stays adiabatic longer than this, in second. */
export const adiabaticSeconds = 5;

export interface AdiabaticRow {
  readonly material: ConductorMaterial;
  readonly insulation: InsulationKind;
  /** Greatest temperature in service, from which the fault starts, °C. */
  readonly celsius: number;
  readonly faultCelsius: number;
  readonly k: number;
  /** Above 300 mm², where it differs. */
  readonly thick?: number;
}

export const adiabaticRows: readonly AdiabaticRow[] = [
  { material: 'copper', insulation: 'pvc', celsius: 70, faultCelsius: 160, k: 115, thick: 103 },
  { material: 'copper', insulation: 'pvc', celsius: 90, faultCelsius: 160, k: 100, thick: 86 },
  { material: 'copper', insulation: 'rubber', celsius: 60, faultCelsius: 200, k: 141 },
  { material: 'copper', insulation: 'rubber', celsius: 85, faultCelsius: 220, k: 134 },
  { material: 'copper', insulation: 'xlpe', celsius: 90, faultCelsius: 250, k: 143 },
  { material: 'aluminium', insulation: 'pvc', celsius: 70, faultCelsius: 160, k: 76 },
  { material: 'aluminium', insulation: 'rubber', celsius: 85, faultCelsius: 220, k: 89 },
  { material: 'aluminium', insulation: 'xlpe', celsius: 90, faultCelsius: 250, k: 94 },
  { material: 'copper', insulation: 'mineral-pvc', celsius: 70, faultCelsius: 160, k: 115 },
  { material: 'copper', insulation: 'mineral-bare', celsius: 105, faultCelsius: 250, k: 135 },
  { material: 'copper', insulation: 'mineral-bare-touchable', celsius: 70, faultCelsius: 160, k: 115 },
];
