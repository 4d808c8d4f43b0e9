/**
 * Peukert's rule, in its two forms: Iᵏt = Cp with the capacity at 1 A, and t = H (C/(I H))ᵏ with the capacity C rated over H
 * hours. They are the same rule where Cp is worked out from C; putting C in as Cp is not.
 */

/** What would be drawn at 1 A, in Aᵏ·h, of a capacity in Ah rated over some hours. */
export function peukertCapacity(ratedAmpHours: number, ratedHours: number, exponent: number): number {
  return ratedHours * (ratedAmpHours / ratedHours) ** exponent;
}

/** Hours that a full battery lasts at a current in A, by its capacity at 1 A. Infinity where nothing is drawn. */
export function hoursByOneAmpCapacity(capacity: number, exponent: number, amps: number): number {
  return amps > 0 ? capacity / amps ** exponent : Number.POSITIVE_INFINITY;
}

/** The same by the rated capacity in Ah. */
export function hoursByRatedCapacity(
  ratedAmpHours: number,
  ratedHours: number,
  exponent: number,
  amps: number,
): number {
  return hoursByOneAmpCapacity(peukertCapacity(ratedAmpHours, ratedHours, exponent), exponent, amps);
}

/** The same, yet never more than the rated capacity: drawn more slowly than rated, a battery is not said to hold more. */
export function enduranceHours(ratedAmpHours: number, ratedHours: number, exponent: number, amps: number): number {
  const byRule = hoursByRatedCapacity(ratedAmpHours, ratedHours, exponent, amps);
  return amps > 0 ? Math.min(byRule, ratedAmpHours / amps) : byRule;
}
