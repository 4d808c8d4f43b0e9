/** Design current of every way: the greatest over the cases, or on the panel side the short-circuit current of its strings. */
import type { Installation } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import type { Way } from './wiring.ts';

export interface DesignCurrent {
  readonly amps: number;
  /** Name of the case that gives it, or `panels`; empty when nothing flows in any. */
  readonly from: string;
  /** Panel side only: the sum over strings, and that times the set's factor. */
  readonly shortCircuitAmps: number | undefined;
  readonly neededAmps: number | undefined;
}

/** By the ways' indices. `points` are worked out with constant-power parts at their lowest voltage. */
export function designCurrents(
  installation: Installation,
  points: readonly OperatingPoint[],
  pvFactor: number,
): readonly DesignCurrent[] {
  return installation.wiring.ways.map((way): DesignCurrent => {
    const shortCircuitAmps = installation.panelSide.ampsThrough(way);
    if (shortCircuitAmps !== undefined)
      return { amps: shortCircuitAmps, from: 'panels', shortCircuitAmps, neededAmps: shortCircuitAmps * pvFactor };
    let amps = 0;
    let from = '';
    for (const point of points) {
      const here = point.converged ? Math.abs(ampsThrough(way, installation, point)) : 0;
      // Of equal cases the first counts, whatever the last digit says.
      if (here > amps * (1 + 1e-9) && here > 1e-12) [amps, from] = [here, point.stated.name];
    }
    return { amps, from, shortCircuitAmps: undefined, neededAmps: undefined };
  });
}

/** Current of a way from a to b in a case; of linked poles all together. */
export function ampsThrough(way: Way, { wiring }: Installation, { amps }: OperatingPoint): number {
  let sum = 0;
  for (const { from, index } of way.edges) sum += (wiring.node(from) === way.a ? 1 : -1) * (amps[index] ?? 0);
  return sum;
}
