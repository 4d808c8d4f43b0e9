/**
 * Currents that flow for a time only. A conductor stores the heat of one until it has flowed for long: its temperature
 * comes near its last as 1 − e^(−t/τ). The time constant follows from two figures that are known already, what it bears
 * without giving off any heat (k²S², up to its greatest temperature in service) and what it carries for ever: τ = k²S²/Iz².
 * So a short current is judged as I²t = k²S², a long one as Iz, and one between by what is true of both. What insulation
 * stores besides is left out, which is on the safe side.
 */
import { adiabaticSeconds, type ConductorMaterial } from '../tables/adiabatic.ts';
import { adiabaticK } from './adiabatic.ts';
import { areaMm2, type Size } from './conductors.ts';

export interface Warming {
  readonly size: Size;
  readonly material?: ConductorMaterial | undefined;
  readonly ambientCelsius: number;
  /** Greatest temperature in service. */
  readonly insulationCelsius: number;
  /** What it carries for ever without becoming warmer than that. */
  readonly capacityAmps: number;
}

/** A current that flows for a time, again and again or once. */
export interface Pulse {
  readonly amps: number;
  readonly seconds: number;
  /** From the beginning of one to the next, on the average; undefined: long enough to cool down between. */
  readonly everySeconds?: number | undefined;
}

/** I²t from the ambient to the greatest temperature in service without any heat given off, in A²s. */
export function serviceI2t({ size, material, ambientCelsius, insulationCelsius }: Warming): number {
  return (adiabaticK(material ?? 'copper', ambientCelsius, insulationCelsius) * areaMm2(size)) ** 2;
}

/** τ in second; nought where it carries nothing or is as warm as it may be already. */
export function timeConstant(warming: Warming): number {
  const { capacityAmps } = warming;
  return capacityAmps > 0 && Number.isFinite(capacityAmps) ? serviceI2t(warming) / capacityAmps ** 2 : 0;
}

/** Part of its last warming that a pulse brings: 1 where it lasts, or comes again without a pause. */
export function warmedShare({ seconds, everySeconds }: Omit<Pulse, 'amps'>, tau: number): number {
  if (!(tau > 0)) return 1;
  const every = Math.max(seconds, everySeconds ?? Number.POSITIVE_INFINITY);
  const share = -Math.expm1(-seconds / tau) / -Math.expm1(-every / tau);
  return Number.isFinite(share) ? Math.min(1, Math.max(0, share)) : 1;
}

/**
 * The lasting current that warms a conductor as much as a lasting current with pulses on top of each other, which all end
 * together: the worst they can do. A pulse has the whole current while it flows; one that lowers the current is left out.
 */
export function equivalentAmps(lastingAmps: number, pulses: readonly Pulse[], tau: number): number {
  // In parts of the greatest, whose square may be beyond all numbers.
  const greatest = pulses.reduce((most, { amps }) => Math.max(most, Math.abs(amps)), Math.abs(lastingAmps));
  if (!(greatest > 0)) return 0;
  let square = (lastingAmps / greatest) ** 2;
  let flowing = square;
  for (const pulse of [...pulses].sort((a, b) => b.seconds - a.seconds)) {
    const next = (pulse.amps / greatest) ** 2;
    if (!(next > flowing)) continue;
    square += (next - flowing) * warmedShare(pulse, tau);
    flowing = next;
  }
  return greatest * Math.sqrt(square);
}

/** How long a conductor bears a current after one that lasted, in second; Infinity where it always does. */
export function secondsBorne(amps: number, lastingAmps: number, warming: Warming): number {
  const { capacityAmps } = warming;
  if (amps <= capacityAmps) return Number.POSITIVE_INFINITY;
  const room = capacityAmps ** 2 - lastingAmps ** 2;
  if (!(room > 0)) return 0;
  return -timeConstant(warming) * Math.log1p(-room / (amps ** 2 - lastingAmps ** 2));
}

/**
 * Seconds that count for k²S² when a current flows for `seconds`: all of them as far as IEC 60364-4-43 takes no heat to be
 * given off (5 s), fewer beyond.
 */
export function adiabaticTime(seconds: number, tau: number): number {
  if (seconds <= adiabaticSeconds) return seconds;
  return Math.max(adiabaticSeconds, tau > 0 ? -tau * Math.expm1(-seconds / tau) : 0);
}
