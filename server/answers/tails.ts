/**
 * Tails: conductors that run to or from a protective device without a branch, so that whatever flows in them flows through
 * it. Such a device bounds their overload also where it stands at their far end.
 */

import { keptWith } from '../model/lazily.ts';
import type { Core, Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { arrangementOf } from './arrangement.ts';
import type { Installation } from './installation.ts';
import { coresOf, type Way } from './wiring.ts';
import type { DeviceRating } from './zones.ts';

export interface Tail {
  /** The smallest device in series with it. */
  readonly part: Part;
  readonly pole: number;
  readonly amps: number;
  /** All cores in series with it up to devices or branches, itself included, in no order. */
  readonly cores: readonly Core[];
}

/** Ways by the nodes they end at, and the nodes where something branches off that is no way. */
const structureOf = keptWith((layout: Layout) => {
  const { wiring, sources, draws } = arrangementOf(layout);
  const at = new Map<number, Way[]>();
  const add = (node: number, way: Way) => {
    const list = at.get(node);
    if (list === undefined) at.set(node, [way]);
    else list.push(way);
  };
  for (const way of wiring.ways) {
    add(way.a, way);
    add(way.b, way);
  }
  // What feeds or draws at a node, or goes on inside a part there, is a branch.
  const taken = new Set(
    [...sources, ...draws]
      .flatMap(({ plus, minus }) => [plus, minus])
      .concat(wiring.inner.flatMap(({ from, to }) => [from, to]))
      .map((terminal) => wiring.node(terminal)),
  );
  return { at, taken };
});

/** Looks up the tail that a core is of; undefined where no device of known rating is in series with it. */
export function tailsOf(
  { layout, network, wiring, edgeOf }: Installation,
  ratingOf: (way: Way) => DeviceRating | undefined,
): (core: Core) => Tail | undefined {
  const onward = (start: Way, from: number) => {
    const { at, taken } = structureOf(layout);
    const cores: Core[] = [];
    const seen = new Set([start]);
    let node = from;
    for (;;) {
      const [next, ...branches] = (at.get(node) ?? []).filter((way) => !seen.has(way));
      if (next === undefined || branches.length > 0 || taken.has(node)) return { cores, device: undefined };
      if (next.device) return { cores, device: next };
      seen.add(next);
      cores.push(...coresOf(next, network));
      node = next.a === node ? next.b : next.a;
    }
  };

  return (core) => {
    const way = wiring.wayOf[edgeOf(core)?.index ?? -1];
    if (way === undefined || way.a === way.b) return undefined;
    const sides = [onward(way, way.a), onward(way, way.b)];
    let best: Tail | undefined;
    for (const { device } of sides) {
      const [edge] = device?.edges ?? [];
      const amps = device === undefined ? undefined : ratingOf(device)?.amps;
      if (edge?.is !== 'contact' || amps === undefined || (best !== undefined && best.amps <= amps)) continue;
      best = {
        part: edge.part,
        pole: edge.contact.pole,
        amps,
        cores: [core, ...sides.flatMap((side) => side.cores)],
      };
    }
    return best;
  };
}
