/** What protects the conductors and contacts of an arrangement, and what they serve: the same ones as long as its devices are rated so. */
import type { Layout } from '../model/network.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { Protections, type Protects } from './protection.ts';
import { type InSetting, ProtectionInSettings } from './protection-in-settings.ts';
import { settingsOf } from './selector-settings.ts';
import { Served } from './served.ts';
import type { Way, Wiring } from './wiring.ts';
import type { DeviceRating } from './zones.ts';

export interface Protected {
  readonly protections: Protects;
  readonly served: Served;
}

type Ratings = ReadonlyMap<Way, DeviceRating>;

const known = new WeakMap<Layout, Protected & { readonly ratings: Ratings }>();

/** By the ratings of all devices. */
export function protectedBy(layout: Layout, ratings: Ratings): Protected {
  const before = known.get(layout);
  if (before !== undefined && areSame(before.ratings, ratings)) return before;
  const arrangement = arrangementOf(layout);
  const protections = protectionsIn(arrangement, ratings);
  const served = new Served(arrangement, (way) => protections.isReturn(way));
  const made = { protections, served, ratings };
  known.set(layout, made);
  return made;
}

function protectionsIn(arrangement: Arrangement, ratings: Ratings): Protects {
  const ratingOf = (way: Way | undefined) =>
    (way === undefined ? undefined : ratings.get(way)) ?? { amps: undefined, blank: true };
  const whole = new Protections(arrangement, ratingOf);
  const settings = settingsOf(arrangement.layout).map((setting): InSetting => {
    const own = arrangementOf(setting);
    /** Ways of one are those of the other with the same conductor or contact. */
    const sameIn = (wiring: Wiring) => (way: Way) => {
      const known = way.edges.find(({ index }) => wiring.wayOf[index] !== undefined);
      return known && wiring.wayOf[known.index];
    };
    const inWhole = sameIn(arrangement.wiring);
    return { protects: new Protections(own, (way) => ratingOf(inWhole(way))), wayOf: sameIn(own.wiring) };
  });
  return settings.length === 0 ? whole : new ProtectionInSettings(whole, settings);
}

function areSame(one: Ratings, other: Ratings): boolean {
  if (one.size !== other.size) return false;
  for (const [way, { amps, blank }] of one) {
    const rating = other.get(way);
    if (rating === undefined || rating.amps !== amps || rating.blank !== blank) return false;
  }
  return true;
}
