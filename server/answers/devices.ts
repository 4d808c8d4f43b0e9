/**
 * Ratings of protective devices: as stated, or while blank the smallest standard one that carries the design current and
 * holds what its loads take when they start.
 */
import type { ContactEdge } from '../model/network.ts';
import { fuseAmps } from '../tables/sizes.ts';
import type { DesignCurrent } from './design-currents.ts';
import type { Way, Wiring } from './wiring.ts';
import type { DeviceRating } from './zones.ts';

/** Whether a device on a way would hold what its loads take when they start, if it were rated so. */
export type Holds = (way: Way, amps: number) => boolean;

export function deviceRatings(
  { ways }: Wiring,
  design: readonly DesignCurrent[],
  holds: Holds,
): ReadonlyMap<Way, DeviceRating> {
  const ratings = new Map<Way, DeviceRating>();
  for (const way of ways) if (way.device) ratings.set(way, ratingOf(way, design[way.index], holds));
  return ratings;
}

function ratingOf(way: Way, design: DesignCurrent | undefined, holds: Holds): DeviceRating {
  const { edges } = way;
  const stated = edges.map((edge) => (edge.is === 'contact' ? edge.contact.deviceAmps : undefined));
  // Devices in parallel let through the sum of their ratings.
  const sum = stated.reduce((total, amps) => (total === undefined || amps === undefined ? undefined : total + amps));
  if (sum !== undefined) return { amps: sum, blank: false };
  const [edge] = edges;
  return { amps: edge?.is === 'contact' ? smallestFor(way, edge, design, holds) : undefined, blank: true };
}

/** Panel circuits need their factor over the short-circuit current; elsewhere the design current counts. */
function smallestFor(
  way: Way,
  { part }: ContactEdge,
  design: DesignCurrent | undefined,
  holds: Holds,
): number | undefined {
  const needed = design?.neededAmps ?? design?.amps ?? 0;
  return needed > 0
    ? standardRatings(part.kind.word, part.facts.word('style')).find(
        (amps) => amps >= needed * (1 - 1e-9) && holds(way, amps),
      )
    : undefined;
}

/** Ratings a device comes in; the ways of a fusebox take blade fuses. */
export function standardRatings(kindWord: string, style: string | undefined): readonly number[] {
  return fuseAmps(kindWord === 'fusebox' ? 'blade' : style);
}
