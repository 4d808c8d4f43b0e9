/** What a conductor withstands in a short circuit, before its insulation is lost: I²t = k²S². */
import {
  adiabaticConstants,
  adiabaticRows,
  adiabaticRule,
  adiabaticTable,
  adiabaticTableThick,
  type ConductorMaterial,
  faultCelsius,
  faultCelsiusThickPvc,
  type InsulationKind,
  thickMm2,
  warmestPvcCelsius,
} from '../tables/adiabatic.ts';
import type { TableSource } from '../tables/table.ts';
import { areaMm2, type Size } from './conductors.ts';

export interface Insulation {
  /** Greatest temperature in service, °C. */
  readonly celsius: number;
  /** Unsaid: the kind that withstands least at this temperature; PVC, above 105 °C cross-linked. */
  readonly kind?: InsulationKind | undefined;
}

export interface Withstand {
  /** k²S², in A²s; holds for faults of at most 5 s. Nought where the insulation bears no more than it does in service. */
  readonly i2t: number;
  /** In A·√s/mm². */
  readonly k: number;
  readonly insulation: InsulationKind;
  /** The kind of insulation was not said. */
  readonly assumed: boolean;
  /** By the rule that the table follows rather than read in it. */
  readonly derived: boolean;
  readonly sources: readonly TableSource[];
}

/** k = K √ln((β + θf)/(β + θi)) in A·√s/mm²; nought where the fault ends no warmer than it starts. */
export function adiabaticK(material: ConductorMaterial, fromCelsius: number, toCelsius: number): number {
  const { amps, betaCelsius } = adiabaticConstants[material];
  if (toCelsius <= fromCelsius || fromCelsius <= -betaCelsius) return 0;
  return amps * Math.sqrt(Math.log((betaCelsius + toCelsius) / (betaCelsius + fromCelsius)));
}

/** I²t that one conductor bears from its greatest temperature in service, by IEC 60364-4-43 table 43A or the rule it follows. */
export function withstandI2t(size: Size, insulation: Insulation, material: ConductorMaterial = 'copper'): Withstand {
  const area = areaMm2(size);
  const kind = insulation.kind ?? (insulation.celsius <= warmestPvcCelsius ? 'pvc' : 'xlpe');
  const thick = area > thickMm2;
  const row = adiabaticRows.find(
    (one) => one.material === material && one.insulation === kind && one.celsius === insulation.celsius,
  );
  // Aluminium above 300 mm² in PVC has no value of its own in the table.
  const tabled = thick && kind === 'pvc' ? row?.thick : row?.k;
  const k = tabled ?? adiabaticK(material, insulation.celsius, endOf(kind, insulation.celsius, thick));
  const sources = tabled === undefined ? [adiabaticRule] : [tabled === row?.k ? adiabaticTable : adiabaticTableThick];
  return {
    i2t: (k * area) ** 2,
    k,
    insulation: kind,
    assumed: insulation.kind === undefined,
    derived: tabled === undefined,
    sources,
  };
}

function endOf(kind: InsulationKind, celsius: number, thick: boolean): number {
  if (kind === 'pvc' && thick) return faultCelsiusThickPvc;
  // The 60 °C rubber of the table ends at 200 °C; so does any that serves below the 85 °C kind.
  return kind === 'rubber' && celsius < 85 ? 200 : faultCelsius[kind];
}
