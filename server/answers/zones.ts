/**
 * Zones: what one fault reaches without passing a protective device. They are the nodes, and the devices the edges, of the
 * small graph on which protection is worked out; a conductor is judged by the two halves into which it parts its zone.
 */
import type { Part, Terminal } from '../model/model.ts';
import { type Cut, CutGraph } from '../physics/minimum-cut.ts';
import { countBelow, groupBy } from './grouping.ts';
import { type Installation, isBattery } from './installation.ts';
import type { Draw } from './ports.ts';
import type { Span } from './separation.ts';
import type { Way } from './wiring.ts';

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
  readonly way?: Way;
  readonly feed?: Feed;
  readonly draw?: Draw;
}

/** A whole zone, or the part of it on one side of a conductor. */
export interface Half {
  readonly zone: number;
  readonly attachments: readonly Attachment[];
  /** Node of the zone graph. */
  readonly piece: number;
  readonly graphs: Graphs;
}

/** The zone graph, with one zone in two pieces or with one device taken out. */
interface Graphs {
  /** Smallest cut of a piece from the feeds. */
  feeding(piece: number): Cut;
  /** Smallest cut of a piece from all that draws: what its devices let through on to loads and batteries. */
  drawing(piece: number): Cut;
}

export class Zones {
  readonly feeds: readonly Feed[];
  /** Devices and diodes; cuts name them by their place here. */
  readonly edges: readonly Way[];
  private readonly byZone: ReadonlyMap<number, readonly Attachment[]>;
  private readonly preorders = new Map<number, readonly number[]>();
  private readonly halves = new Map<string, readonly [Half, Half]>();
  private readonly whole: Graphs;
  private feedGraph: CutGraph | undefined;

  constructor(
    private readonly installation: Installation,
    private readonly ratingOf: (way: Way) => DeviceRating,
  ) {
    const { wiring, supplies, strings, draws } = installation;
    this.feeds = [
      ...supplies.map(({ part, plus, minus, limitAmps }) => ({ part, plus, minus, limitAmps })),
      ...strings.map(({ panels, plus, minus, shortCircuitAmps }) => ({
        part: (panels.at(-1) ?? panels[0])?.part as Part,
        plus,
        minus,
        limitAmps: shortCircuitAmps,
      })),
    ];
    this.edges = wiring.ways.filter(({ device, oneWay }) => device || oneWay);
    const attachments: Attachment[] = [
      ...this.edges.flatMap((way) => [
        { node: way.a, way },
        { node: way.b, way },
      ]),
      ...this.feeds.map((feed) => ({ node: wiring.node(feed.plus), feed })),
      ...draws.map((draw) => ({ node: wiring.node(draw.plus), draw })),
    ];
    const { preorder } = wiring.zones;
    attachments.sort((a, b) => (preorder[a.node] ?? 0) - (preorder[b.node] ?? 0));
    this.byZone = groupBy(attachments, ({ node }) => this.zoneOf(node));
    for (const [zone, list] of this.byZone)
      this.preorders.set(
        zone,
        list.map(({ node }) => preorder[node] ?? 0),
      );
    this.whole = this.graphs(undefined, undefined);
  }

  zoneOf(node: number): number {
    return this.installation.wiring.zones.part[node] ?? -1;
  }

  attachmentsOf(zone: number): readonly Attachment[] {
    return this.byZone.get(zone) ?? [];
  }

  zone(node: number, graphs = this.whole): Half {
    const zone = this.zoneOf(node);
    return { zone, attachments: this.attachmentsOf(zone), piece: zone, graphs };
  }

  /** The two sides of a way: of a device or diode the zones at its ends, without it; on a loop both are the whole zone. */
  sides(way: Way): readonly [Half, Half] {
    const { zones } = this.installation.wiring;
    if (way.device || way.oneWay) {
      const graphs = this.graphs(undefined, way);
      return [this.zone(way.a, graphs), this.zone(way.b, graphs)];
    }
    const zone = this.zoneOf(way.a);
    const span = zones.far[way.index];
    if (span === undefined) return [this.zone(way.a), this.zone(way.b)];
    const order = this.preorders.get(zone) ?? [];
    const [low, high] = [countBelow(order, span.from), countBelow(order, span.to)];
    // Conductors that part the same attachments have the same answer.
    const key = `${zone} ${low} ${high}`;
    let pair = this.halves.get(key);
    if (pair === undefined) {
      const all = this.attachmentsOf(zone);
      const graphs = this.graphs({ zone, span }, undefined);
      const far = { zone, attachments: all.slice(low, high), piece: zones.partCount, graphs };
      const near = { zone, attachments: [...all.slice(0, low), ...all.slice(high)], piece: zone, graphs };
      pair = [near, far];
      this.halves.set(key, pair);
    }
    const at = zones.preorder[way.a] ?? 0;
    return at >= span.from && at < span.to ? [pair[1], pair[0]] : pair;
  }

  /** Smallest cut of zones from some of the feeds, with every zone whole. */
  cutBetween(targets: readonly number[], feeds: ReadonlySet<number>): Cut {
    this.feedGraph ??= this.graph((node) => this.zoneOf(node), undefined);
    return this.feedGraph.cut(targets, undefined, (index) => feeds.has(index));
  }

  /** Zones that some feeds without a limit of their own reach with no device on the way. */
  reachedUnfused(feeds: ReadonlySet<number>): ReadonlySet<number> {
    const { wiring } = this.installation;
    const reached = new Set<number>();
    for (const index of feeds) {
      const feed = this.feeds[index];
      if (feed !== undefined && feed.limitAmps === undefined) reached.add(this.zoneOf(wiring.node(feed.plus)));
    }
    for (const zone of reached)
      for (const { way } of this.attachmentsOf(zone))
        if (way?.oneWay === true && this.zoneOf(way.a) === zone) reached.add(this.zoneOf(way.b));
    return reached;
  }

  private graphs(split: { zone: number; span: Span } | undefined, without: Way | undefined): Graphs {
    const { zones } = this.installation.wiring;
    const piece = (node: number) => {
      const zone = this.zoneOf(node);
      if (split === undefined || zone !== split.zone) return zone;
      const at = zones.preorder[node] ?? 0;
      return at >= split.span.from && at < split.span.to ? zones.partCount : zone;
    };
    let [feeding, drawing]: (CutGraph | undefined)[] = [];
    return {
      feeding: (target) => {
        feeding ??= this.graph(piece, without);
        return feeding.cut([target]);
      },
      drawing: (target) => {
        drawing ??= this.drawGraph(piece, without);
        return drawing.cut([target]);
      },
    };
  }

  private graph(piece: (node: number) => number, without: Way | undefined): CutGraph {
    const { wiring } = this.installation;
    return new CutGraph(
      wiring.zones.partCount + 1,
      this.edges.map((way) => ({
        a: piece(way.a),
        b: piece(way.b),
        amps: way === without ? 0 : this.limit(way),
        oneWay: way.oneWay,
      })),
      this.feeds.map(({ plus, limitAmps }) => ({
        node: piece(wiring.node(plus)),
        amps: limitAmps ?? Number.POSITIVE_INFINITY,
      })),
    );
  }

  /** The other way round: from all that draws back to a piece. */
  private drawGraph(piece: (node: number) => number, without: Way | undefined): CutGraph {
    const { wiring, draws, supplies } = this.installation;
    const ends = [...draws.filter(({ cranking }) => !cranking), ...supplies.filter(isBattery)];
    return new CutGraph(
      wiring.zones.partCount + 1,
      this.edges.map((way) => ({
        a: piece(way.b),
        b: piece(way.a),
        amps: way === without ? 0 : this.limit(way),
        oneWay: way.oneWay,
      })),
      ends.map(({ plus }) => ({ node: piece(wiring.node(plus)), amps: Number.POSITIVE_INFINITY })),
    );
  }

  /** A device of which nothing is known yet still parts: it counts for nothing, and the answer is marked as open. */
  private limit(way: Way): number {
    return way.device ? (this.ratingOf(way).amps ?? 0) : Number.POSITIVE_INFINITY;
  }
}
