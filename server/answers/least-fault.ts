/**
 * No fault at the end of what a device alone protects brings it less than this: each battery that reaches it, empty, over a way
 * out and the longest way back that may be looked at, with the copper as hot as any. Less exact than `FaultPlaces.leastBound` and
 * told of all devices in one go.
 */

import { keptWith, lazily, lazilyEach } from '../model/lazily.ts';
import type { Core, Run, Terminal } from '../model/model.ts';
import type { ContactEdge, Layout } from '../model/network.ts';
import type { CoreFigures } from './answers.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { batteryOhms } from './charging.ts';
import { batteryVolts } from './fault-circuits.ts';
import { deviceEdge } from './fault-contacts.ts';
import type { Installation } from './installation.ts';
import { otherPole } from './other-pole.ts';
import { outwardFrom, sumsOutward } from './outward.ts';
import { isBattery, type Supply } from './supplies.ts';

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
  /** By terminal the index of the other pole of its own side of its part; -1 for none. */
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
  return { at, otherPole: Int32Array.from(layout.terminals, (terminal) => otherPole(terminal)?.index ?? -1) };
}

/** What a supply brings about: what its ways sum up to, and the most that the way back of a load may, by the zone where it is. */
interface Reckoned {
  readonly empty: Empty;
  readonly out: Float64Array;
  readonly back: Float64Array;
  readonly backFrom: Float64Array;
  readonly outFrom: Float64Array;
}

/** In ampere. Cores of which the resistance is not known are not judged. */
export class LeastFaults {
  private readonly stand: Stand;
  private readonly reckoned = lazilyEach((supply: Supply) => reckonedOf(this.installation, supply));
  private readonly protects = lazily(() => this.protectedBy());
  private readonly least = lazily(() => this.leastOfAll());

  constructor(
    private readonly installation: Installation,
    private readonly cores: ReadonlyMap<Core, CoreFigures>,
    private readonly ohmsAt20: (run: Run) => number | undefined,
  ) {
    this.stand = standOf(installation.layout);
  }

  /** What each device protects by itself: of several each has a share only, which says nothing about whether all of them open. */
  protectedAloneBy(device: ContactEdge): readonly CoreFigures[] {
    return this.protects().get(device) ?? [];
  }

  /** Of one device: Infinity where it protects nothing that is judged, NaN where a closer look is needed. */
  of({ index }: ContactEdge): number {
    return this.least()[index] as number;
  }

  /** The same, with the loads that each core serves looked at. */
  closerOf(device: ContactEdge): number {
    return this.protectedAloneBy(device).reduce(
      (least, figures) => Math.min(least, this.ofCore(figures, true)),
      Number.POSITIVE_INFINITY,
    );
  }

  private protectedBy(): ReadonlyMap<ContactEdge, readonly CoreFigures[]> {
    const protects = new Map<ContactEdge, CoreFigures[]>();
    for (const figures of this.cores.values()) {
      const edge = this.onlyDevice(figures);
      if (edge === undefined) continue;
      const known = protects.get(edge);
      if (known === undefined) protects.set(edge, [figures]);
      else known.push(figures);
    }
    return protects;
  }

  private onlyDevice({ protection: { devices } }: CoreFigures): ContactEdge | undefined {
    return devices.length === 1 ? deviceEdge(this.installation.layout, devices[0]) : undefined;
  }

  private leastOfAll(): Float64Array {
    const least = new Float64Array(this.installation.near.length).fill(Number.POSITIVE_INFINITY);
    for (const figures of this.cores.values()) {
      const edge = this.onlyDevice(figures);
      if (edge !== undefined) least[edge.index] = Math.min(least[edge.index] as number, this.ofCore(figures, false));
    }
    return least;
  }

  private ofCore(figures: CoreFigures, closer: boolean): number {
    const { core, onPanelSide } = figures;
    if (this.ohmsAt20(core.run) === undefined) return Number.POSITIVE_INFINITY;
    if (onPanelSide || core.from === undefined || core.to === undefined) return Number.NaN;
    return Math.min(this.atEnd(core.from, figures, closer), this.atEnd(core.to, figures, closer));
  }

  private atEnd(end: Terminal, figures: CoreFigures, closer: boolean): number {
    const { layout, wiring } = this.installation;
    const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] as number;
    const here = this.stand.at[partOf(end)] ?? [];
    const pole = this.stand.otherPole[end.index] as number;
    const poleAt = pole >= 0 ? partOf(layout.terminals[pole] as Terminal) : -1;
    let least = Number.POSITIVE_INFINITY;
    for (const { supply, onPlus, far } of here) {
      // What has its own other pole elsewhere is not between these two.
      if (pole >= 0 && poleAt !== far) continue;
      const { empty, out, back, backFrom, outFrom } = this.reckoned(supply);
      const [there, beyond] = onPlus ? [out, back] : [back, out];
      let home = pole >= 0 ? (beyond[pole] as number) : ((onPlus ? backFrom : outFrom)[this.zoneOf(end)] as number);
      if (closer && pole < 0 && here.every((other) => other.supply === supply || other.far !== far))
        home = Math.min(home, this.nearestServed(figures, this.zoneOf(end), onPlus, far, beyond));
      const amps = (empty.volts - diodesVolts) / (empty.ohms + hottestShare * ((there[end.index] as number) + home));
      least = Math.min(least, amps > 0 ? amps : Number.NaN);
    }
    return least < Number.POSITIVE_INFINITY ? least : Number.NaN;
  }

  /** The way back to the nearest of the loads that a core serves, of those that begin in a zone; Infinity where there is none. */
  private nearestServed(
    { loads }: CoreFigures,
    zone: number,
    onPlus: boolean,
    far: number,
    beyond: Float64Array,
  ): number {
    const { wiring } = this.installation;
    let nearest = Number.POSITIVE_INFINITY;
    for (const load of loads)
      for (const { plus, minus } of this.installation.at(load).draws) {
        const [begins, ends] = onPlus ? [plus, minus] : [minus, plus];
        if (this.zoneOf(begins) === zone && wiring.whole.part[wiring.node(ends)] === far)
          nearest = Math.min(nearest, beyond[ends.index] as number);
      }
    return nearest;
  }

  private zoneOf(terminal: Terminal): number {
    const { wiring } = this.installation;
    return wiring.zones.part[wiring.node(terminal)] as number;
  }
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
