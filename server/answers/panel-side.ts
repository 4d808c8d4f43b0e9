/**
 * The panel side: strings found from the wiring, and what every core and contact there must carry. Its design current is
 * the sum over parallel strings of the largest short-circuit current in each, from data, whatever the sun of a case.
 */
import type { Terminal } from '../model/model.ts';
import { countBelow, groupBy } from './grouping.ts';
import type { Draw, Source } from './ports.ts';
import { isFar } from './separation.ts';
import type { Way, Wiring } from './wiring.ts';

export interface PanelString {
  /** From its minus to its plus. */
  readonly panels: readonly Source[];
  readonly plus: Terminal;
  readonly minus: Terminal;
  /** The largest short-circuit current of its panels. */
  readonly shortCircuitAmps: number;
  /** Sum of their greatest powers and of their voltages there; the current of the weakest. */
  readonly watts: number;
  readonly vmp: number;
  readonly imp: number;
}

/**
 * Panels are in series where a connected part holds the plus of some and the minus of as many others, and nothing else
 * that feeds or draws. Of several at one joint the strongest follow the strongest: alike panels make alike strings.
 */
export function stringsOf(sources: readonly Source[], draws: readonly Draw[], wiring: Wiring): PanelString[] {
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] ?? -1;
  const panels = sources.filter(({ is }) => is === 'panel');
  const amps = (panel: Source) => panel.limitAmps ?? 0;
  const byStrength = (a: Source, b: Source) => amps(b) - amps(a) || (a.part.name < b.part.name ? -1 : 1);
  const taken = new Set<number>();
  for (const { plus, minus } of [...draws, ...sources.filter(({ is }) => is !== 'panel')])
    for (const end of [plus, minus]) taken.add(partOf(end));
  const below = groupBy(panels, ({ plus }) => partOf(plus));
  const above = groupBy(panels, ({ minus }) => partOf(minus));
  const next = new Map<Source, Source>();
  const follows = new Set<Source>();
  for (const [joint, lower] of below) {
    const upper = above.get(joint) ?? [];
    if (taken.has(joint) || upper.length !== lower.length || lower.some((one) => upper.includes(one))) continue;
    const sorted = [...upper].sort(byStrength);
    [...lower].sort(byStrength).forEach((one, i) => {
      const other = sorted[i] as Source;
      next.set(one, other);
      follows.add(other);
    });
  }
  return panels.filter((panel) => !follows.has(panel)).map((first) => stringFrom(first, next));
}

function stringFrom(first: Source, next: ReadonlyMap<Source, Source>): PanelString {
  const panels: Source[] = [];
  for (let at: Source | undefined = first; at !== undefined && !panels.includes(at); at = next.get(at)) panels.push(at);
  const numbers = (clause: string) => panels.map(({ part }) => Math.max(0, part.facts.number(clause) ?? 0));
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    panels,
    plus: (panels.at(-1) as Source).plus,
    minus: first.minus,
    shortCircuitAmps: Math.max(...numbers('isc')),
    watts: sum(numbers('power')),
    vmp: sum(numbers('vmp')),
    imp: Math.min(...numbers('imp')),
  };
}

/** Where panel current comes into the conductors or leaves them again: at a panel its string's current, at a controller any. */
interface PanelEnd {
  readonly node: number;
  readonly gives: number;
  readonly takes: number;
}

export class PanelSide {
  private readonly known = new Map<Way, number | undefined>();
  /** By connected part. */
  private readonly ends: ReadonlyMap<number, readonly PanelEnd[]>;
  /** Preorder numbers of everything else that feeds or draws, ascending, by connected part. */
  private readonly others: ReadonlyMap<number, readonly number[]>;
  /** Parts that something else than a panel feeds. */
  private readonly fed: ReadonlySet<number>;

  constructor(
    strings: readonly PanelString[],
    sources: readonly Source[],
    draws: readonly Draw[],
    private readonly wiring: Wiring,
  ) {
    const { whole } = wiring;
    const partOf = (node: number) => whole.part[node] ?? -1;
    const end = (terminal: Terminal, gives: number, takes: number) => ({ node: wiring.node(terminal), gives, takes });
    const ends = [
      ...strings.flatMap(({ panels, shortCircuitAmps: amps }) =>
        panels.flatMap(({ plus, minus }) => [end(plus, amps, 0), end(minus, 0, amps)]),
      ),
      ...draws
        .filter(({ is }) => is === 'pv')
        .flatMap(({ plus, minus }) => [
          end(plus, 0, Number.POSITIVE_INFINITY),
          end(minus, Number.POSITIVE_INFINITY, 0),
        ]),
    ];
    const feeders = sources.filter(({ is }) => is !== 'panel');
    const others = [...draws.filter(({ is }) => is !== 'pv'), ...feeders]
      .flatMap(({ plus, minus }) => [wiring.node(plus), wiring.node(minus)])
      .sort((a, b) => (whole.preorder[a] ?? 0) - (whole.preorder[b] ?? 0));
    this.ends = groupBy(ends, ({ node }) => partOf(node));
    this.others = new Map(
      [...groupBy(others, partOf)].map(([part, nodes]) => [part, nodes.map((node) => whole.preorder[node] ?? 0)]),
    );
    this.fed = new Set(feeders.map(({ plus }) => partOf(wiring.node(plus))));
  }

  /**
   * Short-circuit current that a way must bear, in ampere; undefined when it is not on the panel side. A conductor is
   * when its connected part holds panels and what they feed alone, or when it leads to those only, out of a shared return.
   */
  ampsThrough(way: Way): number | undefined {
    let amps = this.known.get(way);
    if (amps === undefined && !this.known.has(way)) {
      amps = this.through(way);
      this.known.set(way, amps);
    }
    return amps;
  }

  private through(way: Way): number | undefined {
    const { whole } = this.wiring;
    const part = whole.part[way.a] ?? -1;
    const ends = this.ends.get(part);
    if (ends === undefined || this.fed.has(part)) return undefined;
    const others = this.others.get(part) ?? [];
    const all = own(ends);
    const span = whole.far[way.index];
    // On a loop all of it may take either way.
    if (span === undefined) return others.length > 0 ? undefined : between(ends, ends, all);
    const far = ends.filter(({ node }) => isFar(whole, way.index, way.a, node) === true);
    const near = ends.filter((end) => !far.includes(end));
    const othersFar = countBelow(others, span.to) - countBelow(others, span.from);
    const pure = [...(othersFar === 0 ? [far] : []), ...(othersFar === others.length ? [near] : [])].filter(
      (side) => side.length > 0,
    );
    if (pure.length === 0) return undefined;
    const through = Math.max(between(near, far, all), between(far, near, all));
    // Panels whose other side is not wired yet: what they give is what the conductor must bear.
    return through > 0 ? through : Math.max(...pure.map(own));
  }
}

/** The most that flows from one group of ends to another; never more than all panels of the part give. */
function between(from: readonly PanelEnd[], to: readonly PanelEnd[], all: number): number {
  const gives = from.reduce((sum, end) => sum + end.gives, 0);
  const takes = to.reduce((sum, end) => sum + end.takes, 0);
  return Math.min(gives, takes, all);
}

/** What the panels of a group of ends give or take by themselves. */
function own(ends: readonly PanelEnd[]): number {
  const sum = (key: 'gives' | 'takes') =>
    ends.reduce((total, end) => total + (Number.isFinite(end[key]) ? end[key] : 0), 0);
  return Math.max(sum('gives'), sum('takes'));
}

/** Strings that reach a controller's or charger's panel terminals, as `joined` tells. */
export function stringsAt(
  draw: Draw,
  strings: readonly PanelString[],
  joined: (a: Terminal, b: Terminal) => boolean,
): PanelString[] {
  return strings.filter((string) => joined(string.plus, draw.plus) && joined(string.minus, draw.minus));
}
