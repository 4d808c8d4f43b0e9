/**
 * More than any fault can bring a device, told without working a fault out: what the batteries beside it give over the
 * conductors that all of it must pass, and all that limits its current at its limit.
 */

import { keptWith, lazilyEach } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { ContactEdge, Layout } from '../model/network.ts';
import { atTemperature } from '../physics/conductors.ts';
import { UnionFind } from '../physics/union-find.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { batteryOhms } from './charging.ts';
import { batteryVolts, coldestCelsius } from './fault-circuits.ts';
import { countBelow } from './grouping.ts';
import type { Installation } from './installation.ts';
import { type SimplyFed, simplyFed } from './simply-fed.ts';

/** What shunts of fault circuits add, in ampere: see `besideOhms`. */
const beside = 0.01;
/** Sums along the ways are taken apart again, and lose their last digits. */
const rounding = 1e-9;

/** Joints that together are all that joins two sides of a connected part, its batteries being on one of them. */
interface Neck {
  readonly cores: readonly number[];
  readonly contacts: readonly number[];
  /** Preorder numbers of the side that hangs on them: [from, to) of its connected part. */
  readonly from: number;
  readonly to: number;
  /** The batteries stand within that, and the rest hangs on them. */
  readonly batteriesWithin: boolean;
  readonly part: number;
}

/** How what feeds a fault is joined, which the layout alone decides. */
interface Feeding {
  readonly necks: readonly Neck[];
  /** Preorder numbers [from, to) of each connected part. */
  readonly spans: readonly { from: number; to: number }[];
  /** All that sources join, by connected part. */
  readonly group: (part: number) => number;
}

const feedingOf = keptWith((layout: Layout) => feedingIn(arrangementOf(layout)));

function feedingIn(arrangement: Arrangement): Feeding {
  const { sources, wiring } = arrangement;
  const { part, partCount, preorder, far } = wiring.whole;
  const joined = new UnionFind(partCount);
  for (const { plus, minus } of sources)
    joined.join(part[wiring.node(plus)] as number, part[wiring.node(minus)] as number);
  const spans = Array.from({ length: partCount }, () => ({ from: Number.POSITIVE_INFINITY, to: 0 }));
  for (let node = 0; node < wiring.nodeCount; node++) {
    const span = spans[part[node] as number];
    if (span === undefined) continue;
    span.from = Math.min(span.from, preorder[node] as number);
    span.to = Math.max(span.to, (preorder[node] as number) + 1);
  }
  const batteries = sources.filter(({ is }) => is === 'battery');
  const places = batteries
    .flatMap(({ plus, minus }) => [preorder[wiring.node(plus)] as number, preorder[wiring.node(minus)] as number])
    .sort((one, other) => one - other);
  const countIn = (from: number, to: number) => countBelow(places, to) - countBelow(places, from);
  const necks = new Map<number, Neck & { cores: number[]; contacts: number[] }>();
  const passable = new Set<number>();
  for (const { index, a, b, edges, oneWay } of wiring.ways) {
    const span = far[index];
    const own = part[a] as number;
    if (span === undefined || a === b) continue;
    const whole = spans[own] as { from: number; to: number };
    const within = countIn(span.from, span.to);
    const all = countIn(whole.from, whole.to);
    if (within !== 0 && within !== all) continue;
    let neck = necks.get(span.from);
    if (neck === undefined) {
      neck = { cores: [], contacts: [], ...span, batteriesWithin: within > 0, part: own };
      necks.set(span.from, neck);
    }
    for (const edge of edges) (edge.is === 'core' ? neck.cores : neck.contacts).push(edge.index);
    // Of a diode no resistance is counted on.
    if (oneWay) passable.add(span.from);
  }
  return {
    necks: [...necks.values()].filter(({ from }) => !passable.has(from)),
    spans,
    group: (of) => joined.find(of),
  };
}

/**
 * By device, in ampere. Where batteries and what limits its current stand between the device’s conductors and one other part,
 * the batteries together are no more than the strongest of them behind all their resistances side by side, and what lies
 * between all of them and the device is as cold as can be. Elsewhere every battery that is joined counts as shorted at its terminals.
 */
export function mostFaultAmps(installation: Installation): (device: ContactEdge) => number {
  const { layout, sources, wiring } = installation;
  const feeding = feedingOf(layout);
  const { group } = feeding;
  const alone = simplyFed(layout);
  const { part, preorder } = wiring.whole;
  const limited = new Map<number, number>();
  const shorted = new Map<number, number>();
  for (const source of sources) {
    const own = group(part[wiring.node(source.plus)] as number);
    if (source.is !== 'battery') limited.set(own, (limited.get(own) ?? 0) + (source.limitAmps ?? 0));
    else {
      const amps = batteryVolts(installation, source, 'greatest') / batteryOhms(source.part);
      shorted.set(own, (shorted.get(own) ?? 0) + amps);
    }
  }
  const between = ohmsBetween(feeding, installation);
  const strongest = lazilyEach(({ batteries }: SimplyFed) => ({
    volts: Math.max(0, ...batteries.map((battery) => batteryVolts(installation, battery, 'greatest'))),
    ohms: 1 / batteries.reduce((siemens, battery) => siemens + 1 / batteryOhms(battery.part), 0),
  }));
  return ({ from, to }) => {
    const own = part[wiring.node(from)] as number;
    const most = shorted.get(group(own)) ?? 0;
    const fed = hasPoles(from) || hasPoles(to) ? undefined : alone[own];
    const feed = fed === undefined ? undefined : strongest(fed);
    const ohmsAt = (node: number) => between[preorder[node] as number] as number;
    const amps =
      feed === undefined
        ? most
        : Math.min(most, feed.volts / (feed.ohms + Math.min(ohmsAt(wiring.node(from)), ohmsAt(wiring.node(to)))));
    return amps * (1 + rounding) + (limited.get(group(own)) ?? 0) + beside;
  };
}

/** Least resistance of all that lies between the batteries of its part and a node, by the preorder of nodes. */
function ohmsBetween({ necks, spans }: Feeding, installation: Installation): Float64Array {
  const { near, measured, wiring } = installation;
  const nodes = wiring.nodeCount;
  const ohms = new Float64Array(nodes + 1);
  const add = (from: number, to: number, more: number) => {
    ohms[from] = (ohms[from] as number) + more;
    ohms[to] = (ohms[to] as number) - more;
  };
  const cold = atTemperature(1, coldestCelsius(installation));
  for (const { cores, contacts, from, to, batteriesWithin, part } of necks) {
    let siemens = 0;
    for (const core of cores)
      siemens += measured[core] === 1 ? 1 / (cold * (near[core] as number)) : Number.POSITIVE_INFINITY;
    for (const contact of contacts) siemens += 1 / (near[contact] as number);
    const own = 1 / siemens;
    if (!(own > 0)) continue;
    if (!batteriesWithin) add(from, to, own);
    else {
      const whole = spans[part] as { from: number; to: number };
      add(whole.from, from, own);
      add(to, whole.to, own);
    }
  }
  for (let i = 1; i < nodes; i++) ohms[i] = (ohms[i] as number) + (ohms[i - 1] as number);
  return ohms;
}

/** Of a part with a plus and a minus a fault is looked at between these. */
function hasPoles({ spec: { polarity } }: Terminal): boolean {
  return polarity !== undefined;
}
