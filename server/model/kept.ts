/**
 * What was made of statements is kept, as the same object, until the spec is built again: as long as its statement is the same
 * object, and every name that was looked up for it means the same object as before. So an edit makes anew what it touches, and
 * whoever rests on a part or a run knows by its identity that nothing about it changed. What is amiss in any way is made anew
 * every time, and told of again.
 */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import { trimmed } from '../../grammar/trimmed.ts';
import type { Said } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { lazilyEach } from './lazily.ts';
import type { Lookup, Lookups } from './lookups.ts';
import type { Bar, Case, Facts, Location, Model, NameUse, Origin, Part, Reading, Run, Stock } from './model.ts';
import type { Joint, Layout, Network } from './network.ts';
import type { Draft } from './parts.ts';

/** Things of one sort, by what they are made of: a key, and in some sorts one thing more. */
export class Kept<K extends object, V, A = void> {
  private readonly made = new WeakMap<K, { value: V; also: A; lookups: readonly Lookup[] }>();

  /** The same thing as before, or made anew. Of what there are hundreds most is the same, so that one `make` serves all. */
  of(key: K, lookups: Lookups, make: (key: K, also: A) => V, also: A): V {
    const known = this.made.get(key);
    if (known === undefined || known.also !== also || !lookups.hold(known.lookups))
      return this.anew(key, lookups, make, also);
    for (const { sort, name, meaning } of known.lookups) lookups.add(sort, name, meaning);
    return known.value;
  }

  private anew(key: K, lookups: Lookups, make: (key: K, also: A) => V, also: A): V {
    const { made: value, lookups: own } = lookups.during(() => make(key, also));
    if (own === undefined) this.made.delete(key);
    else this.made.set(key, { value, also, lookups: trimmed(own) });
    return value;
  }

  /** Whether what was made last is kept, so that nothing is amiss about it. */
  has(key: K): boolean {
    return this.made.has(key);
  }
}

/** All that is kept of one spec from one building of its model to the next. */
export class KeptModel {
  readonly said = new Kept<ShapedPlaced, Said>();
  readonly uses = new Kept<ShapedPlaced, readonly NameUse[]>();
  /** Statements that say all they must. */
  readonly complete = new Kept<ShapedPlaced, true>();
  readonly stocks = new Kept<Declaration, Stock, Said>();
  readonly locations = new Kept<Declaration, Location>();
  readonly drafts = new Kept<Declaration, Draft, Said>();
  readonly runs = new Kept<Declaration, Run, Said>();
  readonly cases = new Kept<Declaration, Case>();
  readonly implied = new Kept<ShapedPlaced, readonly Case[]>();
  readonly readings = new Kept<ShapedPlaced, Reading>();
  readonly bars = new Kept<ShapedPlaced, readonly Bar[]>();
  readonly facts = new Kept<ShapedPlaced, Facts>();
  private readonly parts = new WeakMap<Draft, Part>();
  /** By the first of its parts, since sections of a spec have a layout each. */
  private readonly layouts = new WeakMap<Part, Layout>();
  private readonly networks = new WeakMap<Layout, Network>();
  private readonly origins = new WeakMap<ShapedPlaced, Origin>();
  private readonly fileOf = lazilyEach((uri: string): Origin['file'] => ({ uri }));
  private readonly declared = new WeakMap<Origin, readonly DeclaredName[]>();

  /** Without the file's text, which a statement outlives. */
  origin({ uri }: Origin['file'], statement: ShapedPlaced): Origin {
    const known = this.origins.get(statement);
    if (known?.file.uri === uri) return known;
    const origin = { file: this.fileOf(uri), statement };
    this.origins.set(statement, origin);
    return origin;
  }

  /** What an origin declares by all its names, and where. */
  declarations(origin: Origin, make: () => readonly DeclaredName[]): readonly DeclaredName[] {
    let known = this.declared.get(origin);
    if (known === undefined) {
      known = make();
      this.declared.set(origin, known);
    }
    return known;
  }

  /** The part in that enclosure and place whose terminals are numbered from `first`: the same as before, if it was so. */
  part(
    draft: Draft,
    enclosure: Part | undefined,
    location: Location | undefined,
    first: number,
    make: () => Part,
  ): Part {
    const known = this.parts.get(draft);
    if (
      known !== undefined &&
      known.enclosure === enclosure &&
      known.location === location &&
      (known.terminals[0]?.index ?? first) === first
    )
      return known;
    const part = make();
    this.parts.set(draft, part);
    return part;
  }

  /** The same as before, if cores end where they did, and parts and bars are the same. */
  layout(cores: readonly Pick<Joint, 'from' | 'to'>[], { parts, bars }: Model, make: () => Layout): Layout {
    const [first] = parts.values();
    const known = first && this.layouts.get(first);
    if (known !== undefined && isSameLayout(known, cores, parts, bars)) return known;
    const layout = make();
    if (first !== undefined) this.layouts.set(first, layout);
    return layout;
  }

  /** The last network of that layout. */
  networkOf(layout: Layout): Network | undefined {
    return this.networks.get(layout);
  }

  keepNetwork(network: Network): void {
    this.networks.set(network.layout, network);
  }
}

/** A name that a statement declares, and that as a use of it. */
export interface DeclaredName {
  readonly declaration: Declaration;
  readonly use: NameUse;
}

/** Contacts, bodies and terminals follow from the parts. */
function isSameLayout(
  layout: Layout,
  cores: readonly Pick<Joint, 'from' | 'to'>[],
  parts: ReadonlyMap<string, Part>,
  bars: readonly Bar[],
): boolean {
  if (layout.parts.length !== parts.size) return false;
  let at = 0;
  for (const part of parts.values()) if (layout.parts[at++] !== part) return false;
  at = 0;
  for (const { from, to } of cores) {
    const joint = layout.joints[at++];
    if (joint?.is !== 'core' || joint.from !== from || joint.to !== to) return false;
  }
  for (const bar of bars) {
    const joint = layout.joints[at++];
    if (joint?.is !== 'bar' || joint.bar !== bar) return false;
  }
  const next = layout.joints[at];
  return next?.is !== 'core' && next?.is !== 'bar';
}
