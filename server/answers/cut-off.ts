/**
 * What nothing can flow through as the contacts stand: no loop leads through it and a source that gives something. Loads behind an
 * open isolator hang on each other still, and a broken minus leaves them on one pole of a battery; both are dead.
 */
import type { Terminal } from '../model/model.ts';

/** Something between two nodes. */
interface Between {
  readonly plus: Terminal;
  readonly minus: Terminal;
}

/** Those of some draws that no loop with a source leads through; `nodeOf` tells what conductors and closed contacts join. */
export function cutOffAmong<T extends Between>(
  draws: readonly T[],
  giving: Iterable<Between>,
  nodeOf: (terminal: Terminal) => number,
): ReadonlySet<T> {
  const loops = new Loops();
  const edges = draws.map((draw) => ({ draw, edge: loops.add(nodeOf(draw.plus), nodeOf(draw.minus), false) }));
  for (const { plus, minus } of giving) loops.add(nodeOf(plus), nodeOf(minus), true);
  const flowing = loops.withSource();
  return new Set(edges.filter(({ edge }) => !flowing.has(edge)).map(({ draw }) => draw));
}

interface Edge {
  readonly from: number;
  readonly to: number;
  readonly isSource: boolean;
}

/** A node on the way of the search, and how far its edges were followed. */
interface Step {
  readonly node: number;
  readonly by: number;
  next: number;
}

/**
 * Edges that lie on a loop together: the blocks of a graph, found by a depth-first search that keeps for every node how far back
 * its branch leads (Hopcroft and Tarjan, 1973).
 */
class Loops {
  private readonly edges: Edge[] = [];
  private readonly at = new Map<number, number[]>();
  private readonly found = new Map<number, number>();
  private readonly back = new Map<number, number>();
  private readonly flowing = new Set<number>();

  add(from: number, to: number, isSource: boolean): number {
    const index = this.edges.length;
    this.edges.push({ from, to, isSource });
    for (const node of from === to ? [from] : [from, to]) {
      const here = this.at.get(node);
      if (here === undefined) this.at.set(node, [index]);
      else here.push(index);
    }
    return index;
  }

  /** Edges on a loop that a source lies on, too, and those that begin and end at one node. */
  withSource(): ReadonlySet<number> {
    for (const [index, { from, to }] of this.edges.entries()) if (from === to) this.flowing.add(index);
    for (const node of this.at.keys()) if (!this.found.has(node)) this.search(node);
    return this.flowing;
  }

  private search(root: number): void {
    const open: number[] = [];
    const way: Step[] = [{ node: root, by: -1, next: 0 }];
    this.reach(root);
    for (let step = way.at(-1); step !== undefined; step = way.at(-1)) {
      const index = this.at.get(step.node)?.[step.next];
      if (index === undefined) {
        way.pop();
        const before = way.at(-1);
        if (before !== undefined) this.leave(before.node, step, open);
        continue;
      }
      step.next += 1;
      const { from, to } = this.edges[index] as Edge;
      if (index === step.by || from === to) continue;
      const other = from === step.node ? to : from;
      const order = this.found.get(other);
      if (order === undefined) {
        open.push(index);
        this.reach(other);
        way.push({ node: other, by: index, next: 0 });
      } else if (order < (this.found.get(step.node) ?? 0)) {
        open.push(index);
        this.lead(step.node, order);
      }
    }
  }

  private reach(node: number): void {
    this.back.set(node, this.found.size);
    this.found.set(node, this.found.size);
  }

  private lead(node: number, back: number): void {
    this.back.set(node, Math.min(this.back.get(node) ?? back, back));
  }

  /** A branch is done: where it leads no further back than to `before`, what was passed since is a block of its own. */
  private leave(before: number, { node, by }: Step, open: number[]): void {
    const back = this.back.get(node) ?? 0;
    this.lead(before, back);
    if (back < (this.found.get(before) ?? 0)) return;
    const block = open.splice(open.lastIndexOf(by));
    if (block.length > 1 && block.some((index) => this.edges[index]?.isSource === true))
      for (const index of block) this.flowing.add(index);
  }
}
