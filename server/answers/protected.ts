/** What protects the conductors and contacts of an arrangement, and what they serve: the same ones as long as its devices are rated so. */
import type { Layout } from '../model/network.ts';
import { arrangementOf } from './arrangement.ts';
import { Protections } from './protection.ts';
import { Served } from './served.ts';
import type { Way } from './wiring.ts';
import type { DeviceRating } from './zones.ts';

export interface Protected {
  readonly protections: Protections;
  readonly served: Served;
}

type Ratings = ReadonlyMap<Way, DeviceRating>;

const known = new WeakMap<Layout, Protected & { readonly ratings: Ratings }>();

/** By the ratings of all devices. */
export function protectedBy(layout: Layout, ratings: Ratings): Protected {
  const before = known.get(layout);
  if (before !== undefined && areSame(before.ratings, ratings)) return before;
  const arrangement = arrangementOf(layout);
  const protections = new Protections(arrangement, (way) => ratings.get(way) ?? { amps: undefined, blank: true });
  const served = new Served(arrangement, (way) => protections.isReturn(way));
  const made = { protections, served, ratings };
  known.set(layout, made);
  return made;
}

function areSame(one: Ratings, other: Ratings): boolean {
  if (one.size !== other.size) return false;
  for (const [way, { amps, blank }] of one) {
    const rating = other.get(way);
    if (rating === undefined || rating.amps !== amps || rating.blank !== blank) return false;
  }
  return true;
}
