/** Conductors: resistance by IEC 60228 class or by gauge, with temperature; conductor temperature by its load. */
import { type ConductorRow, conductorRows } from '../tables/iec-60228.ts';

export type Size =
  | { readonly system: 'mm2'; readonly areaMm2: number }
  | { readonly system: 'awg'; readonly gauge: number };

export interface Conductor {
  readonly size: Size;
  /** IEC 60228 class for mm²; 5 when undefined. */
  readonly conductorClass?: number | undefined;
  /** One solid wire (AWG, or class 1). */
  readonly solid?: boolean | undefined;
  readonly tinned?: boolean | undefined;
  readonly material?: 'copper' | 'aluminium' | undefined;
}

/** Resistivity of annealed copper at 20 °C, Ω·mm²/m: 1/58 (IEC 60028, confirmed). */
export const copperResistivity = 1 / 58;
/** Ratio of the resistivities of aluminium and copper: 0.028264 against 0.017241 Ω·mm²/m (IEC 60889, from memory). */
export const aluminiumRatio = 0.028264 * 58;
/** Constant-mass temperature coefficient of copper at 20 °C, 1/K (IEC 60028, from memory; agrees with NEC chapter 9 table 8). */
export const copperCoefficient = 0.00393;
/** Lay of a stranded AWG conductor makes it 2 % longer than its wires are (from memory). */
export const strandedAwgFactor = 1.02;

/** Diameter of a solid wire in metre: ASTM B258, d = 0.005 in × 92^((36 − n)/39) (confirmed). */
export function awgDiameterMetres(gauge: number): number {
  return 0.005 * 0.0254 * 92 ** ((36 - gauge) / 39);
}

export function awgAreaMm2(gauge: number): number {
  return (Math.PI / 4) * (awgDiameterMetres(gauge) * 1000) ** 2;
}

export function areaMm2(size: Size): number {
  return size.system === 'mm2' ? size.areaMm2 : awgAreaMm2(size.gauge);
}

const rowsByArea: ReadonlyMap<number, ConductorRow> = new Map(conductorRows.map((row) => [row.areaMm2, row]));

function column(row: ConductorRow, conductorClass: number, tinned: boolean): number | undefined {
  if (conductorClass === 1) return tinned ? (row.solidCoated ?? row.solidPlain) : row.solidPlain;
  if (conductorClass === 2) return tinned ? (row.strandedCoated ?? row.strandedPlain) : row.strandedPlain;
  return tinned ? row.flexibleCoated : row.flexiblePlain;
}

/**
 * Resistance at 20 °C in ohm per metre. mm²: the greatest the standard allows for the class; a cross-section it does not
 * list takes ρ/S, raised by what the nearest listed one has above its own ρ/S. AWG: solid wire by ASTM B258 and IEC 60028,
 * stranded × 1.02. Aluminium by the ratio of resistivities.
 */
export function ohmsPerMetreAt20({ size, conductorClass, solid, tinned, material }: Conductor): number {
  const scale = material === 'aluminium' ? aluminiumRatio : 1;
  if (size.system === 'awg') {
    const ohms = copperResistivity / awgAreaMm2(size.gauge);
    return ohms * (solid === true || conductorClass === 1 ? 1 : strandedAwgFactor) * scale;
  }
  const chosenClass = solid === true ? 1 : (conductorClass ?? 5);
  const own = rowsByArea.get(size.areaMm2);
  const stated = own === undefined ? undefined : column(own, chosenClass, tinned === true);
  if (stated !== undefined) return (stated / 1000) * scale;
  const apart = (row: ConductorRow) => Math.abs(Math.log(row.areaMm2 / size.areaMm2));
  const nearest = conductorRows.reduce<ConductorRow | undefined>(
    (best, row) => (best === undefined || apart(row) < apart(best) ? row : best),
    undefined,
  );
  const plain = copperResistivity / size.areaMm2;
  const listed = nearest === undefined ? undefined : column(nearest, chosenClass, tinned === true);
  const raise =
    nearest === undefined || listed === undefined ? 1.05 : (listed / 1000) * (nearest.areaMm2 / copperResistivity);
  return plain * raise * scale;
}

/** R = R20 (1 + 0.00393 (θ − 20)); never below nought. */
export function atTemperature(ohmsAt20: number, celsius: number): number {
  return Math.max(0, ohmsAt20 * (1 + copperCoefficient * (celsius - 20)));
}

/**
 * Conductor temperature by its load: θ = θa + (θmax − θa)(I/Iz)², at most θmax. A capacity of nought gives θmax, so that a
 * place warmer than the insulation does too: that such a conductor is lost is said by its capacity.
 */
export function conductorCelsius(ambient: number, most: number, amps: number, capacityAmps: number): number {
  if (capacityAmps <= 0 || ambient >= most) return most;
  return Math.min(most, ambient + (most - ambient) * (amps / capacityAmps) ** 2);
}
