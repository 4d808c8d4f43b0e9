/**
 * Where short circuits are looked at: between a terminal and the other pole of its circuit. Of a part with a plus and a minus
 * that is its own other terminal; else, for the greatest current, the other terminal of a source that feeds it, and for the
 * least that of the nearest load that it serves without another device between.
 */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Core, Part, Run, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import type { CoreFigures } from './answers.ts';
import { FaultCircuits, type FaultView } from './fault-circuits.ts';
import type { Installation } from './installation.ts';
import { diodesVolts, type Empty, emptied, hottestShare } from './least-fault.ts';
import { otherPole } from './other-pole.ts';
import type { Draw, Source } from './ports.ts';
import { isBattery } from './supplies.ts';

/** What feeds a fault as one: batteries in series, a string of panels, or one source. */
interface Feed {
  readonly sources: readonly Source[];
  readonly plus: Terminal;
  readonly minus: Terminal;
  /** Of all its sources. */
  readonly ends: readonly Terminal[];
  readonly battery: boolean;
  readonly view: FaultView;
  /** Of batteries. */
  empty(): Empty;
  /** Resistance from one of its poles to a terminal, to tell near from far; strings of panels have none. */
  cost(pole: 'plus' | 'minus', terminal: Terminal): number;
}

/** A feed with a pole on some conductors, and its other pole. */
interface Reaching {
  readonly feed: Feed;
  readonly other: Terminal;
}

interface ReachingFeeds {
  readonly all: readonly Reaching[];
  /** The batteries among them, or all where there is none. */
  readonly first: readonly Reaching[];
}

/** A fault between two terminals. */
export interface FaultPlace {
  readonly end: Terminal;
  /** The other pole. */
  readonly to: Terminal;
  readonly amps: number;
}

/** What one feed by itself drives into a fault. */
interface Alone {
  readonly amps: number;
  readonly view: FaultView;
  readonly battery: boolean;
}

export class FaultPlaces {
  /** All sources at their strongest. */
  readonly all: FaultView;
  /** By the connected parts that a feed or a source of it stands at. */
  private readonly feedsAt = new Map<number, Feed[]>();
  /** Draws by the zones of their plus and their minus. */
  private readonly drawsAt: () => ReadonlyMap<number, readonly Draw[]>;
  private readonly atBattery: ReadonlySet<Terminal>;
  /** By the places of the two terminals among all. */
  private readonly alone = new Map<number, readonly Alone[]>();
  /** Feeds on the conductors of a connected part, by that, and whether of panels only. */
  private readonly reached = new Map<number, ReachingFeeds>();

  /** The greatest fault at a terminal; undefined where no source reaches it with both poles. */
  readonly greatestAt = lazilyEach((terminal: Terminal) => this.greatestOf(terminal));
  /** The least fault at a terminal. */
  readonly leastAt = lazilyEach((terminal: Terminal) => this.leastOf(terminal));
  /** The other pole of the nearest load that a terminal serves with no device between, else that of the nearest source. */
  private readonly nearestOther = lazilyEach((terminal: Terminal) => this.nearestTo(terminal));
  private readonly boundAt = lazilyEach((terminal: Terminal) => this.boundOf(terminal));

  constructor(
    private readonly installation: Installation,
    /** Of one core, in ohm; undefined while its size or length is not known. */
    readonly ohmsAt20: (run: Run) => number | undefined,
    private readonly cores: ReadonlyMap<Core, CoreFigures>,
  ) {
    const { sources, supplies, strings } = installation;
    const circuits = new FaultCircuits(installation, ohmsAt20);
    this.all = circuits.view('greatest', sources);
    const alone = (some: readonly Source[]) => circuits.view('least', some);
    const feeds: Feed[] = [
      ...supplies.map((supply) => ({
        ...supply,
        ends: endsOf(supply.sources),
        battery: isBattery(supply),
        view: alone(supply.sources),
        empty: lazily(() => emptied(installation, supply)),
        cost(pole: 'plus' | 'minus', terminal: Terminal) {
          const { out, back } = installation.paths(supply);
          return (pole === 'plus' ? out : back).cost(terminal) ?? Number.POSITIVE_INFINITY;
        },
      })),
      ...strings.map(({ panels, plus, minus }) => ({
        sources: panels,
        plus,
        minus,
        ends: endsOf(panels),
        battery: false,
        view: alone(panels),
        empty: () => ({ volts: 0, ohms: 0 }),
        cost: () => 0,
      })),
    ];
    for (const feed of feeds)
      for (const part of new Set(feed.ends.map((end) => this.partOf(end)))) {
        const here = this.feedsAt.get(part);
        if (here === undefined) this.feedsAt.set(part, [feed]);
        else here.push(feed);
      }
    this.drawsAt = lazily(() => {
      const at = new Map<number, Draw[]>();
      for (const draw of installation.draws)
        for (const zone of new Set([this.zoneOf(draw.plus), this.zoneOf(draw.minus)])) {
          const here = at.get(zone);
          if (here === undefined) at.set(zone, [draw]);
          else here.push(draw);
        }
      return at;
    });
    const batteries = sources.filter(({ is }) => is === 'battery');
    this.atBattery = new Set(batteries.flatMap(({ plus, minus }) => [plus, minus]));
  }

  /** Feeds that stand at a connected part, in their order. */
  private feedsOn(part: number): readonly Feed[] {
    return this.feedsAt.get(part) ?? [];
  }

  private partOf(terminal: Terminal): number {
    const { wiring } = this.installation;
    return wiring.whole.part[wiring.node(terminal)] ?? -1;
  }

  private zoneOf(terminal: Terminal): number {
    const { wiring } = this.installation;
    return wiring.zones.part[wiring.node(terminal)] ?? -1;
  }

  /** Panels share their negative with the battery, but it is panels that feed a fault there. */
  private onPanelSide({ id }: Terminal): boolean {
    let panels = false;
    for (const edge of this.installation.network.at.get(id) ?? []) {
      const figures = edge.is === 'core' ? this.cores.get(edge.core) : undefined;
      if (figures?.onPanelSide === false) return false;
      panels ||= figures?.onPanelSide === true;
    }
    return panels;
  }

  /** Feeds with a pole on the conductors of a terminal, and the other pole of each. */
  private reaching(terminal: Terminal): ReachingFeeds {
    const part = this.partOf(terminal);
    const panels = this.onPanelSide(terminal);
    const key = 2 * part + Number(panels);
    let known = this.reached.get(key);
    if (known === undefined) {
      const all = this.reachingPart(part, panels);
      const batteries = all.filter(({ feed: { battery } }) => battery);
      known = { all, first: batteries.length > 0 ? batteries : all };
      this.reached.set(key, known);
    }
    return known;
  }

  private reachingPart(part: number, panels: boolean): Reaching[] {
    return this.feedsOn(part).flatMap((feed) => {
      if (panels && feed.sources[0]?.is !== 'panel') return [];
      // Between batteries in series both poles of those that meet there count.
      if (this.partOf(feed.plus) === part) return [{ feed, other: feed.minus }];
      if (this.partOf(feed.minus) === part) return [{ feed, other: feed.plus }];
      return feed.sources.flatMap((source) => {
        if (this.partOf(source.plus) === part) return [{ feed, other: source.minus }];
        return this.partOf(source.minus) === part ? [{ feed, other: source.plus }] : [];
      });
    });
  }

  /** Through a device, for the greatest fault right behind one of its ends. */
  greatestThrough(device: ContactEdge, end: Terminal): number {
    const other = end === device.to ? device.from : device.to;
    if (!this.isFedBeyond(device, end)) return 0;
    if (this.isFedBeyond(device, other)) {
      const to = this.greatestAt(end)?.to;
      return to === undefined ? 0 : this.all.through(device, end, to);
    }
    // Where nothing feeds behind it all comes through it, and without resistance as much as at its other end.
    return this.greatestAt(device.ohms > 0 ? end : other)?.amps ?? 0;
  }

  /** Whether a feed may stand beyond a device as seen from one of its ends: where none does nothing comes from there. */
  private isFedBeyond({ index }: ContactEdge, end: Terminal): boolean {
    const { wiring, fedSides } = this.installation;
    const way = wiring.wayOf[index];
    const fed = way === undefined ? undefined : fedSides(way);
    return fed === undefined || (wiring.node(end) === way?.a ? fed.b : fed.a);
  }

  private greatestOf(terminal: Terminal): FaultPlace | undefined {
    const own = otherPole(terminal);
    const others = own === undefined ? this.reaching(terminal).all.map(({ other }) => other) : [own];
    let best: FaultPlace | undefined;
    // Those that are one node make the same fault.
    const known = new Map<number, number>();
    for (const to of new Set(others)) {
      const node = this.installation.wiring.circuitNode(to);
      const amps = known.get(node) ?? this.all.between(terminal, to);
      known.set(node, amps);
      const most = best?.amps ?? 0;
      // Where several make as much of it neither the last digit chooses nor the order of statements.
      const isFirst = best !== undefined && amps >= most * (1 - 1e-9) && to.id < best.to.id;
      if (amps > most * (1 + 1e-9) || isFirst) best = { end: terminal, amps, to };
    }
    return best;
  }

  /** The weakest source alone; what limits its own current only where no battery reaches, because no device waits for it. */
  private leastOf(terminal: Terminal): FaultPlace | undefined {
    const to = otherPole(terminal) ?? this.nearestOther(terminal);
    if (to === undefined) return undefined;
    let least: FaultPlace | undefined;
    for (const { amps } of this.aloneBetween(terminal, to))
      if (least === undefined || amps < least.amps) least = { end: terminal, to, amps };
    return least;
  }

  /**
   * No fault at either end of a core is less than this, in ampere: each battery that reaches it, empty, over its nearest way
   * out and back with the copper as hot as any. Undefined where something else must be looked at.
   */
  leastBound({ from, to }: Core): number | undefined {
    const one = from && this.boundAt(from);
    const other = to && this.boundAt(to);
    const least = one === undefined || other === undefined ? Number.POSITIVE_INFINITY : Math.min(one, other);
    return Number.isFinite(least) ? least : undefined;
  }

  /** Infinity where no battery reaches it; undefined where something else must be looked at. */
  private boundOf(end: Terminal): number | undefined {
    const other = otherPole(end) ?? this.nearestOther(end);
    if (other === undefined) return undefined;
    const part = this.partOf(end);
    let least = Number.POSITIVE_INFINITY;
    for (const feed of this.feedsOn(part)) {
      if (!feed.battery) continue;
      const { plus, minus } = feed;
      const [onPlus, onMinus] = this.partOf(plus) === part ? [end, other] : [other, end];
      const reaches = this.partOf(plus) === this.partOf(onPlus) && this.partOf(minus) === this.partOf(onMinus);
      if (!reaches) continue;
      const { volts, ohms } = feed.empty();
      const cables = feed.cost('plus', onPlus) + feed.cost('minus', onMinus);
      const amps = (volts - diodesVolts) / (ohms + hottestShare * cables);
      if (!(amps > 0)) return undefined;
      least = Math.min(amps, least);
    }
    return least;
  }

  /** What each battery alone drives between two terminals; where none does, each other source. */
  aloneBetween(terminal: Terminal, to: Terminal): readonly Alone[] {
    const key = terminal.index * this.installation.wiring.terminals.length + to.index;
    let known = this.alone.get(key);
    if (known === undefined) {
      known = this.drivenAlone(terminal, to);
      this.alone.set(key, known);
    }
    return known;
  }

  private drivenAlone(terminal: Terminal, to: Terminal): Alone[] {
    // What does not stand at one of the two drives nothing between them.
    const near = this.feedsOn(this.partOf(terminal));
    for (const battery of [true, false]) {
      const found = near
        .filter((feed) => feed.battery === battery)
        .map(({ view }) => ({ amps: view.between(terminal, to), view, battery }))
        .filter(({ amps }) => amps > 0);
      if (found.length > 0) return found;
    }
    return [];
  }

  private nearestTo(terminal: Terminal): Terminal | undefined {
    const { network } = this.installation;
    const part = this.partOf(terminal);
    const isOnPlus = (feed: Feed) => this.partOf(feed.plus) === part;
    const distance = ({ feed }: Reaching) => feed.cost(isOnPlus(feed) ? 'plus' : 'minus', terminal);
    const reached = leastBy(this.reaching(terminal).first, distance);
    if (reached === undefined) return undefined;
    const { feed, other: end } = reached;
    const onPlus = isOnPlus(feed);
    const far = this.partOf(end);
    const at = network.at.get(terminal.id) ?? [];
    const isServed = (load: Part) =>
      at.some((edge) => edge.is === 'core' && this.cores.get(edge.core)?.loads.includes(load) === true);
    // Behind another device begins another circuit, whose way back may be long and thin.
    const zone = this.zoneOf(terminal);
    const others = (this.drawsAt().get(zone) ?? []).flatMap((draw) => {
      const [here, other] = onPlus ? [draw.plus, draw.minus] : [draw.minus, draw.plus];
      return this.zoneOf(here) === zone && this.partOf(other) === far && isServed(draw.part) ? [other] : [];
    });
    return leastBy(others, (other) => feed.cost(onPlus ? 'minus' : 'plus', other)) ?? end;
  }

  /** The end of a core where a fault is least, and its other pole. */
  farEnd(core: Core): FaultPlace | undefined {
    if (this.ohmsAt20(core.run) === undefined) return undefined;
    let found: FaultPlace | undefined;
    for (const end of [core.to, core.from]) {
      const at = end === undefined ? undefined : this.leastAt(end);
      // Where both ends have the same, the last digit must not choose.
      if (at !== undefined && (found === undefined || at.amps < found.amps * (1 - 1e-9))) found = at;
    }
    return found;
  }

  /**
   * The end of a core where a fault that flows in it is greatest. At the terminal of a battery it does not: there the fault is
   * the battery's own. Through what returns a current flows what comes by the conductors whose return it is.
   */
  nearEnd({ core, isReturn }: CoreFigures): FaultPlace | undefined {
    if (isReturn) {
      const far = this.farEnd(core);
      return far && { ...far, amps: this.all.between(far.end, far.to) };
    }
    let near: FaultPlace | undefined;
    for (const end of [core.from, core.to]) {
      if (end === undefined || this.atBattery.has(end)) continue;
      const at = this.greatestAt(end);
      if (at !== undefined && at.amps > (near?.amps ?? 0)) near = at;
    }
    return near;
  }
}

function endsOf(sources: readonly Source[]): Terminal[] {
  return sources.flatMap(({ plus, minus }) => [plus, minus]);
}

/** The first of those with the least. */
function leastBy<T>(items: readonly T[], of: (item: T) => number): T | undefined {
  if (items.length < 2) return items[0];
  let found: T | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const item of items) {
    const own = of(item);
    if (found !== undefined && own >= least) continue;
    found = item;
    least = own;
  }
  return found;
}
