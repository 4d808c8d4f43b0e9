/** Smallest sum of ratings that parts a set of sources from a set of targets: maximum flow by shortest augmenting paths. */

export interface CutEdge {
  readonly a: number;
  readonly b: number;
  /** Rating in ampere; Infinity for a way that nothing limits. */
  readonly amps: number;
  /** Passes from a to b only (a diode). */
  readonly oneWay?: boolean;
}

export interface CutSource {
  readonly node: number;
  /** A current-limited source's own greatest current; Infinity for a battery. */
  readonly amps: number;
}

export interface Cut {
  /** Infinity when some way has nothing that limits it. */
  readonly amps: number;
  /** Indices of the edges and sources that make the cut; empty when it is infinite. */
  readonly edges: readonly number[];
  readonly sources: readonly number[];
}

const unlimited = 1e15;

/** A graph made once and asked many times. Node numbers go from 0 to `nodes` − 1. */
export class CutGraph {
  private readonly heads: number[][];
  private readonly to: number[] = [];
  private readonly base: number[] = [];
  private readonly residual: Float64Array;
  private readonly via: Int32Array;
  private readonly source: number;
  private readonly sourceArcs: number[] = [];

  constructor(
    readonly nodes: number,
    private readonly edges: readonly CutEdge[],
    private readonly sources: readonly CutSource[],
  ) {
    this.source = nodes;
    this.heads = Array.from({ length: nodes + 1 }, () => []);
    for (const { a, b, amps, oneWay } of edges) this.arc(a, b, amps, oneWay === true ? 0 : amps);
    for (const { node, amps } of sources) {
      this.sourceArcs.push(this.to.length);
      this.arc(this.source, node, amps, 0);
    }
    this.residual = new Float64Array(this.to.length);
    this.via = new Int32Array(nodes + 1);
  }

  private arc(a: number, b: number, forward: number, backward: number): void {
    this.heads[a]?.push(this.to.length);
    this.to.push(b);
    this.base.push(Math.min(forward, unlimited));
    this.heads[b]?.push(this.to.length);
    this.to.push(a);
    this.base.push(Math.min(backward, unlimited));
  }

  /** Smallest cut between the sources and the targets, leaving out the edge `without` (by index) if given. */
  cut(targets: readonly number[], without?: number, onlySources?: (index: number) => boolean): Cut {
    const arcs = this.to.length;
    const { residual } = this;
    for (let i = 0; i < arcs; i++) residual[i] = this.base[i] ?? 0;
    if (without !== undefined) residual[2 * without] = residual[2 * without + 1] = 0;
    if (onlySources !== undefined)
      this.sources.forEach((_, i) => {
        if (!onlySources(i)) residual[this.sourceArcs[i] ?? 0] = 0;
      });
    const wanted = new Set(targets);
    let amps = 0;
    for (;;) {
      const end = this.search(wanted);
      if (end === -1) break;
      let room = unlimited;
      for (let node = end; node !== this.source; node = this.to[(this.via[node] ?? 0) ^ 1] ?? 0)
        room = Math.min(room, residual[this.via[node] ?? 0] ?? 0);
      if (room >= unlimited / 2) return { amps: Number.POSITIVE_INFINITY, edges: [], sources: [] };
      for (let node = end; node !== this.source; node = this.to[(this.via[node] ?? 0) ^ 1] ?? 0) {
        const arc = this.via[node] ?? 0;
        residual[arc] = (residual[arc] ?? 0) - room;
        residual[arc ^ 1] = (residual[arc ^ 1] ?? 0) + room;
      }
      amps += room;
    }
    // What the last, failed search reached is the sources' side of the cut.
    const reached = (node: number) => node === this.source || (this.via[node] ?? -1) !== -1;
    const edges: number[] = [];
    this.edges.forEach(({ a, b, amps: rating, oneWay }, i) => {
      // What passes only back to the sources' side cuts nothing.
      const crosses = oneWay === true ? reached(a) && !reached(b) : reached(a) !== reached(b);
      if (i !== without && rating < unlimited && crosses) edges.push(i);
    });
    const sources: number[] = [];
    this.sources.forEach(({ node, amps: own }, i) => {
      if ((onlySources === undefined || onlySources(i)) && own > 0 && own < unlimited && !reached(node))
        sources.push(i);
    });
    return { amps, edges, sources };
  }

  /** Breadth-first from the source; the target reached, or -1. */
  private search(wanted: ReadonlySet<number>): number {
    this.via.fill(-1);
    const queue = [this.source];
    for (let head = 0; head < queue.length; head++) {
      const node = queue[head] ?? 0;
      for (const arc of this.heads[node] ?? []) {
        const next = this.to[arc] ?? 0;
        if (next === this.source || this.via[next] !== -1 || (this.residual[arc] ?? 0) <= 1e-9) continue;
        this.via[next] = arc;
        if (wanted.has(next)) return next;
        queue.push(next);
      }
    }
    return -1;
  }
}
