/** Smallest sum of ratings that parts a set of sources from a set of targets: maximum flow by shortest augmenting paths. */
import { UnionFind } from './union-find.ts';

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

/** Nodes that edges join, with those edges and the sources at them, by their places. */
interface Piece {
  readonly nodes: number[];
  readonly edges: number[];
  readonly sources: number[];
}

/**
 * A graph made once and asked many times. Node numbers go from 0 to `nodes` − 1. Only the pieces that targets lie in are
 * looked at, so that what a cut costs does not grow with the rest of the graph.
 */
export class CutGraph {
  private readonly heads: number[][];
  private readonly to: number[] = [];
  private readonly base: number[] = [];
  private readonly residual: Float64Array;
  private readonly via: Int32Array;
  private readonly source: number;
  private readonly pieceOf: (node: number) => Piece | undefined;

  constructor(
    readonly nodes: number,
    private readonly edges: readonly CutEdge[],
    private readonly sources: readonly CutSource[],
  ) {
    this.source = nodes;
    this.heads = Array.from({ length: nodes }, () => []);
    // The arcs of an edge are at twice its place, those of a source behind all of them.
    for (const { a, b, amps, oneWay } of edges) this.arc(a, b, amps, oneWay === true ? 0 : amps);
    for (const { node, amps } of sources) this.arc(this.source, node, amps, 0);
    this.residual = new Float64Array(this.to.length);
    this.via = new Int32Array(nodes);
    this.pieceOf = this.pieces();
  }

  private arc(a: number, b: number, forward: number, backward: number): void {
    this.heads[a]?.push(this.to.length);
    this.to.push(b);
    this.base.push(Math.min(forward, unlimited));
    this.heads[b]?.push(this.to.length);
    this.to.push(a);
    this.base.push(Math.min(backward, unlimited));
  }

  private sourceArc(source: number): number {
    return 2 * (this.edges.length + source);
  }

  private pieces(): (node: number) => Piece | undefined {
    const joined = new UnionFind(this.nodes);
    for (const { a, b } of this.edges) joined.join(a, b);
    const pieces: Piece[] = [];
    for (let node = 0; node < this.nodes; node++) {
      const root = joined.find(node);
      // The lowest of those that are joined is their root.
      if (root === node) pieces[node] = { nodes: [], edges: [], sources: [] };
      pieces[root]?.nodes.push(node);
    }
    this.edges.forEach(({ a }, i) => {
      pieces[joined.find(a)]?.edges.push(i);
    });
    this.sources.forEach(({ node }, i) => {
      pieces[joined.find(node)]?.sources.push(i);
    });
    return (node) => pieces[joined.find(node)];
  }

  /** Smallest cut between the sources and the targets, of all sources or those that `counts`. */
  cut(targets: readonly number[], counts: (source: number) => boolean = () => true): Cut {
    const { residual } = this;
    const pieces = [...new Set(targets.flatMap((target) => this.pieceOf(target) ?? []))];
    const feeding = pieces.flatMap(({ sources }) => sources.filter(counts));
    const reset = (arc: number) => {
      residual[arc] = this.base[arc] as number;
      residual[arc + 1] = this.base[arc + 1] as number;
    };
    for (const { edges } of pieces) for (const edge of edges) reset(2 * edge);
    for (const source of feeding) reset(this.sourceArc(source));
    const wanted = new Set(targets);
    let amps = 0;
    for (;;) {
      const end = this.search(wanted, pieces, feeding);
      if (end === -1) break;
      let room = unlimited;
      for (let node = end; node !== this.source; node = this.before(node))
        room = Math.min(room, residual[this.via[node] as number] as number);
      if (room >= unlimited / 2) return { amps: Number.POSITIVE_INFINITY, edges: [], sources: [] };
      for (let node = end; node !== this.source; node = this.before(node)) {
        const arc = this.via[node] as number;
        residual[arc] = (residual[arc] as number) - room;
        residual[arc ^ 1] = (residual[arc ^ 1] as number) + room;
      }
      amps += room;
    }
    // What the last, failed search reached is the sources' side of the cut.
    const reached = (node: number) => this.via[node] !== -1;
    const crosses = (edge: number) => {
      const { a, b, amps: rating, oneWay } = this.edges[edge] as CutEdge;
      // What passes only back to the sources' side cuts nothing.
      return rating < unlimited && (oneWay === true ? reached(a) && !reached(b) : reached(a) !== reached(b));
    };
    const limits = (source: number) => {
      const { node, amps: own } = this.sources[source] as CutSource;
      return own > 0 && own < unlimited && !reached(node);
    };
    return {
      amps,
      edges: ascending(pieces.flatMap(({ edges }) => edges.filter(crosses))),
      sources: ascending(feeding.filter(limits)),
    };
  }

  /** The node from which one was reached. */
  private before(node: number): number {
    return this.to[(this.via[node] as number) ^ 1] as number;
  }

  /** Breadth-first from the sources; the target reached, or -1. */
  private search(wanted: ReadonlySet<number>, pieces: readonly Piece[], feeding: readonly number[]): number {
    for (const { nodes } of pieces) for (let i = 0; i < nodes.length; i++) this.via[nodes[i] as number] = -1;
    const queue: number[] = [];
    const reach = (arc: number): boolean => {
      const next = this.to[arc] as number;
      if (next === this.source || this.via[next] !== -1 || (this.residual[arc] as number) <= 1e-9) return false;
      this.via[next] = arc;
      queue.push(next);
      return wanted.has(next);
    };
    for (const source of feeding) if (reach(this.sourceArc(source))) return queue.at(-1) as number;
    for (let at = 0; at < queue.length; at++) {
      const arcs = this.heads[queue[at] as number] as number[];
      for (let i = 0; i < arcs.length; i++) if (reach(arcs[i] as number)) return queue.at(-1) as number;
    }
    return -1;
  }
}

function ascending(places: readonly number[]): number[] {
  return [...places].sort((one, other) => one - other);
}
