/** Disjoint sets of integers, with path halving. */
export class UnionFind {
  private readonly parent: Int32Array;

  constructor(size: number) {
    this.parent = new Int32Array(size);
    for (let i = 0; i < size; i++) this.parent[i] = i;
  }

  find(i: number): number {
    let node = i;
    for (;;) {
      const up = this.parent[node] ?? node;
      if (up === node) return node;
      const above = this.parent[up] ?? up;
      this.parent[node] = above;
      node = above;
    }
  }

  /** The lower number stays the root, so that results do not depend on the order of joining. */
  join(a: number, b: number): void {
    const ra = this.find(a);
    const rb = this.find(b);
    if (ra < rb) this.parent[rb] = ra;
    else if (rb < ra) this.parent[ra] = rb;
  }
}
