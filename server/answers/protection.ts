/**
 * What protects a core or contact, by the conventions. A current flows through it from one end to the other, so for each
 * end the smallest sum of device ratings (and of current-limited sources' own greatest currents) that cuts that end from
 * every source is what can drive it from there; the greater of the two protects it. A return conductor has the devices of
 * the feeds it returns; a shared return their sum, which the source's main device caps because it is a cut itself. What
 * limits its own current counts there only as broken, one at a time.
 */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Protection } from './answers.ts';
import type { Arrangement } from './arrangement.ts';
import { countBelow, groupBy } from './grouping.ts';
import { loopEntries } from './loops.ts';
import type { Draw } from './ports.ts';
import { ProtectionBy } from './protection-by.ts';
import type { Way } from './wiring.ts';
import { type Attachment, type DeviceRating, type Half, type Makings, Zones } from './zones.ts';

/** What can drive a way from one of its ends. */
interface Drive {
  readonly amps: number;
  /** Looked up when asked for: only messages and hovers want to know. */
  makings(): Makings;
  readonly unprotectedFrom: readonly Part[];
  /** It is the way from a battery to the devices that make it up, which end it. */
  readonly first: boolean;
  /** How many sources a return leads back to. */
  readonly sources: number;
  /** What takes current where it leads, in ampere: asked for only where as much can come from either end. */
  taken?(): number;
}

/** Places of a loop with sources, up to which all ways to part them are looked at. */
const mostHomes = 6;

const noMakings: Makings = { devices: [], limited: [] };
const nothing: Drive = { amps: 0, makings: () => noMakings, unprotectedFrom: [], first: false, sources: 0 };

export interface WayProtection {
  readonly protection: Protection;
  readonly beforeFirstDevice: boolean;
}

/** The minus of a draw or feed on a return, for telling what a return conductor parts. */
interface ReturnEnd {
  readonly node: number;
  readonly draw?: Draw;
  /** Index in the feeds. */
  readonly feed?: number;
}

/** What is asked of protection. */
export type Protects = Pick<Protections, 'of' | 'clearing' | 'circuitAmps' | 'isReturn'>;

export class Protections {
  private readonly zones: Zones;
  /** Connected parts with the plus of a feed, and of a supply. */
  private readonly feedParts: ReadonlySet<number>;
  private readonly supplyParts: ReadonlySet<number>;
  private readonly returnEnds: ReadonlyMap<number, readonly ReturnEnd[]>;
  private readonly returnOrders: ReadonlyMap<number, readonly number[]>;
  private readonly returns = new Map<string, readonly Drive[]>();
  private readonly anyBlank: boolean;

  constructor(
    private readonly arrangement: Arrangement,
    private readonly ratingOf: (way: Way) => DeviceRating,
  ) {
    const { wiring, draws, supplies } = arrangement;
    this.zones = new Zones(arrangement, ratingOf);
    this.anyBlank = this.zones.edges.some((way) => way.device && ratingOf(way).blank);
    this.feedParts = new Set(this.zones.feeds.map(({ plus }) => this.partOf(plus)));
    this.supplyParts = new Set(supplies.map(({ plus }) => this.partOf(plus)));
    const { preorder, part } = wiring.whole;
    const at = ({ node }: ReturnEnd) => preorder[node] ?? 0;
    const ends: ReturnEnd[] = [
      ...draws.map((draw) => ({ node: wiring.node(draw.minus), draw })),
      ...this.zones.feeds.map(({ minus }, feed) => ({ node: wiring.node(minus), feed })),
    ];
    ends.sort((a, b) => at(a) - at(b));
    this.returnEnds = groupBy(ends, ({ node }) => part[node] ?? -1);
    this.returnOrders = new Map([...this.returnEnds].map(([key, list]) => [key, list.map(at)]));
  }

  /**
   * A conductor is a return when its connected part holds the minus of a supply and the plus of none, or the minus of
   * panels and no plus at all.
   */
  isReturn(way: Way): boolean {
    return this.isReturnPart(this.arrangement.wiring.whole.part[way.a] ?? -1);
  }

  private readonly isReturnPart = lazilyEach((part: number): boolean => {
    const { supplies } = this.arrangement;
    const minuses = (this.returnEnds.get(part) ?? []).flatMap(({ feed }) => feed ?? []);
    // Supplies come before panels among the feeds.
    if (minuses.some((feed) => feed < supplies.length)) return !this.supplyParts.has(part);
    return minuses.length > 0 && !this.feedParts.has(part);
  });

  readonly of = lazilyEach((way: Way): WayProtection => this.result(this.drives(way)));

  /**
   * Devices that are to clear a short circuit on a way: what protects it, or, where that is what a source can give at most, those
   * between it and what drives more than that from its other side.
   */
  readonly clearing = lazilyEach((way: Way): Protection['devices'] => {
    const { devices, unprotectedFrom } = this.of(way).protection;
    if (devices.length > 0 || unprotectedFrom.length > 0) return devices;
    const ways = new Set(this.drives(way).flatMap((drive) => drive.makings().devices));
    return [...ways].flatMap(this.deviceOf);
  });

  /**
   * Greatest current that the circuit of a contact can have: what protects it, and no more than the devices downstream
   * let through. A load or battery downstream without a device lets everything through, and so does a way that ends in no
   * load at all, where the device before it is the only one.
   */
  readonly circuitAmps = lazilyEach((way: Way): number => {
    const { protection } = this.of(way);
    if (this.isInner(way) || this.isReturn(way) || way.device) return protection.amps;
    const [a, b] = this.zones.sides(way);
    const capped = (from: Half, to: Half) => {
      if (this.onlyGives(to)) return 0;
      const { amps } = this.drive(from, to);
      const onward = this.zones.amps(to, 'drawing');
      return onward > 0 ? Math.min(amps, onward) : amps;
    };
    return Math.min(protection.amps, Math.max(capped(a, b), way.oneWay ? 0 : capped(b, a)));
  });

  /** Whether panels alone stand there, as behind a controller with a common positive: they take nothing. */
  private onlyGives(half: Half): boolean {
    const on = this.zones.on(half);
    return on.length > 0 && on.every(({ feed }) => feed?.part.kind.behaviour.is === 'panel');
  }

  private partOf(terminal: Terminal): number {
    const { wiring } = this.arrangement;
    return wiring.whole.part[wiring.node(terminal)] ?? -1;
  }

  /** Joins batteries or panels in series: it is part of a source. */
  private isInner(way: Way): boolean {
    const part = this.arrangement.wiring.whole.part[way.a] ?? -1;
    return this.arrangement.joints.has(part) || this.stringsJoinedAt(part).length > 0;
  }

  private stringsJoinedAt(part: number) {
    if (this.feedParts.has(part)) return [];
    return this.arrangement.strings.filter(({ panels }) =>
      panels.slice(0, -1).some(({ plus }) => this.partOf(plus) === part),
    );
  }

  private drives(way: Way): readonly Drive[] {
    const part = this.arrangement.wiring.whole.part[way.a] ?? -1;
    if (this.arrangement.joints.has(part)) return this.jointDrives(part);
    const strings = this.stringsJoinedAt(part);
    if (strings.length > 0) {
      const limited = this.zones.feeds.filter(({ plus }) => strings.some((string) => string.plus === plus));
      return [
        {
          ...nothing,
          amps: this.arrangement.panelSide.ampsThrough(way) ?? 0,
          makings: () => ({ devices: [], limited }),
        },
      ];
    }
    if (this.isReturn(way)) return this.returnDrives(way);
    const [a, b] = this.zones.sides(way);
    const drives = way.oneWay ? [this.drive(a, b)] : [this.drive(a, b), this.drive(b, a)];
    if (!way.device) return drives;
    // A device protects itself where nothing smaller is in series with it.
    const own = this.ratingOf(way).amps ?? 0;
    const itself: Drive = { ...nothing, amps: own, makings: () => ({ devices: [way], limited: [] }) };
    return drives.map((drive) => (drive.amps > own ? itself : drive));
  }

  /** A joint between batteries in series lies before the devices that the whole of them has. */
  private jointDrives(part: number): readonly Drive[] {
    const { supplies, wiring } = this.arrangement;
    const through = supplies.filter((supply) =>
      supply.sources.slice(0, -1).some(({ is, plus }) => is === 'battery' && this.partOf(plus) === part),
    );
    return through.map(({ plus, part: top }) =>
      this.outOf(this.zones.whole(this.zones.zoneOf(wiring.node(plus))), [top]),
    );
  }

  /** What drives a way from one side of it towards the other. */
  private drive(from: Half, to: Half): Drive {
    const amps = this.zones.amps(from, 'feeding');
    if (Number.isFinite(amps))
      return { ...nothing, amps, makings: () => this.zones.makings(from), taken: () => this.zones.amps(to, 'drawing') };
    const batteries = this.zones
      .on(from)
      .flatMap(({ feed }) => (feed !== undefined && feed.limitAmps === undefined ? [feed.part] : []));
    return this.outOf(to, batteries.length > 0 ? batteries : this.behindDiodes(from.zone));
  }

  /**
   * From batteries with no device before: the way counts as protected by the devices that end it, if every way on ends in
   * one; where only another battery stands there is nothing to drive.
   */
  private outOf(to: Half, batteries: readonly Part[]): Drive {
    const on = this.beyondDiodes(to);
    const bare = on.some(({ draw, feed }) => (draw !== undefined && !draw.cranking) || feed?.limitAmps !== undefined);
    const devices = on.flatMap(({ edge, node }) => {
      const way = this.zones.edges[edge ?? -1];
      return way?.device && this.leadsOn(way, this.zones.zoneOf(node)) ? [way] : [];
    });
    if (!bare && devices.length > 0) {
      const amps = devices.reduce((sum, way) => sum + (this.ratingOf(way).amps ?? 0), 0);
      return { ...nothing, amps, makings: () => ({ devices, limited: [] }), first: true };
    }
    const deadEnd = on.length > 0 && on.every(({ feed, edge }) => feed !== undefined || edge !== undefined);
    if (!bare && deadEnd) return nothing;
    return { ...nothing, amps: Number.POSITIVE_INFINITY, unprotectedFrom: [...new Set(batteries)] };
  }

  /** What hangs on a half, and on the zones that its diodes let current into. */
  private beyondDiodes(half: Half): readonly Attachment[] {
    const all = [...this.zones.on(half)];
    const seen = new Set([half.zone]);
    for (const { edge, node } of all) {
      const way = this.zones.edges[edge ?? -1];
      const next = way?.oneWay === true && way.a === node ? this.zones.zoneOf(way.b) : undefined;
      if (next === undefined || seen.has(next)) continue;
      seen.add(next);
      all.push(...this.zones.on(this.zones.whole(next)));
    }
    return all;
  }

  /** Whether anything stands behind a device, as seen from a zone. */
  private leadsOn(way: Way, zone: number): boolean {
    const a = this.zones.zoneOf(way.a);
    const b = this.zones.zoneOf(way.b);
    const behind = this.zones.on(this.zones.whole(a === zone ? b : a));
    return behind.some(({ edge }) => this.zones.edges[edge ?? -1] !== way);
  }

  /** A way of a fusebox that nothing is joined to protects nothing, whatever its fuse. */
  private isUsed({ a, b }: Way): boolean {
    const joined = this.joined();
    return joined.has(a) && joined.has(b);
  }

  /** Nodes that a core or a link ends on. */
  private readonly joined = lazily(() => {
    const { layout, wiring } = this.arrangement;
    const ends = layout.joints.flatMap(({ is, from, to }) => (is === 'contact' ? [] : [from, to]));
    return new Set(ends.map((terminal) => wiring.node(terminal)));
  });

  private behindDiodes(zone: number): Part[] {
    return this.zones.feeds.flatMap(({ part, limitAmps }, index) =>
      limitAmps === undefined && this.zones.reachedUnfused([index]).has(zone) ? [part] : [],
    );
  }

  private returnDrives(way: Way): readonly Drive[] {
    const { whole } = this.arrangement.wiring;
    const part = whole.part[way.a] ?? -1;
    const ends = this.returnEnds.get(part) ?? [];
    const span = whole.far[way.index];
    const order = this.returnOrders.get(part) ?? [];
    const [low, high] = span === undefined ? [0, 0] : [countBelow(order, span.from), countBelow(order, span.to)];
    // Conductors that part the same have the same answer.
    const key = span === undefined ? `loop ${whole.loop[way.index]} ${part}` : `${part} ${low} ${high}`;
    let drives = this.returns.get(key);
    if (drives === undefined) {
      drives = span === undefined ? [this.aroundLoop(way, ends)] : this.parted(ends, low, high);
      this.returns.set(key, drives);
    }
    return drives;
  }

  private parted(ends: readonly ReturnEnd[], low: number, high: number): readonly Drive[] {
    const far = ends.slice(low, high);
    const near = [...ends.slice(0, low), ...ends.slice(high)];
    return [this.returned(far, near), this.returned(near, far)];
  }

  /**
   * On a loop a conductor may carry all that comes in elsewhere than where the only source is. Of several it carries no more
   * than flows from some of the places where things come in to the sources at the others.
   */
  private aroundLoop(way: Way, ends: readonly ReturnEnd[]): Drive {
    const { wiring } = this.arrangement;
    // A conductor from a node to itself, as beside the vehicle's body, has nothing to carry.
    if (way.a === way.b) return nothing;
    const entry = loopEntries(wiring, wiring.whole.loop[way.index] ?? -1);
    const home = [...new Set(ends.filter(({ feed }) => feed !== undefined).map(({ node }) => entry.get(node)))];
    const elsewhere = ({ node }: ReturnEnd) => !home.includes(entry.get(node));
    const draws = ends.filter(({ draw }) => draw !== undefined);
    if (home.length <= 1) return this.returned(draws.filter(elsewhere), ends);
    if (home.length > mostHomes) return this.returned(draws, ends);
    let most = nothing;
    for (let sides = 0; sides < 2 ** home.length - 1; sides++) {
      const isFrom = (end: ReturnEnd) => elsewhere(end) || ((sides >> home.indexOf(entry.get(end.node))) & 1) === 1;
      const drive = this.returned(
        ends.filter(isFrom),
        ends.filter((end) => !isFrom(end)),
      );
      if (tellsMore(drive, most)) most = drive;
    }
    return most;
  }

  /** What flows back from some ends of a return to the sources among others. */
  private returned(from: readonly ReturnEnd[], to: readonly ReturnEnd[]): Drive {
    const { wiring } = this.arrangement;
    const sources = new Set(to.flatMap(({ feed }) => feed ?? []));
    if (sources.size === 0 || from.length === 0) return nothing;
    const unfused = this.zones.reachedUnfused(sources);
    const steady = from.filter(({ draw }) => draw?.cranking !== true);
    const targets = new Set<number>();
    /** Of what limits itself, such as an alternator: it takes nothing unless it is broken, and one breaks at a time. */
    const limited = new Set<number>();
    for (const { draw, feed } of steady.length > 0 ? steady : from) {
      const end = draw ?? this.zones.feeds[feed ?? -1];
      if (end === undefined) continue;
      const zone = this.zones.zoneOf(wiring.node(end.plus));
      if (feed !== undefined && this.zones.feeds[feed]?.limitAmps !== undefined) limited.add(zone);
      // A battery that another reaches without a device lies before the first device of both.
      else if (feed === undefined || !unfused.has(zone)) targets.add(zone);
    }
    const together = [[...targets], ...[...limited].filter((zone) => !targets.has(zone)).map((zone) => [zone])];
    let [zones = [], ...alone] = together;
    let amps = this.zones.ampsBetween(sources, zones);
    for (const one of alone) {
      const own = this.zones.ampsBetween(sources, one);
      if (own > amps) [zones, amps] = [one, own];
    }
    if (Number.isFinite(amps)) {
      const makings = () => this.zones.makingsBetween(sources, zones);
      return { ...nothing, amps, makings, sources: sources.size };
    }
    const reaches = (index: number) => {
      const reached = this.zones.reachedUnfused([index]);
      return zones.some((zone) => reached.has(zone));
    };
    const parts = [...sources].filter(reaches).flatMap((index) => this.zones.feeds[index]?.part ?? []);
    return { ...nothing, amps, unprotectedFrom: [...new Set(parts)] };
  }

  /** A device of a cut as it is told, with none for what carries nothing. */
  private readonly deviceOf = (way: Way): Protection['devices'] => {
    const [edge] = way.edges;
    if (edge?.is !== 'contact' || !this.isUsed(way)) return [];
    return [{ part: edge.part, pole: edge.contact.pole, amps: this.ratingOf(way).amps ?? 0 }];
  };

  private result(drives: readonly Drive[]): WayProtection {
    const unprotectedFrom = [...new Set(drives.flatMap((drive) => drive.unprotectedFrom))];
    const most = drives.reduce((best, drive) => (tellsMore(drive, best) ? drive : best), nothing);
    const blank =
      this.anyBlank &&
      drives.some((drive) => drive.makings().devices.some((way) => this.ratingOf(way).blank && this.isUsed(way)));
    return {
      protection: new ProtectionBy(most, unprotectedFrom, blank, this.deviceOf),
      beforeFirstDevice: unprotectedFrom.length === 0 && drives.some(({ first }) => first),
    };
  }
}

/**
 * The greater; of two that let through as much the one with fewer sources, then the one with a device, then the one that leads to where more is taken, as
 * from a panel to its controller and not from the other panel back to it; then the first by the names of its devices.
 */
function tellsMore(drive: Drive, best: Drive): boolean {
  if (drive.amps !== best.amps) return drive.amps > best.amps;
  if (drive.amps === 0 || !Number.isFinite(drive.amps)) return false;
  if (drive.sources !== best.sources) return drive.sources < best.sources;
  const [hasDevice, otherHas] = [drive, best].map((one) => one.makings().devices.length > 0);
  if (hasDevice !== otherHas) return hasDevice === true;
  const [taken, other] = [drive.taken?.() ?? 0, best.taken?.() ?? 0];
  return taken !== other ? taken > other : namesOf(drive) < namesOf(best);
}

function namesOf(drive: Drive): string {
  const { devices, limited } = drive.makings();
  const named = devices.map(({ edges: [edge] }) =>
    edge?.is === 'contact' ? `${edge.part.name} ${edge.contact.pole}` : '',
  );
  return [...named, ...limited.map(({ part }) => part.name)].sort().join(', ');
}
