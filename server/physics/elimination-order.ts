/**
 * The order in which nodes are eliminated, so that little is filled in. Branches that end nowhere are peeled off first, which
 * fills nothing in and is all there is to do for most wiring; the rest goes by approximate least degree over a quotient graph
 * (P. Amestoy, T. Davis, I. Duff, An approximate minimum degree ordering algorithm, SIAM J. Matrix Anal. Appl. 17, 1996).
 */

/** Neighbours by node: those of i stand in `nodes` from `start[i]` up to `start[i + 1]`, each once, never i itself. */
export interface Graph {
  readonly size: number;
  readonly start: Int32Array;
  readonly nodes: Int32Array;
}

/** The graph of pairs; a pair may come several times, in either sense. */
export function graphOf(size: number, is: Int32Array, js: Int32Array, count: number): Graph {
  const start = new Int32Array(size + 1);
  for (let p = 0; p < count; p++) {
    start[(is[p] as number) + 1] = (start[(is[p] as number) + 1] as number) + 1;
    start[(js[p] as number) + 1] = (start[(js[p] as number) + 1] as number) + 1;
  }
  for (let i = 0; i < size; i++) start[i + 1] = (start[i + 1] as number) + (start[i] as number);
  const next = start.slice(0, size);
  const all = new Int32Array(2 * count);
  for (let p = 0; p < count; p++) {
    const i = is[p] as number;
    const j = js[p] as number;
    all[next[i] as number] = j;
    next[i] = (next[i] as number) + 1;
    all[next[j] as number] = i;
    next[j] = (next[j] as number) + 1;
  }
  // Each neighbour once.
  const seen = new Int32Array(size).fill(-1);
  const once = new Int32Array(size + 1);
  let end = 0;
  for (let i = 0; i < size; i++) {
    once[i] = end;
    for (let p = start[i] as number; p < (start[i + 1] as number); p++) {
      const j = all[p] as number;
      if (seen[j] === i || j === i) continue;
      seen[j] = i;
      all[end++] = j;
    }
  }
  once[size] = end;
  return { size, start: once, nodes: all.subarray(0, end) };
}

export function eliminationOrder(graph: Graph): Int32Array {
  const { size, start, nodes } = graph;
  const order = new Int32Array(size);
  const degree = new Int32Array(size);
  const gone = new Uint8Array(size);
  const leaves = new Int32Array(size);
  let waiting = 0;
  for (let i = 0; i < size; i++) {
    const d = (start[i + 1] as number) - (start[i] as number);
    degree[i] = d;
    if (d <= 1) leaves[waiting++] = i;
  }
  let done = 0;
  while (waiting > 0) {
    const i = leaves[--waiting] as number;
    if (gone[i] === 1) continue;
    gone[i] = 1;
    order[done++] = i;
    for (let p = start[i] as number; p < (start[i + 1] as number); p++) {
      const j = nodes[p] as number;
      if (gone[j] === 1) continue;
      const d = (degree[j] as number) - 1;
      degree[j] = d;
      if (d === 1) leaves[waiting++] = j;
    }
  }
  return done === size ? order : byLeastDegree(graph, gone, order, done);
}

/** Orders what is not gone yet. Elements (nodes eliminated) stand for the cliques that their elimination leaves. */
function byLeastDegree({ size, start, nodes }: Graph, gone: Uint8Array, order: Int32Array, from: number): Int32Array {
  let done = from;
  const variables: number[][] = new Array(size);
  const elements: number[][] = new Array(size);
  /** Of an element, the variables of its clique. */
  const cliques: number[][] = new Array(size);
  const absorbed = new Uint8Array(size);
  const degree = new Int32Array(size);
  const head = new Int32Array(size + 1).fill(-1);
  const after = new Int32Array(size).fill(-1);
  const before = new Int32Array(size).fill(-1);
  let low = size;
  const put = (i: number, d: number) => {
    degree[i] = d;
    const first = head[d] as number;
    after[i] = first;
    before[i] = -1;
    if (first >= 0) before[first] = i;
    head[d] = i;
    if (d < low) low = d;
  };
  const take = (i: number) => {
    const a = after[i] as number;
    const b = before[i] as number;
    if (a >= 0) before[a] = b;
    if (b >= 0) after[b] = a;
    else head[degree[i] as number] = a;
  };
  for (let i = 0; i < size; i++) {
    if (gone[i] === 1) continue;
    const around: number[] = [];
    for (let p = start[i] as number; p < (start[i + 1] as number); p++)
      if (gone[nodes[p] as number] === 0) around.push(nodes[p] as number);
    variables[i] = around;
    elements[i] = [];
    put(i, around.length);
  }
  const inPivot = new Int32Array(size).fill(-1);
  const outside = new Int32Array(size);
  const counted = new Int32Array(size).fill(-1);
  while (done < size) {
    while ((head[low] as number) < 0) low += 1;
    const pivot = head[low] as number;
    take(pivot);
    gone[pivot] = 1;
    order[done++] = pivot;
    // The clique that this elimination leaves.
    const clique: number[] = [];
    const join = (i: number) => {
      if (gone[i] === 1 || inPivot[i] === pivot) return;
      inPivot[i] = pivot;
      clique.push(i);
    };
    for (const i of variables[pivot] as number[]) join(i);
    for (const e of elements[pivot] as number[]) {
      if (absorbed[e] === 1) continue;
      for (const i of cliques[e] as number[]) join(i);
      absorbed[e] = 1;
      cliques[e] = [];
    }
    cliques[pivot] = clique;
    // How much of each other element lies outside this clique, counted down from its size.
    for (const i of clique) {
      for (const e of elements[i] as number[]) {
        if (absorbed[e] === 1) continue;
        if (counted[e] !== pivot) {
          counted[e] = pivot;
          outside[e] = (cliques[e] as number[]).length;
        }
        outside[e] = (outside[e] as number) - 1;
      }
    }
    const left = size - done;
    for (const i of clique) {
      take(i);
      const own = elements[i] as number[];
      let d = clique.length - 1;
      let kept = 0;
      for (const e of own) {
        if (absorbed[e] === 1) continue;
        // An element that lies within the clique says nothing more.
        if ((outside[e] as number) <= 0) continue;
        own[kept++] = e;
        d += outside[e] as number;
      }
      own.length = kept;
      own.push(pivot);
      const around = variables[i] as number[];
      kept = 0;
      for (const j of around) {
        if (gone[j] === 1 || inPivot[j] === pivot) continue;
        around[kept++] = j;
      }
      around.length = kept;
      put(i, Math.min(d + kept, left - 1));
    }
    // Eliminated variables stay in older cliques; a clique is cut down when it has become mostly these.
    for (const i of clique)
      for (const e of elements[i] as number[])
        if (e !== pivot && counted[e] === pivot) {
          counted[e] = -1;
          const members = cliques[e] as number[];
          let kept = 0;
          for (const j of members) if (gone[j] === 0) members[kept++] = j;
          members.length = kept;
        }
  }
  return order;
}
