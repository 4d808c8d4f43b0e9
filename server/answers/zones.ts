/**
 * Zones: what one fault reaches without passing a protective device. They are the nodes, and the devices the edges, of the
 * small graph on which protection is worked out; a conductor is judged by the two halves into which it parts its zone.
 */
import { trimmed } from '../../grammar/trimmed.ts';
import type { Part, Terminal } from '../model/model.ts';
import { CutGraph } from '../physics/minimum-cut.ts';
import type { Arrangement } from './arrangement.ts';
import { countBelow, groupBy } from './grouping.ts';
import type { Draw } from './ports.ts';
import { isBattery, type Supply } from './supplies.ts';
import type { Way } from './wiring.ts';
import { noSum, plus, type Sum, value, ZoneFlows, type ZoneSource } from './zone-flows.ts';

export interface DeviceRating {
  /** Undefined while nothing tells what it will be. */
  readonly amps: number | undefined;
  /** The rating is left blank; the tool's choice, if any, stands in for it. */
  readonly blank: boolean;
}

/** A supply or a string of panels. */
export interface Feed {
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
  /** Its own greatest current; undefined for batteries. */
  readonly limitAmps: number | undefined;
}

/** What hangs on a zone: an end of a device or diode, the plus of a feed, or the plus of a draw. */
export interface Attachment {
  readonly node: number;
  /** Place among the devices and diodes. */
  readonly edge?: number;
  readonly feed?: Feed;
  readonly draw?: Draw;
}

/** A zone, or what lies on one side of a conductor in it. */
export interface Half {
  readonly zone: number;
  /** Its attachments are those in [low, high), or when `outside` all others. */
  readonly low: number;
  readonly high: number;
  readonly outside: boolean;
  /** A device or diode that is left out of account, because it is asked about. */
  readonly without: number | undefined;
}

/** What makes up a flow. */
export interface Makings {
  readonly devices: readonly Way[];
  readonly limited: readonly Feed[];
}

interface Zone {
  readonly attachments: readonly Attachment[];
  /** Preorder numbers of their nodes. */
  readonly order: readonly number[];
  /** Sums over the attachments before each, of what feeds it and of what it draws. */
  feeding?: readonly Sum[];
  drawing?: readonly Sum[];
}

/** What comes into a loop of devices from outside it. */
interface LoopSource {
  readonly node: number;
  readonly zone: number;
  readonly amps: number;
  readonly attachment: Attachment;
}

/**
 * What a supply adds of its own. Where a controller joins its positives inside, its load output adds nothing to what feeds its
 * battery side, and its battery output only what its panels on the same positive do not give already: a `pwm` one nothing.
 */
function ownAmps({ sources: [source], part, plus, limitAmps }: Supply, { strings, wiring }: Arrangement) {
  if (limitAmps === undefined || (source?.is !== 'output' && source?.is !== 'load-output')) return limitAmps;
  const isShared = wiring.inner.some(
    (way) => way.is === 'common' && way.part === part && way.from.spec.polarity === '+',
  );
  if (!isShared) return limitAmps;
  if (source.is === 'load-output' || part.facts.word('method') === 'pwm') return 0;
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)];
  const there = strings.filter((string) => partOf(string.plus) === partOf(plus));
  return Math.max(0, limitAmps - there.reduce((sum, { shortCircuitAmps }) => sum + shortCircuitAmps, 0));
}

type Direction = 'feeding' | 'drawing';

export class Zones {
  readonly feeds: readonly Feed[];
  /** Devices and diodes. */
  readonly edges: readonly Way[];
  private readonly edgeOf: ReadonlyMap<Way, number>;
  private readonly zones: ReadonlyMap<number, Zone>;
  private readonly flows: Readonly<Record<Direction, ZoneFlows>>;
  private readonly anyDiode: boolean;
  private feedGraph: CutGraph | undefined;

  constructor(
    private readonly arrangement: Arrangement,
    private readonly ratingOf: (way: Way) => DeviceRating,
  ) {
    const { wiring, supplies, strings, draws } = arrangement;
    this.feeds = [
      ...supplies.map((supply) => ({
        part: supply.part,
        plus: supply.plus,
        minus: supply.minus,
        limitAmps: ownAmps(supply, arrangement),
      })),
      ...strings.map(({ panels, plus, minus, shortCircuitAmps }) => ({
        part: panels.at(-1)?.part as Part,
        plus,
        minus,
        limitAmps: shortCircuitAmps,
      })),
    ];
    this.edges = wiring.ways.filter(({ device, oneWay }) => device || oneWay);
    this.anyDiode = this.edges.some(({ oneWay }) => oneWay);
    this.edgeOf = new Map(this.edges.map((way, i) => [way, i]));
    const attachments: Attachment[] = [
      ...this.edges.flatMap(({ a, b }, edge) => [
        { node: a, edge },
        { node: b, edge },
      ]),
      ...this.feeds.map((feed) => ({ node: wiring.node(feed.plus), feed })),
      ...draws.map((draw) => ({ node: wiring.node(draw.plus), draw })),
    ];
    const { preorder, partCount } = wiring.zones;
    const at = ({ node }: Attachment) => preorder[node] ?? 0;
    attachments.sort((a, b) => at(a) - at(b));
    this.zones = new Map(
      [...groupBy(attachments, ({ node }) => this.zoneOf(node))].map(([zone, list]) => [
        zone,
        { attachments: list, order: list.map(at) },
      ]),
    );
    const edges = this.edges.map((way) => ({
      a: this.zoneOf(way.a),
      b: this.zoneOf(way.b),
      amps: this.limit(way),
      oneWay: way.oneWay,
    }));
    // The other way round: from all that draws back to where it is fed.
    const reversed = edges.map(({ a, b, amps, oneWay }) => ({ a: b, b: a, amps, oneWay }));
    this.flows = {
      feeding: new ZoneFlows(
        partCount,
        edges,
        this.feeds.map(({ plus: end, limitAmps }) => this.sourceAt(end, limitAmps)),
      ),
      drawing: new ZoneFlows(
        partCount,
        reversed,
        [...draws.filter(({ cranking }) => !cranking), ...supplies.filter(isBattery)].map(({ plus: end }) =>
          this.sourceAt(end, undefined),
        ),
      ),
    };
  }

  zoneOf(node: number): number {
    return this.arrangement.wiring.zones.part[node] ?? -1;
  }

  whole(zone: number, without?: number): Half {
    return { zone, low: 0, high: 0, outside: true, without };
  }

  /** Things on a half, without the device that is left out. */
  on({ zone, low, high, outside, without }: Half): readonly Attachment[] {
    const all = this.zones.get(zone)?.attachments ?? [];
    const here = outside ? [...all.slice(0, low), ...all.slice(high)] : all.slice(low, high);
    return without === undefined ? here : here.filter(({ edge }) => edge !== without);
  }

  /** The sides of a way's a and b: of a device or diode the zones at its ends, without it; on a loop both are the whole zone. */
  sides(way: Way): readonly [Half, Half] {
    const { zones } = this.arrangement.wiring;
    if (way.device || way.oneWay) {
      const own = this.edgeOf.get(way);
      return [this.whole(this.zoneOf(way.a), own), this.whole(this.zoneOf(way.b), own)];
    }
    const zone = this.zoneOf(way.a);
    const span = zones.far[way.index];
    if (span === undefined) return [this.whole(zone), this.whole(zone)];
    const order = this.zones.get(zone)?.order ?? [];
    const low = countBelow(order, span.from);
    const high = countBelow(order, span.to);
    const far = { zone, low, high, outside: false, without: undefined };
    const near = { ...far, outside: true };
    const at = zones.preorder[way.a] ?? 0;
    return at >= span.from && at < span.to ? [far, near] : [near, far];
  }

  /** Smallest sum that cuts a half from the feeds; and from all that draws, which is what flows on from it at most. */
  amps(half: Half, direction: Direction): number {
    if (!this.flows[direction].isPlain(half.zone)) return this.loopCut(half, direction).cut.amps;
    const zone = this.zones.get(half.zone);
    if (zone === undefined) return 0;
    zone[direction] ??= this.sumsOf(zone, half.zone, direction);
    const before = (index: number) => zone[direction]?.[index] ?? noSum;
    const low = before(half.low);
    const high = before(half.high);
    const all = before(zone.attachments.length);
    const inside = { finite: high.finite - low.finite, infinite: high.infinite - low.infinite };
    const sum = half.outside
      ? { finite: all.finite - inside.finite, infinite: all.infinite - inside.infinite }
      : inside;
    return value(half.without === undefined ? sum : plus(sum, this.flows[direction].into(half.without, half.zone), -1));
  }

  /** Devices and limited feeds that make up what feeds a half; of two alike in series the nearer. */
  makings(half: Half): Makings {
    const devices: Way[] = [];
    const limited: Feed[] = [];
    const pending = [half];
    const throughEdge = (edge: number, zone: number) => {
      const way = this.edges[edge];
      if (way === undefined || !(this.flows.feeding.into(edge, zone) > 0 || this.limit(way) === 0)) return;
      const beyond = this.whole(this.zoneOf(way.a) === zone ? this.zoneOf(way.b) : this.zoneOf(way.a), edge);
      const reaches = this.amps(beyond, 'feeding');
      if (reaches > 0 && this.limit(way) <= reaches) devices.push(way);
      else if (reaches > 0) pending.push(beyond);
    };
    for (const one of pending) {
      if (this.flows.feeding.isPlain(one.zone)) {
        for (const { edge, feed } of this.on(one)) {
          if (feed?.limitAmps !== undefined && feed.limitAmps > 0) limited.push(feed);
          else if (edge !== undefined) throughEdge(edge, one.zone);
        }
        continue;
      }
      const { cut, loops, sources } = this.loopCut(one, 'feeding');
      devices.push(...cut.edges.flatMap((index) => this.edges[loops[index] ?? -1] ?? []));
      for (const { attachment, zone } of cut.sources.flatMap((index) => sources[index] ?? [])) {
        if (attachment.feed !== undefined) limited.push(attachment.feed);
        else if (attachment.edge !== undefined) throughEdge(attachment.edge, zone);
      }
    }
    return { devices: trimmed(devices), limited: trimmed(limited) };
  }

  /** Smallest cut of the feeds given from the zones given; every zone is whole. */
  ampsBetween(feeds: ReadonlySet<number>, zones: readonly number[]): number {
    const { feeding } = this.flows;
    if (!feeding.allPlain) return this.cutBetween(feeds, zones).amps;
    const supplies = [...feeds].flatMap((index) => {
      const feed = this.feeds[index];
      return feed === undefined ? [] : [this.sourceAt(feed.plus, feed.limitAmps)];
    });
    return feeding.matched(
      supplies,
      zones.map((zone) => ({ zone, amps: Number.POSITIVE_INFINITY })),
    );
  }

  makingsBetween(feeds: ReadonlySet<number>, zones: readonly number[]): Makings {
    const { edges, sources } = this.cutBetween(feeds, zones);
    return {
      devices: edges.flatMap((index) => this.edges[index] ?? []),
      limited: sources.flatMap((index) => this.feeds[index] ?? []),
    };
  }

  /** Zones that some feeds without a limit of their own reach with no device on the way. */
  reachedUnfused(feeds: Iterable<number>): ReadonlySet<number> {
    const reached = new Set<number>();
    for (const index of feeds) {
      const feed = this.feeds[index];
      if (feed !== undefined && feed.limitAmps === undefined)
        reached.add(this.zoneOf(this.arrangement.wiring.node(feed.plus)));
    }
    if (this.anyDiode)
      for (const zone of reached)
        for (const { edge } of this.zones.get(zone)?.attachments ?? []) {
          const way = this.edges[edge ?? -1];
          if (way?.oneWay === true && this.zoneOf(way.a) === zone) reached.add(this.zoneOf(way.b));
        }
    return reached;
  }

  private sourceAt(terminal: Terminal, limitAmps: number | undefined): ZoneSource {
    return { zone: this.zoneOf(this.arrangement.wiring.node(terminal)), amps: limitAmps ?? Number.POSITIVE_INFINITY };
  }

  private sumsOf({ attachments }: Zone, zone: number, direction: Direction): Sum[] {
    let sum = noSum;
    return [
      sum,
      ...attachments.map((attachment) => {
        sum = plus(sum, this.brought(attachment, zone, direction));
        return sum;
      }),
    ];
  }

  /** What a thing on a zone brings into it. */
  private brought({ edge, feed, draw }: Attachment, zone: number, direction: Direction): number {
    if (edge !== undefined) return this.flows[direction].into(edge, zone);
    if (direction === 'feeding') return feed === undefined ? 0 : (feed.limitAmps ?? Number.POSITIVE_INFINITY);
    const takes = (draw !== undefined && !draw.cranking) || (feed !== undefined && feed.limitAmps === undefined);
    return takes ? Number.POSITIVE_INFINITY : 0;
  }

  /** Where devices form a loop: the cut of a half from what comes into that loop. */
  private loopCut(half: Half, direction: Direction) {
    const { zones, loops } = this.flows[direction].loopsAt(half.zone);
    const node = new Map(zones.map((zone, i) => [zone, i]));
    const isHere = (zone: number, index: number) =>
      zone === half.zone && (index >= half.low && index < half.high) !== half.outside;
    const target = zones.length;
    /** Nodes of both ends of the loop's devices, and all that comes into it. */
    const ends = new Map<number, { a?: number; b?: number }>();
    const sources: LoopSource[] = [];
    for (const zone of zones) {
      (this.zones.get(zone)?.attachments ?? []).forEach((attachment, index) => {
        const at = isHere(zone, index) ? target : (node.get(zone) ?? 0);
        const { edge } = attachment;
        if (edge !== undefined && this.flows[direction].isOnLoop(edge)) {
          const own = ends.get(edge) ?? {};
          if (attachment.node === this.edges[edge]?.a && own.a === undefined) own.a = at;
          else own.b = at;
          ends.set(edge, own);
        } else if (edge === undefined || edge !== half.without)
          sources.push({ node: at, zone, amps: this.brought(attachment, zone, direction), attachment });
      });
    }
    const graph = new CutGraph(
      zones.length + 1,
      loops.map((edge) => {
        const way = this.edges[edge] as Way;
        const { a = target, b = target } = ends.get(edge) ?? {};
        const amps = edge === half.without ? 0 : this.limit(way);
        return direction === 'feeding' ? { a, b, amps, oneWay: way.oneWay } : { a: b, b: a, amps, oneWay: way.oneWay };
      }),
      sources,
    );
    return { cut: graph.cut([target]), loops, sources };
  }

  private cutBetween(feeds: ReadonlySet<number>, zones: readonly number[]) {
    this.feedGraph ??= new CutGraph(
      this.arrangement.wiring.zones.partCount,
      this.edges.map((way) => ({
        a: this.zoneOf(way.a),
        b: this.zoneOf(way.b),
        amps: this.limit(way),
        oneWay: way.oneWay,
      })),
      this.feeds.map(({ plus: end, limitAmps }) => ({
        node: this.sourceAt(end, limitAmps).zone,
        amps: limitAmps ?? Number.POSITIVE_INFINITY,
      })),
    );
    return this.feedGraph.cut(zones, (index) => feeds.has(index));
  }

  /** A device of which nothing is known yet still parts: it counts for nothing, and the answer is marked as open. */
  private limit(way: Way): number {
    return way.device ? (this.ratingOf(way).amps ?? 0) : Number.POSITIVE_INFINITY;
  }
}
