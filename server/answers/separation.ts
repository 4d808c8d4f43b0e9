/**
 * Connected parts of a graph, and what each of its links parts when it is cut. One depth-first search (Tarjan's bridges
 * and blocks, iterative) lets every later question about a side of a link be answered by comparing preorder numbers.
 */

export interface GraphLink {
  readonly a: number;
  readonly b: number;
}

/** Nodes whose preorder lies in [from, to). */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Separation {
  /** Connected part of every node. */
  readonly part: Int32Array;
  readonly partCount: number;
  readonly preorder: Int32Array;
  /**
   * By link: the nodes on its far side, when cutting it parts the graph; undefined on a loop. Links between the same two
   * nodes are cut together: each of them may have to carry what all do.
   */
  readonly far: readonly (Span | undefined)[];
  /** By link: its loop. Loops that share one node only are different ones; -1 for links that are on none. */
  readonly loop: Int32Array;
}

export interface SeparateOptions {
  /** Which links belong to the graph; the others get no span. */
  readonly counts?: (index: number) => boolean;
  /** Links between the same two nodes count as one; else as a loop. */
  readonly bundled?: boolean;
}

export function separate(
  nodes: number,
  links: readonly GraphLink[],
  { counts = () => true, bundled = true }: SeparateOptions = {},
): Separation {
  const { bundles, at } = bundle(nodes, links, counts, bundled);
  const part = new Int32Array(nodes).fill(-1);
  const preorder = new Int32Array(nodes);
  const low = new Int32Array(nodes);
  const far: (Span | undefined)[] = links.map(() => undefined);
  const loop = new Int32Array(links.length).fill(-1);
  let time = 0;
  let parts = 0;
  let loops = 0;
  const open: number[] = [];
  const enter = (node: number) => {
    part[node] = parts;
    preorder[node] = low[node] = time++;
  };
  for (let start = 0; start < nodes; start++) {
    if (part[start] !== -1) continue;
    enter(start);
    const stack = [{ node: start, via: -1, next: 0 }];
    for (let frame = stack.at(-1); frame !== undefined; frame = stack.at(-1)) {
      const { node, via } = frame;
      const step = at[node]?.[frame.next++];
      if (step === undefined) {
        stack.pop();
        const parent = stack.at(-1)?.node;
        if (parent === undefined) continue;
        low[parent] = Math.min(low[parent] ?? 0, low[node] ?? 0);
        if ((low[node] ?? 0) < (preorder[parent] ?? 0)) continue;
        // Everything opened since the way to this child makes one block: a bridge by itself, or a loop.
        const block = open.splice(open.lastIndexOf(via));
        const bridge = (low[node] ?? 0) > (preorder[parent] ?? 0);
        for (const link of block.flatMap((index) => bundles[index] ?? [])) {
          if (bridge) far[link] = { from: preorder[node] ?? 0, to: time };
          else loop[link] = loops;
        }
        loops += 1;
      } else if (step.bundle !== via) {
        if (part[step.to] === -1) {
          open.push(step.bundle);
          enter(step.to);
          stack.push({ node: step.to, via: step.bundle, next: 0 });
        } else if ((preorder[step.to] ?? 0) < (preorder[node] ?? 0)) {
          open.push(step.bundle);
          low[node] = Math.min(low[node] ?? 0, preorder[step.to] ?? 0);
        }
      }
    }
    parts += 1;
  }
  return { part, partCount: parts, preorder, far, loop };
}

/** Links between the same two nodes as one, and what is at every node. */
function bundle(nodes: number, links: readonly GraphLink[], counts: (index: number) => boolean, bundled: boolean) {
  const at: { to: number; bundle: number }[][] = Array.from({ length: nodes }, () => []);
  const bundles: number[][] = [];
  const known = new Map<number, number[]>();
  links.forEach(({ a, b }, link) => {
    if (a === b || !counts(link)) return;
    const key = Math.min(a, b) * nodes + Math.max(a, b);
    const same = bundled ? known.get(key) : undefined;
    if (same !== undefined) {
      same.push(link);
      return;
    }
    const own = [link];
    known.set(key, own);
    const index = bundles.push(own) - 1;
    at[a]?.push({ to: b, bundle: index });
    at[b]?.push({ to: a, bundle: index });
  });
  return { bundles, at };
}

/** Whether a node lies on a link's far side; undefined on a loop, or when it is in another part. */
export function isFar(separation: Separation, link: number, linkNode: number, node: number): boolean | undefined {
  const span = separation.far[link];
  if (span === undefined || separation.part[node] !== separation.part[linkNode]) return undefined;
  const at = separation.preorder[node] ?? -1;
  return at >= span.from && at < span.to;
}
