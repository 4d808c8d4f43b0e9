/**
 * Connected parts of a graph, and what each of its links parts when it is cut. One depth-first search (Tarjan's bridges,
 * iterative) lets every later question about a side of a link be answered by comparing preorder numbers.
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
  /** Preorder of a part's nodes: [partStart[p], partStart[p + 1]). */
  readonly partStart: Int32Array;
  /** By link: the nodes on its far side, when cutting it parts the graph; undefined on a loop. */
  readonly far: readonly (Span | undefined)[];
}

/** `counts` tells which links belong to the graph; the others get no span. */
export function separate(
  nodes: number,
  links: readonly GraphLink[],
  counts: (index: number) => boolean = () => true,
): Separation {
  const at: { to: number; link: number }[][] = Array.from({ length: nodes }, () => []);
  links.forEach(({ a, b }, link) => {
    if (a === b || !counts(link)) return;
    at[a]?.push({ to: b, link });
    at[b]?.push({ to: a, link });
  });
  const part = new Int32Array(nodes).fill(-1);
  const preorder = new Int32Array(nodes);
  const low = new Int32Array(nodes);
  const far: (Span | undefined)[] = links.map(() => undefined);
  const starts: number[] = [];
  let time = 0;
  const enter = (node: number) => {
    part[node] = starts.length - 1;
    preorder[node] = low[node] = time++;
  };
  for (let start = 0; start < nodes; start++) {
    if (part[start] !== -1) continue;
    starts.push(time);
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
        if ((low[node] ?? 0) > (preorder[parent] ?? 0)) far[via] = { from: preorder[node] ?? 0, to: time };
      } else if (step.link !== via) {
        if (part[step.to] === -1) {
          enter(step.to);
          stack.push({ node: step.to, via: step.link, next: 0 });
        } else low[node] = Math.min(low[node] ?? 0, preorder[step.to] ?? 0);
      }
    }
  }
  return { part, partCount: starts.length, preorder, partStart: Int32Array.from([...starts, time]), far };
}

/** Whether a node lies on a link's far side; undefined on a loop, or when it is in another part. */
export function isFar(separation: Separation, link: number, linkNode: number, node: number): boolean | undefined {
  const span = separation.far[link];
  if (span === undefined || separation.part[node] !== separation.part[linkNode]) return undefined;
  const at = separation.preorder[node] ?? -1;
  return at >= span.from && at < span.to;
}
