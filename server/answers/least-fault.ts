/**
 * No fault at the end of what a device alone protects brings it less than this: each battery that reaches it, empty, over a way
 * out and the longest way back that may be looked at, with the copper as hot as any. Less exact than `FaultPlaces.leastBound` and
 * told of all devices in one go.
 */

import { keptWhile, keptWith, lazilyEach } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { ContactEdge, Layout } from '../model/network.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { batteryOhms } from './charging.ts';
import { batteryVolts } from './fault-circuits.ts';
import { deviceEdge } from './fault-contacts.ts';
import type { Installation } from './installation.ts';
import { otherPole } from './other-pole.ts';
import { outwardFrom, sumsOutward } from './outward.ts';
import type { Protects } from './protection.ts';
import type { Served } from './served.ts';
import { isBattery, type Supply } from './supplies.ts';
import type { Way } from './wiring.ts';

/** No insulation allows more; resistance of copper as hot as that, of that at 20 °C; and what diodes on the way may lose, in volt. */
export const hottestCelsius = 200;
export const hottestShare = 1.75;
export const diodesVolts = 2;

/** Batteries at their emptiest, in series. */
export interface Empty {
  readonly volts: number;
  readonly ohms: number;
}

export function emptied(installation: Installation, { sources }: Pick<Supply, 'sources'>): Empty {
  return {
    volts: sources.reduce((sum, one) => sum + batteryVolts(installation, one, 'least'), 0),
    ohms: sources.reduce((sum, one) => sum + batteryOhms(one.part), 0),
  };
}

/** A battery, or several in series, whose poles are on two parts of the wiring. */
interface Standing {
  readonly supply: Supply;
  readonly onPlus: boolean;
  /** The part of its other pole. */
  readonly far: number;
}

interface Stand {
  /** By connected part: what stands there; undefined where batteries in series meet, or are shorted. */
  readonly at: readonly (readonly Standing[] | undefined)[];
  /** By terminal: its connected part, its zone, and the index of the other pole of its own side of its part; -1 for none. */
  readonly partOf: Int32Array;
  readonly zoneOf: Int32Array;
  readonly otherPole: Int32Array;
}

const standOf = keptWith((layout: Layout) => standIn(arrangementOf(layout)));

function standIn({ layout, supplies, wiring }: Arrangement): Stand {
  const { part, partCount } = wiring.whole;
  const partOf = (terminal: Terminal) => part[wiring.node(terminal)] as number;
  const at: (Standing[] | undefined)[] = Array.from({ length: partCount }, () => []);
  for (const supply of supplies) {
    if (!isBattery(supply)) continue;
    const poles = [partOf(supply.plus), partOf(supply.minus)] as const;
    for (const here of new Set(supply.sources.flatMap(({ plus, minus }) => [partOf(plus), partOf(minus)]))) {
      if (!poles.includes(here) || poles[0] === poles[1]) at[here] = undefined;
      else at[here]?.push({ supply, onPlus: here === poles[0], far: here === poles[0] ? poles[1] : poles[0] });
    }
  }
  const { terminals } = layout;
  return {
    at,
    partOf: Int32Array.from(terminals, partOf),
    zoneOf: Int32Array.from(terminals, (terminal) => wiring.zones.part[wiring.node(terminal)] as number),
    otherPole: Int32Array.from(terminals, (terminal) => otherPole(terminal)?.index ?? -1),
  };
}

/** What a supply brings about: what its ways sum up to, and the most that the way back of a load may, by the zone where it is. */
interface Reckoned {
  readonly empty: Empty;
  readonly out: Float64Array;
  readonly back: Float64Array;
  readonly backFrom: Float64Array;
  readonly outFrom: Float64Array;
}

/** A core that one device alone protects. */
interface Protected {
  readonly way: Way;
  readonly joint: number;
  readonly from: number;
  readonly to: number;
  readonly onPanelSide: boolean;
}

const kept = keptWhile<Layout, ReadonlyMap<number, readonly Protected[]>>();

/** In ampere, by devices. */
export class LeastFaults {
  private readonly stand: Stand;
  private readonly reckoned = lazilyEach((supply: Supply) => reckonedOf(this.installation, supply));
  /** By the joint of a device what it protects by itself: of several each has a share only, which says nothing about whether all of them open. */
  private readonly protects: ReadonlyMap<number, readonly Protected[]>;

  constructor(
    private readonly installation: Installation,
    protections: Protects,
    private readonly served: Served,
  ) {
    const { layout } = installation;
    this.stand = standOf(layout);
    this.protects = kept(layout, [protections], () => protectedAlone(arrangementOf(layout), protections));
  }

  /** NaN where a closer look is needed. */
  of(device: ContactEdge): number {
    return this.least(device, false);
  }

  /** The same, with the loads that each core serves looked at. */
  closerOf(device: ContactEdge): number {
    return this.least(device, true);
  }

  private least({ index }: ContactEdge, closer: boolean): number {
    const { measured } = this.installation;
    let least = Number.POSITIVE_INFINITY;
    for (const { way, joint, from, to, onPanelSide } of this.protects.get(index) ?? []) {
      if (onPanelSide || measured[joint] !== 1) return Number.NaN;
      least = Math.min(least, this.atEnd(from, way, closer), this.atEnd(to, way, closer));
    }
    return least < Number.POSITIVE_INFINITY ? least : Number.NaN;
  }

  private atEnd(end: number, way: Way, closer: boolean): number {
    const { at, partOf, zoneOf, otherPole: poles } = this.stand;
    const here = at[partOf[end] as number] ?? [];
    const pole = poles[end] as number;
    let least = Number.POSITIVE_INFINITY;
    for (const { supply, onPlus, far } of here) {
      // What has its own other pole elsewhere is not between these two.
      if (pole >= 0 && partOf[pole] !== far) continue;
      const { empty, out, back, backFrom, outFrom } = this.reckoned(supply);
      const there = onPlus ? out : back;
      const beyond = onPlus ? back : out;
      const zone = zoneOf[end] as number;
      let home = pole >= 0 ? (beyond[pole] as number) : ((onPlus ? backFrom : outFrom)[zone] as number);
      if (closer && pole < 0 && here.every((other) => other.supply === supply || other.far !== far))
        home = Math.min(home, this.nearestServed(way, zone, onPlus, far, beyond));
      const amps = (empty.volts - diodesVolts) / (empty.ohms + hottestShare * ((there[end] as number) + home));
      least = Math.min(least, amps > 0 ? amps : Number.NaN);
    }
    return least < Number.POSITIVE_INFINITY ? least : Number.NaN;
  }

  /** The way back to the nearest of the loads that a core serves, of those that begin in a zone; Infinity where there is none. */
  private nearestServed(way: Way, zone: number, onPlus: boolean, far: number, beyond: Float64Array): number {
    const { partOf, zoneOf } = this.stand;
    let nearest = Number.POSITIVE_INFINITY;
    for (const { plus, minus } of this.served.by(way)) {
      const begins = onPlus ? plus : minus;
      const ends = onPlus ? minus : plus;
      if (zoneOf[begins.index] === zone && partOf[ends.index] === far)
        nearest = Math.min(nearest, beyond[ends.index] as number);
    }
    return nearest;
  }
}

function protectedAlone({ layout, wiring, panelSide }: Arrangement, protections: Protects) {
  const protects = new Map<number, Protected[]>();
  for (const { is, index, from, to } of layout.joints) {
    const way = is === 'core' ? wiring.wayOf[index] : undefined;
    if (way === undefined) continue;
    const { devices } = protections.of(way).protection;
    const edge = devices.length === 1 ? deviceEdge(layout, devices[0]) : undefined;
    if (edge === undefined) continue;
    const onPanelSide = panelSide.ampsThrough(way) !== undefined;
    const one: Protected = { way, joint: index, from: from.index, to: to.index, onPanelSide };
    const known = protects.get(edge.index);
    if (known === undefined) protects.set(edge.index, [one]);
    else known.push(one);
  }
  return protects;
}

function reckonedOf(installation: Installation, supply: Supply): Reckoned {
  const { layout, wiring, near, draws } = installation;
  const out = sumsOutward(outwardFrom(layout, supply.plus, true), near);
  const back = sumsOutward(outwardFrom(layout, supply.minus, true), near);
  const [backFrom, outFrom] = [new Float64Array(wiring.zones.partCount), new Float64Array(wiring.zones.partCount)];
  const most = (of: Float64Array, { index }: Terminal, here: Terminal, sums: Float64Array) => {
    const zone = wiring.zones.part[wiring.node(here)] as number;
    const sum = sums[index] as number;
    if (sum > (of[zone] as number)) of[zone] = sum;
  };
  for (const { plus, minus } of draws) {
    most(backFrom, minus, plus, back);
    most(outFrom, plus, minus, out);
  }
  return { empty: emptied(installation, supply), out, back, backFrom, outFrom };
}
