/** Which draws a conductor or contact serves: those that it parts from a source. */

import { lazilyEach } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Arrangement } from './arrangement.ts';
import { countBelow, groupBy } from './grouping.ts';
import { loopEntries } from './loops.ts';
import type { Draw } from './ports.ts';
import { isFar } from './separation.ts';
import type { Way, Wiring } from './wiring.ts';

interface End {
  readonly node: number;
  /** Undefined for the end of a source. */
  readonly draw?: Draw;
}

/** Ends of one polarity in a connected part, in preorder. */
interface Ends {
  readonly list: readonly End[];
  readonly order: readonly number[];
  /** Preorder of the sources among them. */
  readonly sources: readonly number[];
}

export class Served {
  private readonly pluses: ReadonlyMap<number, Ends>;
  private readonly minuses: ReadonlyMap<number, Ends>;
  private readonly known = new Map<Way, readonly Draw[]>();
  private readonly knownParts = new Map<Way, readonly Part[]>();
  private readonly loops = new Map<Way, readonly Draw[]>();
  private readonly entriesOf = new Map<number, ReadonlyMap<number, number>>();

  constructor(
    private readonly arrangement: Arrangement,
    private readonly isReturn: (way: Way) => boolean,
  ) {
    const { draws, supplies, strings } = arrangement;
    const feeds = [...supplies, ...strings];
    this.pluses = this.byPart([
      ...draws.map((draw) => ({ terminal: draw.plus, draw })),
      ...feeds.map(({ plus }) => ({ terminal: plus })),
    ]);
    this.minuses = this.byPart([
      ...draws.map((draw) => ({ terminal: draw.minus, draw })),
      ...feeds.map(({ minus }) => ({ terminal: minus })),
    ]);
  }

  by(way: Way): readonly Draw[] {
    let known = this.known.get(way);
    if (known === undefined) {
      known = this.servedBy(way);
      this.known.set(way, known);
    }
    return known;
  }

  /** The parts of these draws. */
  partsBy(way: Way): readonly Part[] {
    let known = this.knownParts.get(way);
    if (known === undefined) {
      known = [...new Set(this.by(way).map(({ part }) => part))];
      this.knownParts.set(way, known);
    }
    return known;
  }

  /**
   * All that hangs on a way which alone leads there, and where nothing feeds: by Kirchhoff's current law it carries what these
   * take, whatever happens elsewhere. Undefined where it is otherwise, or where some have their plus there and others their minus.
   */
  readonly solelyBy = lazilyEach((way: Way): readonly Draw[] | undefined => this.onlyFedBy(way));

  private onlyFedBy(way: Way): readonly Draw[] | undefined {
    const { whole } = this.arrangement.wiring;
    const fed = this.arrangement.fedSides(way);
    if (fed === undefined || fed.a === fed.b) return undefined;
    const own = whole.part[way.a] ?? -1;
    const side = isFar(whole, way.index, way.a, fed.a ? way.b : way.a);
    const isHere = ({ node }: End) => isFar(whole, way.index, way.a, node) === side;
    const [pluses, minuses] = [this.pluses, this.minuses].map((ends) =>
      (ends.get(own)?.list ?? []).flatMap((end) => (end.draw !== undefined && isHere(end) ? [end.draw] : [])),
    );
    if (minuses?.length === 0) return pluses;
    return pluses?.length === 0 ? minuses : undefined;
  }

  private servedBy(way: Way): readonly Draw[] {
    const { whole } = this.arrangement.wiring;
    const ends = (this.isReturn(way) ? this.minuses : this.pluses).get(whole.part[way.a] ?? -1);
    if (ends === undefined || ends.sources.length === 0 || way.a === way.b) return [];
    const span = whole.far[way.index];
    if (span === undefined) return this.onLoop(way, ends);
    const { list, order, sources } = ends;
    const low = countBelow(order, span.from);
    const high = countBelow(order, span.to);
    const fedFar = countBelow(sources, span.to) - countBelow(sources, span.from);
    const far = fedFar < sources.length ? list.slice(low, high) : [];
    const near = fedFar > 0 ? [...list.slice(0, low), ...list.slice(high)] : [];
    return [...far, ...near].flatMap(({ draw }) => draw ?? []);
  }

  private byPart(
    ends: readonly { readonly terminal: Parameters<Wiring['node']>[0]; readonly draw?: Draw }[],
  ): Map<number, Ends> {
    const { wiring } = this.arrangement;
    const { preorder, part } = wiring.whole;
    const at = ({ node }: End) => preorder[node] ?? 0;
    const all: End[] = ends.map(({ terminal, draw }) => ({
      node: wiring.node(terminal),
      ...(draw === undefined ? {} : { draw }),
    }));
    all.sort((a, b) => at(a) - at(b));
    return new Map(
      [...groupBy(all, ({ node }) => part[node] ?? -1)].map(([key, list]) => [
        key,
        { list, order: list.map(at), sources: list.filter(({ draw }) => draw === undefined).map(at) },
      ]),
    );
  }

  /**
   * On a loop a conductor serves what leaves the loop elsewhere than where the source comes in; with sources coming in at
   * several places it may serve everything.
   */
  private onLoop(way: Way, { list }: Ends): readonly Draw[] {
    let served = this.loops.get(way);
    if (served === undefined) {
      const entry = this.entries(way);
      const sourced = new Set(list.filter(({ draw }) => draw === undefined).map(({ node }) => entry.get(node)));
      served = list.flatMap(({ draw, node }) =>
        draw === undefined || [...sourced].every((at) => at === entry.get(node)) ? [] : [draw],
      );
      this.loops.set(way, served);
    }
    return served;
  }

  private entries(way: Way): ReadonlyMap<number, number> {
    const loop = this.arrangement.wiring.whole.loop[way.index] ?? -1;
    let entry = this.entriesOf.get(loop);
    if (entry === undefined) {
      entry = loopEntries(this.arrangement.wiring, loop);
      this.entriesOf.set(loop, entry);
    }
    return entry;
  }
}
