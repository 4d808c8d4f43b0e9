/**
 * What protects a core or contact, by the conventions: the smallest sum of device ratings (and of current-limited sources'
 * own greatest currents) that cuts it from every source that can drive it. A return conductor has the devices of the feeds it
 * returns; a shared return their sum, which the source's main device caps because it is the cut itself.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge, Network } from '../model/network.ts';
import { type Cut, CutGraph } from '../physics/minimum-cut.ts';
import type { Protection } from './answers.ts';
import type { Draw, Source } from './supplies.ts';
import { liesBeyond, type Topology } from './topology.ts';

export interface DeviceRating {
  readonly amps: number | undefined;
  /** The rating was left blank and the tool's choice stands in for it. */
  readonly blank: boolean;
}

export class Protections {
  private readonly graph: CutGraph;
  /** Connected parts that hold a source's plus: feeds. Those with only minuses are returns. */
  private readonly feeds = new Set<number>();
  private readonly unfusedFrom: ReadonlyMap<number, readonly Part[]>;

  constructor(
    private readonly network: Network,
    private readonly topology: Topology,
    private readonly sources: readonly Source[],
    private readonly draws: readonly Draw[],
    private readonly ratingOf: (edge: ContactEdge) => DeviceRating,
  ) {
    const edges = network.edges.map((edge) => ({
      a: topology.of(edge.from),
      b: topology.of(edge.to),
      amps: edge.is === 'contact' && edge.contact.protects ? (ratingOf(edge).amps ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY,
    }));
    this.graph = new CutGraph(
      topology.terminals.length,
      edges,
      sources.map(({ plus, limitAmps }) => ({ node: topology.of(plus), amps: limitAmps ?? Number.POSITIVE_INFINITY })),
    );
    for (const { plus } of sources) this.feeds.add(topology.part[topology.of(plus)] ?? -1);
    this.unfusedFrom = this.unfused();
  }

  isReturn(edge: Edge): boolean {
    const part = this.topology.part[this.topology.of(edge.from)] ?? -1;
    return !this.feeds.has(part) && this.sources.some(({ minus }) => this.topology.part[this.topology.of(minus)] === part);
  }

  ofEdge(edge: Edge): Protection {
    const { topology } = this;
    if (!this.isReturn(edge)) {
      const ends = [topology.of(edge.from), topology.of(edge.to)];
      return this.told(this.graph.cut(ends, edge.index), ends);
    }
    // Loads on one side of a return conductor are fed by the sources on its other side.
    const sides = this.returnSides(edge);
    let best: Protection | undefined;
    for (const { loads, sinks, sources } of sides) {
      const targets = [...loads, ...sinks].map(({ plus }) => topology.of(plus));
      if (targets.length === 0 || sources.size === 0) continue;
      const cut = this.graph.cut(targets, undefined, (index) => sources.has(index));
      const protection = this.told(cut, targets);
      if (best === undefined || protection.amps > best.amps) best = protection;
    }
    return best ?? { amps: 0, devices: [], limitedSources: [], unprotectedFrom: [], blank: false };
  }

  /** Loads that an edge serves. */
  loadsThrough(edge: Edge): readonly Draw[] {
    if (this.isReturn(edge)) return [...new Set(this.returnSides(edge).flatMap(({ loads, sources }) => (sources.size > 0 ? loads : [])))];
    const part = this.topology.part[this.topology.of(edge.from)];
    const here = this.draws.filter(({ plus }) => this.topology.part[this.topology.of(plus)] === part);
    const fed = (beyond: boolean) => this.sources.some(({ plus }) => liesBeyond(this.topology, edge, plus) === beyond);
    return here.filter(({ plus }) => {
      const side = liesBeyond(this.topology, edge, plus);
      return side === undefined || fed(!side);
    });
  }

  /**
   * For contacts only: the sum of devices downstream also caps what the circuit can carry. Infinity when some load
   * downstream has no device, or when the contact is on a loop.
   */
  downstreamAmps(edge: Edge): number {
    const { topology } = this;
    const part = topology.part[topology.of(edge.from)];
    let least = Number.POSITIVE_INFINITY;
    for (const beyond of [true, false]) {
      const sourced = this.sources.some(({ plus, minus }) => [plus, minus].some((t) => topology.part[topology.of(t)] === part && liesBeyond(topology, edge, t) === beyond));
      if (sourced || topology.beyond[edge.index] === undefined) continue;
      const loads = this.draws.filter(({ plus }) => topology.part[topology.of(plus)] === part && liesBeyond(topology, edge, plus) === beyond);
      if (loads.length === 0) continue;
      const span = topology.beyond[edge.index];
      const near = span?.child === topology.of(edge.to) ? edge.to : edge.from;
      const start = beyond ? near : near === edge.to ? edge.from : edge.to;
      const graph = new CutGraph(
        topology.terminals.length,
        this.network.edges.map((e) => ({
          a: topology.of(e.from),
          b: topology.of(e.to),
          amps: e.is === 'contact' && e.contact.protects ? (this.ratingOf(e).amps ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY,
        })),
        [{ node: topology.of(start), amps: Number.POSITIVE_INFINITY }],
      );
      // Each load is a target of its own: the smallest cut to all of them together is the sum of their devices.
      least = Math.min(least, graph.cut(loads.map(({ plus }) => topology.of(plus)), edge.index).amps);
    }
    return least;
  }

  /** Batteries that reach a terminal with no device between. */
  unprotectedAt(terminal: Terminal): readonly Part[] {
    return this.unfusedFrom.get(this.topology.of(terminal)) ?? [];
  }

  /** Batteries take current as well: one on the other side is charged through this conductor. */
  private returnSides(edge: Edge): { loads: Draw[]; sinks: Source[]; sources: Set<number> }[] {
    const { topology } = this;
    const part = topology.part[topology.of(edge.from)];
    const side = (terminal: Terminal) => (topology.part[topology.of(terminal)] === part ? (liesBeyond(topology, edge, terminal) ?? 'loop') : undefined);
    if (topology.beyond[edge.index] === undefined) {
      // On a loop either way may carry everything.
      const loads = this.draws.filter(({ minus }) => side(minus) !== undefined);
      return [{ loads, sinks: [], sources: new Set(this.sources.flatMap(({ minus }, i) => (side(minus) === undefined ? [] : [i]))) }];
    }
    return [true, false].map((beyond) => ({
      loads: this.draws.filter(({ minus }) => side(minus) === beyond),
      sinks: this.sources.filter(({ minus, limitAmps }) => limitAmps === undefined && side(minus) === beyond),
      sources: new Set(this.sources.flatMap(({ minus }, i) => (side(minus) === !beyond ? [i] : []))),
    }));
  }

  private told(cut: Cut, targets: readonly number[]): Protection {
    const devices = cut.edges
      .map((index) => this.network.edges[index])
      .filter((edge): edge is ContactEdge => edge?.is === 'contact' && edge.contact.protects)
      .map((edge) => ({ part: edge.part, pole: edge.contact.pole, amps: this.ratingOf(edge).amps ?? 0, blank: this.ratingOf(edge).blank }));
    const limitedSources = cut.sources.map((index) => this.sources[index] as Source).map(({ part, limitAmps }) => ({ part, amps: limitAmps ?? 0 }));
    const unprotectedFrom = Number.isFinite(cut.amps) ? [] : [...new Set(targets.flatMap((node) => this.unfusedFrom.get(node) ?? []))];
    return {
      amps: cut.amps,
      devices: devices.map(({ part, pole, amps }) => ({ part, pole, amps })),
      limitedSources,
      unprotectedFrom,
      blank: devices.some(({ blank }) => blank),
    };
  }

  private unfused(): Map<number, Part[]> {
    const reached = new Map<number, Part[]>();
    for (const { part, plus, limitAmps } of this.sources) {
      if (limitAmps !== undefined) continue;
      const queue = [plus];
      const seen = new Set([plus.id]);
      for (const terminal of queue) {
        const node = this.topology.of(terminal);
        reached.set(node, [...(reached.get(node) ?? []), part]);
        for (const edge of this.network.at.get(terminal.id) ?? []) {
          if (edge.is === 'contact' && edge.contact.protects) continue;
          const next = edge.from === terminal ? edge.to : edge.from;
          if (!seen.has(next.id)) {
            seen.add(next.id);
            queue.push(next);
          }
        }
      }
    }
    return reached;
  }
}
