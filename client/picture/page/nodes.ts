/**
 * Elements of the picture as nodes of the page: one for each id, made when the id comes, changed in place while it stays, gone
 * with it. Each sort lies in a layer of its own, those that are drawn first at the bottom.
 */
import { becomeLike } from './safe-svg.ts';

export interface NodeSource {
  readonly id: string;
  readonly layer: string;
  /** Drawn: a node that is not in the page yet. Undefined when it cannot be drawn. */
  draw(): SVGElement | undefined;
  /** Two that are drawn from the same are the same. */
  readonly from: string;
}

export class Nodes {
  private readonly nodes = new Map<string, { readonly node: SVGElement; readonly layer: string; from: string }>();

  constructor(private readonly layers: ReadonlyMap<string, SVGElement>) {}

  get(id: string): SVGElement | undefined {
    return this.nodes.get(id)?.node;
  }

  *[Symbol.iterator](): IterableIterator<readonly [string, SVGElement]> {
    for (const [id, { node }] of this.nodes) yield [id, node];
  }

  /** Undefined when it was drawn from the very same before, so that nothing had to be done. */
  put({ id, layer, draw, from }: NodeSource): SVGElement | undefined {
    const before = this.nodes.get(id);
    if (before?.from === from && before.layer === layer) return undefined;
    const drawn = draw();
    if (drawn === undefined) return undefined;
    if (before !== undefined && before.layer === layer && before.node.localName === drawn.localName) {
      becomeLike(before.node, drawn);
      before.from = from;
      return before.node;
    }
    before?.node.remove();
    this.layers.get(layer)?.append(drawn);
    this.nodes.set(id, { node: drawn, layer, from });
    return drawn;
  }

  remove(id: string): void {
    this.nodes.get(id)?.node.remove();
    this.nodes.delete(id);
  }
}
