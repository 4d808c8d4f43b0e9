/**
 * What protects a core or contact, by the conventions. A current flows through it from one end to the other, so for each
 * end the smallest sum of device ratings (and of current-limited sources' own greatest currents) that cuts that end from
 * every source is what can drive it from there; the greater of the two protects it. A return conductor has the devices of
 * the feeds it returns; a shared return their sum, which the source's main device caps because it is a cut itself.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { Cut } from '../physics/minimum-cut.ts';
import type { Protection } from './answers.ts';
import { countBelow, groupBy } from './grouping.ts';
import { type Installation, isBattery } from './installation.ts';
import { loopEntries } from './loops.ts';
import type { PanelSide } from './panel-side.ts';
import type { Draw } from './ports.ts';
import type { Way } from './wiring.ts';
import { type Attachment, type DeviceRating, type Feed, type Half, Zones } from './zones.ts';

/** What can drive a way from one of its ends. */
interface Drive {
  readonly amps: number;
  readonly devices: readonly Way[];
  readonly limited: readonly Feed[];
  readonly unprotectedFrom: readonly Part[];
  /** It is the way from a battery to the devices named, which end it. */
  readonly first: boolean;
}

export interface WayProtection {
  readonly protection: Protection;
  readonly beforeFirstDevice: boolean;
}

const nothing: Drive = { amps: 0, devices: [], limited: [], unprotectedFrom: [], first: false };

/** The minus of a draw or feed on a return, for telling what a return conductor parts. */
interface ReturnEnd {
  readonly node: number;
  readonly draw?: Draw;
  /** Index in the feeds. */
  readonly feed?: number;
}

export class Protections {
  private readonly zones: Zones;
  /** Connected parts with the plus of a feed, and of a supply. */
  private readonly feedParts: ReadonlySet<number>;
  private readonly supplyParts: ReadonlySet<number>;
  private readonly returnEnds: ReadonlyMap<number, readonly ReturnEnd[]>;
  private readonly returnOrders = new Map<number, readonly number[]>();
  private readonly returns = new Map<string, readonly Drive[]>();
  private readonly known = new Map<Way, WayProtection>();

  constructor(
    private readonly installation: Installation,
    private readonly panelSide: PanelSide,
    private readonly ratingOf: (way: Way) => DeviceRating,
  ) {
    const { wiring, draws } = installation;
    this.zones = new Zones(installation, ratingOf);
    this.feedParts = new Set(this.zones.feeds.map(({ plus }) => this.partOf(plus)));
    this.supplyParts = new Set(installation.supplies.map(({ plus }) => this.partOf(plus)));
    const ends: ReturnEnd[] = [
      ...draws.map((draw) => ({ node: wiring.node(draw.minus), draw })),
      ...this.zones.feeds.map(({ minus }, feed) => ({ node: wiring.node(minus), feed })),
    ];
    const { preorder, part } = wiring.whole;
    ends.sort((a, b) => (preorder[a.node] ?? 0) - (preorder[b.node] ?? 0));
    this.returnEnds = groupBy(ends, ({ node }) => part[node] ?? -1);
    for (const [key, list] of this.returnEnds)
      this.returnOrders.set(
        key,
        list.map(({ node }) => preorder[node] ?? 0),
      );
  }

  /**
   * A conductor is a return when its connected part holds the minus of a supply and the plus of none, or the minus of
   * panels and no plus at all.
   */
  isReturn(way: Way): boolean {
    const part = this.installation.wiring.whole.part[way.a] ?? -1;
    const { supplies } = this.installation;
    const minuses = (this.returnEnds.get(part) ?? []).flatMap(({ feed }) => feed ?? []);
    // Supplies come before panels among the feeds.
    if (minuses.some((feed) => feed < supplies.length)) return !this.supplyParts.has(part);
    return minuses.length > 0 && !this.feedParts.has(part);
  }

  of(way: Way): WayProtection {
    let result = this.known.get(way);
    if (result === undefined) {
      result = this.result(this.drives(way));
      this.known.set(way, result);
    }
    return result;
  }

  /**
   * Greatest current that the circuit of a contact can have: what protects it, and no more than the devices downstream
   * let through. A load or battery downstream without a device lets everything through, and so does a way that ends in no
   * load at all, where the device before it is the only one.
   */
  circuitAmps(way: Way): number {
    const { protection } = this.of(way);
    if (this.isInner(way) || this.isReturn(way) || way.device) return protection.amps;
    const [a, b] = this.zones.sides(way);
    const capped = (from: Half, to: Half) => {
      const { amps } = this.drive(from, to);
      const onward = to.graphs.drawing(to.piece).amps;
      return onward > 0 ? Math.min(amps, onward) : amps;
    };
    return Math.min(protection.amps, Math.max(capped(a, b), way.oneWay ? 0 : capped(b, a)));
  }

  private partOf(terminal: Terminal): number {
    const { wiring } = this.installation;
    return wiring.whole.part[wiring.node(terminal)] ?? -1;
  }

  /** Joins batteries or panels in series: it is part of a source. */
  private isInner(way: Way): boolean {
    const part = this.installation.wiring.whole.part[way.a] ?? -1;
    return this.installation.joints.has(part) || this.stringsJoinedAt(part).length > 0;
  }

  private stringsJoinedAt(part: number) {
    if (this.feedParts.has(part)) return [];
    return this.installation.strings.filter(({ panels }) =>
      panels.slice(0, -1).some(({ plus }) => this.partOf(plus) === part),
    );
  }

  private drives(way: Way): readonly Drive[] {
    const part = this.installation.wiring.whole.part[way.a] ?? -1;
    if (this.installation.joints.has(part))
      return this.installation.supplies.filter(isBattery).flatMap((supply) => {
        const through = supply.sources.slice(0, -1).some(({ plus }) => this.partOf(plus) === part);
        return through ? [this.outOf(this.zones.zone(this.installation.wiring.node(supply.plus)), [supply.part])] : [];
      });
    const strings = this.stringsJoinedAt(part);
    if (strings.length > 0) {
      const limited = this.zones.feeds.filter(({ plus }) => strings.some((string) => string.plus === plus));
      return [{ ...nothing, amps: this.panelSide.ampsThrough(way) ?? 0, limited }];
    }
    if (this.isReturn(way)) return this.returnDrives(way);
    const [a, b] = this.zones.sides(way);
    const drives = way.oneWay ? [this.drive(a, b)] : [this.drive(a, b), this.drive(b, a)];
    if (!way.device) return drives;
    // A device protects itself where nothing smaller is in series with it.
    const own = this.ratingOf(way).amps ?? 0;
    return drives.map((drive) => (drive.amps > own ? { ...nothing, amps: own, devices: [way] } : drive));
  }

  /** What drives a way from one side of it towards the other. */
  private drive(from: Half, to: Half): Drive {
    const cut = from.graphs.feeding(from.piece);
    if (Number.isFinite(cut.amps)) return this.ofCut(cut);
    const batteries = from.attachments.flatMap(({ feed }) =>
      feed !== undefined && feed.limitAmps === undefined ? [feed.part] : [],
    );
    return this.outOf(to, batteries.length > 0 ? batteries : this.behindDiodes(from.zone));
  }

  /**
   * From batteries with no device before: the way counts as protected by the devices that end it, if every way on ends in
   * one; where only another battery stands there is nothing to drive.
   */
  private outOf(to: Half, batteries: readonly Part[]): Drive {
    const attachments = this.beyondDiodes(to);
    const bare = attachments.some(
      ({ draw, feed }) => (draw !== undefined && !draw.cranking) || feed?.limitAmps !== undefined,
    );
    const devices = attachments.flatMap(({ way, node }) =>
      way?.device && this.leadsOn(way, this.zones.zoneOf(node)) ? [way] : [],
    );
    if (!bare && devices.length > 0)
      return {
        ...nothing,
        amps: devices.reduce((sum, way) => sum + (this.ratingOf(way).amps ?? 0), 0),
        devices,
        first: true,
      };
    const deadEnd =
      attachments.length > 0 && attachments.every(({ feed, way }) => feed !== undefined || way !== undefined);
    if (!bare && deadEnd) return nothing;
    return { ...nothing, amps: Number.POSITIVE_INFINITY, unprotectedFrom: [...new Set(batteries)] };
  }

  /** What hangs on a half, and on the zones that its diodes let current into. */
  private beyondDiodes({ zone, attachments }: Half): readonly Attachment[] {
    const all = [...attachments];
    const seen = new Set([zone]);
    for (const { way, node } of all) {
      const next = way?.oneWay === true && way.a === node ? this.zones.zoneOf(way.b) : undefined;
      if (next === undefined || seen.has(next)) continue;
      seen.add(next);
      all.push(...this.zones.attachmentsOf(next));
    }
    return all;
  }

  /** Whether anything stands behind a device, as seen from a zone. */
  private leadsOn(way: Way, zone: number): boolean {
    const [a, b] = [this.zones.zoneOf(way.a), this.zones.zoneOf(way.b)];
    const behind = a === zone ? b : a;
    return this.zones.attachmentsOf(behind).some((other) => other.way !== way);
  }

  private behindDiodes(zone: number): Part[] {
    return this.zones.feeds.flatMap(({ part, limitAmps }, index) =>
      limitAmps === undefined && this.zones.reachedUnfused(new Set([index])).has(zone) ? [part] : [],
    );
  }

  private ofCut({ amps, edges, sources }: Cut): Drive {
    return {
      ...nothing,
      amps,
      devices: edges.flatMap((index) => this.zones.edges[index] ?? []),
      limited: sources.flatMap((index) => this.zones.feeds[index] ?? []),
    };
  }

  private returnDrives(way: Way): readonly Drive[] {
    const { whole } = this.installation.wiring;
    const part = whole.part[way.a] ?? -1;
    const ends = this.returnEnds.get(part) ?? [];
    const span = whole.far[way.index];
    const order = this.returnOrders.get(part) ?? [];
    const [low, high] = span === undefined ? [0, 0] : [countBelow(order, span.from), countBelow(order, span.to)];
    const key = span === undefined ? `loop ${whole.loop[way.index]} ${part}` : `${part} ${low} ${high}`;
    let drives = this.returns.get(key);
    if (drives === undefined) {
      const far = ends.slice(low, high);
      const near = [...ends.slice(0, low), ...ends.slice(high)];
      const sources = (side: readonly ReturnEnd[]) => side.filter(({ feed }) => feed !== undefined).length;
      // Of two that let through as much, the one with fewer sources tells more.
      const sides: [readonly ReturnEnd[], readonly ReturnEnd[]][] =
        sources(near) <= sources(far)
          ? [
              [far, near],
              [near, far],
            ]
          : [
              [near, far],
              [far, near],
            ];
      drives = span === undefined ? [this.aroundLoop(way, ends)] : sides.map(([from, to]) => this.returned(from, to));
      this.returns.set(key, drives);
    }
    return drives;
  }

  /** On a loop a conductor may carry all that comes in elsewhere than where the only source is. */
  private aroundLoop(way: Way, ends: readonly ReturnEnd[]): Drive {
    const { wiring } = this.installation;
    // A conductor from a node to itself, as beside the vehicle's body, has nothing to carry.
    if (way.a === way.b) return nothing;
    const entry = loopEntries(wiring, wiring.whole.loop[way.index] ?? -1);
    const home = new Set(ends.filter(({ feed }) => feed !== undefined).map(({ node }) => entry.get(node)));
    const elsewhere = ({ node }: ReturnEnd) => home.size > 1 || !home.has(entry.get(node));
    return this.returned(
      ends.filter((end) => end.draw !== undefined && elsewhere(end)),
      ends,
    );
  }

  /** What flows back from some ends of a return to the sources among others. */
  private returned(from: readonly ReturnEnd[], to: readonly ReturnEnd[]): Drive {
    const { wiring } = this.installation;
    const zoneAt = (terminal: Terminal) => this.zones.zoneOf(wiring.node(terminal));
    const sources = new Set(to.flatMap(({ feed }) => (feed === undefined ? [] : [feed])));
    if (sources.size === 0) return nothing;
    const unfused = this.zones.reachedUnfused(sources);
    const steady = from.filter(({ draw }) => draw?.cranking !== true);
    const targets = (steady.length > 0 ? steady : from).flatMap(({ draw, feed }) => {
      const end = draw ?? this.zones.feeds[feed ?? -1];
      if (end === undefined) return [];
      const zone = zoneAt(end.plus);
      // A battery that another reaches without a device lies before the first device of both.
      const battery = feed !== undefined && this.zones.feeds[feed]?.limitAmps === undefined;
      return battery && unfused.has(zone) ? [] : [zone];
    });
    if (targets.length === 0) return nothing;
    const cut = this.zones.cutBetween([...new Set(targets)], sources);
    if (Number.isFinite(cut.amps)) return this.ofCut(cut);
    const reach = (index: number) => targets.some((zone) => this.zones.reachedUnfused(new Set([index])).has(zone));
    const parts = [...sources].filter(reach).flatMap((index) => this.zones.feeds[index]?.part ?? []);
    return { ...nothing, amps: cut.amps, unprotectedFrom: [...new Set(parts)] };
  }

  private result(drives: readonly Drive[]): WayProtection {
    const unprotectedFrom = [...new Set(drives.flatMap((drive) => drive.unprotectedFrom))];
    const most = drives.reduce((best, drive) => (drive.amps > best.amps ? drive : best), nothing);
    const devices = most.devices.flatMap((device) => {
      const [edge] = device.edges;
      return edge?.is === 'contact'
        ? [{ part: edge.part, pole: edge.contact.pole, amps: this.ratingOf(device).amps ?? 0 }]
        : [];
    });
    return {
      protection: {
        amps: most.amps,
        devices,
        limitedSources: most.limited.map(({ part, limitAmps }) => ({ part, amps: limitAmps ?? 0 })),
        unprotectedFrom,
        blank: drives.some((drive) => drive.devices.some((device) => this.ratingOf(device).blank)),
      },
      beforeFirstDevice: unprotectedFrom.length === 0 && drives.some(({ first }) => first),
    };
  }
}
