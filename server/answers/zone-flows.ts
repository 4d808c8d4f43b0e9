/**
 * What can flow into the zones of a zone graph: on trees by two sweeps over all of it, and where devices form loops by a
 * minimum cut of that loop alone. So everything is known in one go instead of cut by cut.
 */
import { CutGraph } from '../physics/minimum-cut.ts';
import { UnionFind } from '../physics/union-find.ts';
import { separate } from './separation.ts';

export interface ZoneEdge {
  readonly a: number;
  readonly b: number;
  readonly amps: number;
  readonly oneWay: boolean;
}

export interface ZoneSource {
  readonly zone: number;
  readonly amps: number;
}

/** A sum that may hold infinities, and give them back when one is taken out. */
export interface Sum {
  readonly finite: number;
  readonly infinite: number;
}

export const noSum: Sum = { finite: 0, infinite: 0 };

export function plus(sum: Sum, amps: number, times = 1): Sum {
  return Number.isFinite(amps)
    ? { finite: sum.finite + times * amps, infinite: sum.infinite }
    : { finite: sum.finite, infinite: sum.infinite + times };
}

export function value({ finite, infinite }: Sum): number {
  // What is left of sums taken apart again is rounding.
  return infinite > 0 ? Number.POSITIVE_INFINITY : finite < 1e-9 ? 0 : finite;
}

interface Cluster {
  readonly zones: number[];
  /** Edges that form its loops. */
  readonly loops: number[];
  /** Edges to other clusters. */
  readonly bridges: number[];
}

export class ZoneFlows {
  /** Current that an edge brings into its `b`, and into its `a`; of an edge on a loop nought. */
  private readonly intoB: Float64Array;
  private readonly intoA: Float64Array;
  private readonly onLoop: readonly boolean[];
  private readonly clusterOf: Int32Array;
  private readonly clusters: Cluster[] = [];
  private readonly sourcesAt: Sum[];
  /** Edge towards the root of each cluster; -1 at a root. Clusters in an order in which parents come first. */
  private readonly upEdge: Int32Array;
  private readonly order: number[] = [];
  private readonly depth: Int32Array;

  constructor(
    zoneCount: number,
    readonly edges: readonly ZoneEdge[],
    sources: readonly ZoneSource[],
  ) {
    this.sourcesAt = Array.from({ length: zoneCount }, () => noSum);
    for (const { zone, amps } of sources) this.sourcesAt[zone] = plus(this.sourcesAt[zone] ?? noSum, amps);
    this.intoA = new Float64Array(edges.length);
    this.intoB = new Float64Array(edges.length);
    const { far } = separate(zoneCount, edges, { bundled: false });
    this.onLoop = far.map((span) => span === undefined);
    const sets = new UnionFind(zoneCount);
    edges.forEach(({ a, b }, i) => {
      if (far[i] === undefined) sets.join(a, b);
    });
    this.clusterOf = Int32Array.from({ length: zoneCount }, () => -1);
    for (let zone = 0; zone < zoneCount; zone++) {
      const root = sets.find(zone);
      if (root === zone) this.clusterOf[zone] = this.clusters.push({ zones: [], loops: [], bridges: [] }) - 1;
      this.clusterOf[zone] = this.clusterOf[root] ?? -1;
      this.cluster(zone).zones.push(zone);
    }
    edges.forEach(({ a, b }, i) => {
      if (far[i] === undefined) this.cluster(a).loops.push(i);
      else for (const zone of [a, b]) this.cluster(zone).bridges.push(i);
    });
    this.upEdge = new Int32Array(this.clusters.length).fill(-1);
    this.depth = new Int32Array(this.clusters.length);
    this.arrange();
    this.sweep();
  }

  /** Whether a zone hangs on no loop of devices: then what flows into it is the sum of what each thing on it brings. */
  isPlain(zone: number): boolean {
    return this.cluster(zone).loops.length === 0;
  }

  get allPlain(): boolean {
    return this.clusters.every(({ loops }) => loops.length === 0);
  }

  /** What an edge that is on no loop brings into a zone at one of its ends. */
  into(edge: number, zone: number): number {
    return (this.edges[edge]?.a === zone ? this.intoA[edge] : this.intoB[edge]) ?? 0;
  }

  isOnLoop(edge: number): boolean {
    return this.onLoop[edge] ?? false;
  }

  /** Zones that are joined to one by loops, itself included, and the edges of those loops. */
  loopsAt(zone: number): Pick<Cluster, 'zones' | 'loops'> {
    return this.cluster(zone);
  }

  /**
   * Greatest flow from some zones to others, on a graph without loops: whatever meets nearest its leaves is matched there,
   * which never takes from what could be matched further on.
   */
  matched(supplies: readonly ZoneSource[], demands: readonly ZoneSource[]): number {
    const supply = new Map<number, number>();
    const demand = new Map<number, number>();
    const levels: number[][] = [];
    const put = (at: Map<number, number>, zone: number, amps: number) => {
      if (!supply.has(zone) && !demand.has(zone)) {
        const depth = this.depth[this.clusterOf[zone] ?? -1] ?? 0;
        while (levels.length <= depth) levels.push([]);
        levels[depth]?.push(zone);
      }
      at.set(zone, (at.get(zone) ?? 0) + amps);
    };
    for (const { zone, amps } of supplies) put(supply, zone, amps);
    for (const { zone, amps } of demands) put(demand, zone, amps);
    let total = 0;
    for (let level = levels.pop(); level !== undefined; level = levels.pop()) {
      for (const zone of level) {
        const has = supply.get(zone) ?? 0;
        const wants = demand.get(zone) ?? 0;
        const met = Math.min(has, wants);
        total += met;
        if (!Number.isFinite(total)) return total;
        const up = this.upEdge[this.clusterOf[zone] ?? -1] ?? -1;
        const edge = this.edges[up];
        if (edge === undefined) continue;
        const parent = edge.a === zone ? edge.b : edge.a;
        if (has > met) put(supply, parent, Math.min(has - met, this.limit(up, zone)));
        else if (wants > met) put(demand, parent, Math.min(wants - met, this.limit(up, parent)));
      }
    }
    return total;
  }

  private cluster(zone: number): Cluster {
    return this.clusters[this.clusterOf[zone] ?? -1] as Cluster;
  }

  /** What an edge lets through out of a zone at one of its ends. */
  private limit(edge: number, from: number): number {
    const { a, amps, oneWay } = this.edges[edge] as ZoneEdge;
    return oneWay && a !== from ? 0 : amps;
  }

  private arrange(): void {
    const seen = new Set<number>();
    for (let root = 0; root < this.clusters.length; root++) {
      if (seen.has(root)) continue;
      seen.add(root);
      const queue = [root];
      for (const cluster of queue) {
        this.order.push(cluster);
        for (const index of this.clusters[cluster]?.bridges ?? []) {
          const { a, b } = this.edges[index] as ZoneEdge;
          for (const next of [this.clusterOf[a] ?? -1, this.clusterOf[b] ?? -1]) {
            if (seen.has(next)) continue;
            seen.add(next);
            this.upEdge[next] = index;
            this.depth[next] = (this.depth[cluster] ?? 0) + 1;
            queue.push(next);
          }
        }
      }
    }
  }

  /** From the leaves up, then from the roots down: what every bridge brings into either of its ends. */
  private sweep(): void {
    for (const cluster of [...this.order].reverse()) {
      const up = this.upEdge[cluster] ?? -1;
      if (up !== -1) this.carry(up, cluster);
    }
    for (const cluster of this.order) {
      const total = this.clusters[cluster]?.loops.length === 0 ? this.totalOf(cluster) : undefined;
      for (const edge of this.clusters[cluster]?.bridges ?? [])
        if (edge !== this.upEdge[cluster]) this.carry(edge, cluster, total);
    }
  }

  /** Sets what an edge brings out of a cluster; `total` is all that flows into a plain one. */
  private carry(edge: number, from: number, total?: Sum): void {
    const { a, b } = this.edges[edge] as ZoneEdge;
    const outOfA = this.clusterOf[a] === from;
    const zone = outOfA ? a : b;
    const most = this.limit(edge, zone);
    if (most === 0) return;
    const reaches =
      total !== undefined
        ? value(plus(total, this.into(edge, zone), -1))
        : this.clusters[from]?.loops.length === 0
          ? value(plus(this.totalOf(from), this.into(edge, zone), -1))
          : this.throughLoops(from, zone, edge);
    const carried = Math.min(most, reaches);
    if (outOfA) this.intoB[edge] = carried;
    else this.intoA[edge] = carried;
  }

  private totalOf(cluster: number): Sum {
    const { zones, bridges } = this.clusters[cluster] as Cluster;
    const [zone = 0] = zones;
    return bridges.reduce((sum, edge) => plus(sum, this.into(edge, zone)), this.sourcesAt[zone] ?? noSum);
  }

  private throughLoops(cluster: number, target: number, without: number): number {
    const { zones, loops, bridges } = this.clusters[cluster] as Cluster;
    const node = new Map(zones.map((zone, i) => [zone, i]));
    const at = (zone: number) => node.get(zone) ?? 0;
    const graph = new CutGraph(
      zones.length,
      loops.map((index) => {
        const { a, b, amps, oneWay } = this.edges[index] as ZoneEdge;
        return { a: at(a), b: at(b), amps, oneWay };
      }),
      [
        ...zones.map((zone) => ({ node: at(zone), amps: value(this.sourcesAt[zone] ?? noSum) })),
        ...bridges
          .filter((edge) => edge !== without)
          .map((edge) => {
            const { a, b } = this.edges[edge] as ZoneEdge;
            const zone = this.clusterOf[a] === cluster ? a : b;
            return { node: at(zone), amps: this.into(edge, zone) };
          }),
      ],
    );
    return graph.cut([at(target)]).amps;
  }
}
