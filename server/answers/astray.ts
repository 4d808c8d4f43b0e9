/**
 * A core that ends on the wrong pole: on a battery or a bar, while all that it leads to belongs to the other pole. Contacts
 * count as closed.
 */
import type { Terminal } from '../model/model.ts';
import type { Joint, Layout } from '../model/network.ts';
import { countBelow, groupBy } from './grouping.ts';
import { type Draw, drawsOf, type Source, sourcesOf } from './ports.ts';
import { type Separation, type Span, separate } from './separation.ts';

export interface Astray {
  /** Index of the core's joint. */
  readonly joint: number;
  /** Where it ends, and of which pole that is. */
  readonly end: Terminal;
  readonly sign: Sign;
  /** Where it should: the battery's other pole, or the one bar of that sort there is on it; undefined where there are several. */
  readonly meant: Terminal | undefined;
  /** Terminals beyond it that tell that it does not belong here. */
  readonly marked: readonly Terminal[];
  /** All that it leads to. */
  readonly far: ReadonlySet<Terminal>;
}

type Sign = '+' | '-';

export function astrayCores(layout: Layout): Astray[] {
  const sources = sourcesOf(layout.parts).filter(({ is }) => is !== 'panel');
  if (sources.length === 0) return [];
  const sides = new Sides(layout, sources);
  const found = layout.joints.flatMap((joint) => {
    // A core between two batteries is a link of them.
    if (joint.is !== 'core' || (isPole(joint.from) && isPole(joint.to))) return [];
    return [
      { end: joint.from, other: joint.to },
      { end: joint.to, other: joint.from },
    ].flatMap(({ end, other }) =>
      isPole(end) || end.part.kind.oneNode ? (sides.astray(joint, end, other) ?? []) : [],
    );
  });
  // With a core on each of its poles that belongs to the other a battery is the wrong way round.
  const isReversed = (one: Astray) => found.some(({ end, sign }) => end.part === one.end.part && sign !== one.sign);
  // Of cores in line the first is the one, and one on a battery comes before any on a bar.
  const isBehind = (one: Astray) =>
    found.some(
      (other) => other.far.has(one.end) && (isPole(other.end) || (!isPole(one.end) && other.joint !== one.joint)),
    );
  return found.filter((one) => !isReversed(one) && !isBehind(one));
}

/** What lies on either side of each core that alone joins them. */
class Sides {
  private readonly separation: Separation;
  private readonly signed: readonly Terminal[];
  private readonly bonds: readonly Terminal[];
  private readonly poles: readonly Terminal[];
  private readonly coils: readonly Draw[];
  private readonly counts: Readonly<Record<Sign | 'bond' | 'coil' | 'source', ReadonlyMap<number, readonly number[]>>>;

  constructor(
    private readonly layout: Layout,
    private readonly sources: readonly Source[],
  ) {
    const { joints, parts, terminals } = layout;
    const links = joints.map(({ from, to }) => ({ a: from.index, b: to.index }));
    this.separation = separate(terminals.length, links);
    const hasSign = ({ part, spec }: Terminal) => spec.polarity !== undefined && part.kind.behaviour.is !== 'none';
    this.signed = terminals.filter(hasSign);
    this.bonds = terminals.filter(isBond);
    this.poles = terminals.filter(isPole);
    // A coil works either way round, but not with both its ends on one pole.
    this.coils = drawsOf(parts).filter(
      ({ is, plus, minus }) => is === 'coil' && this.partOf(plus) === this.partOf(minus),
    );
    const ends = (ports: readonly Pick<Source, 'plus' | 'minus'>[]) =>
      ports.flatMap(({ plus, minus }) => [plus, minus]);
    this.counts = {
      '+': this.inOrder(this.signed.filter(({ spec }) => spec.polarity === '+')),
      '-': this.inOrder(this.signed.filter(({ spec }) => spec.polarity === '-')),
      bond: this.inOrder(this.bonds),
      coil: this.inOrder(ends(this.coils)),
      source: this.inOrder(ends(sources)),
    };
  }

  /** Undefined for a core that is where it belongs, or on a loop. */
  astray({ index }: Joint, end: Terminal, other: Terminal): Astray | undefined {
    const span = this.separation.far[index];
    if (span === undefined) return undefined;
    const part = this.partOf(end);
    const isFarInSpan = this.isIn(span, other);
    const count = (what: keyof Sides['counts']) => {
      const all = this.counts[what].get(part) ?? [];
      const inSpan = countBelow(all, span.to) - countBelow(all, span.from);
      const far = isFarInSpan ? inSpan : all.length - inSpan;
      return { far, near: all.length - far };
    };
    const own = isPole(end) ? end.spec.polarity : count('+').near > 0 ? '+' : '-';
    const sign: Sign = own === '+' ? '+' : '-';
    const opposite = sign === '+' ? '-' : '+';
    const bonds = sign === '+' ? count('bond').far : 0;
    if (count(sign).far > 0 || count(opposite).far + count('coil').far + bonds === 0) return undefined;
    // Of which pole a bar is is told by what else is joined to it.
    if (!isPole(end) && (count(opposite).near > 0 || count('source').near === 0)) return undefined;
    const there = this.layout.terminals.filter((terminal) => this.partOf(terminal) === part);
    const far = new Set(there.filter((terminal) => this.isIn(span, terminal) === isFarInSpan));
    const near = new Set(there.filter((terminal) => !far.has(terminal)));
    return this.judged(index, end, sign, far, near);
  }

  private judged(
    joint: number,
    end: Terminal,
    sign: Sign,
    far: ReadonlySet<Terminal>,
    near: ReadonlySet<Terminal>,
  ): Astray | undefined {
    const marked = this.signed.filter((terminal) => far.has(terminal));
    for (const { plus, minus } of this.coils)
      for (const [one, other] of [[plus, minus] as const, [minus, plus] as const])
        if (far.has(one) && near.has(other)) marked.push(one);
    const other = otherPole(end);
    // With one pole of a battery here and the other there that is shorted.
    const isShort = this.poles.some((pole) => {
      const across = otherPole(pole);
      return far.has(pole) && across !== undefined && near.has(across) && (other === undefined || across === end);
    });
    // The body and what is bonded to it are of the negative, and join no batteries in series.
    const bonded = sign === '+' ? this.bonds.filter((terminal) => far.has(terminal)) : [];
    if (marked.length + bonded.length === 0 || isShort) return undefined;
    // A battery of which one pole is free is in series with nothing.
    const isFree = other !== undefined && !this.isJoined(other) && marked.some((one) => !isPole(one));
    if (!isFree && !bonded.some(isBody) && this.mayBeInSeries(far, near)) return undefined;
    if (marked.length === 0) return { joint, end, sign, meant: this.bodyOn(near), marked: bonded, far };
    return { joint, end, sign, meant: other ?? this.barOf(end, near), marked, far };
  }

  /**
   * Whether a core may be the link of two batteries in series, or the tap between two that are: one of them is beyond it, of
   * which the other end is not here, and what it ends on is not such a joint already.
   */
  private mayBeInSeries(far: ReadonlySet<Terminal>, near: ReadonlySet<Terminal>): boolean {
    const isHere = (sign: Sign) => this.poles.some((pole) => near.has(pole) && pole.spec.polarity === sign);
    const beyond = this.poles.filter((pole) => far.has(pole));
    if (isHere('+') && isHere('-')) return beyond.length === 0;
    return beyond.some((pole) => {
      const other = otherPole(pole);
      return other !== undefined && !near.has(other);
    });
  }

  /** Connected parts with the other pole of what feeds here. */
  private across(near: ReadonlySet<Terminal>): readonly number[] {
    return this.sources.flatMap(({ plus, minus }) => [
      ...(near.has(plus) ? [this.partOf(minus)] : []),
      ...(near.has(minus) ? [this.partOf(plus)] : []),
    ]);
  }

  /** A point of the body that is bonded to the other pole of what feeds here. */
  private bodyOn(near: ReadonlySet<Terminal>): Terminal | undefined {
    const others = this.across(near);
    return this.bonds.find((one) => isBody(one) && others.includes(this.partOf(one)));
  }

  /** The one bar of the same sort on the other pole of what feeds here. */
  private barOf({ part: { kind } }: Terminal, near: ReadonlySet<Terminal>): Terminal | undefined {
    const others = this.across(near);
    const bars = this.layout.terminals.filter(
      (one) => one.part.kind === kind && one.id === one.part.name && others.includes(this.partOf(one)),
    );
    return bars.length === 1 ? bars[0] : undefined;
  }

  private isJoined(terminal: Terminal): boolean {
    return this.layout.joints.some(({ from, to }) => from === terminal || to === terminal);
  }

  private partOf({ index }: Terminal): number {
    return this.separation.part[index] ?? -1;
  }

  private isIn({ from, to }: Span, { index }: Terminal): boolean {
    const at = this.separation.preorder[index] ?? -1;
    return at >= from && at < to;
  }

  /** Preorder numbers by connected part, ascending. */
  private inOrder(terminals: readonly Terminal[]): ReadonlyMap<number, readonly number[]> {
    const order = ({ index }: Terminal) => this.separation.preorder[index] ?? -1;
    const byPart = groupBy(terminals, (terminal) => this.partOf(terminal));
    return new Map([...byPart].map(([part, list]) => [part, list.map(order).sort((a, b) => a - b)]));
  }
}

function otherPole(pole: Terminal): Terminal | undefined {
  return isPole(pole) ? pole.part.terminals.find((one) => isPole(one) && one !== pole) : undefined;
}

function isBody({ part }: Terminal): boolean {
  return part.kind.word === 'chassis';
}

/** A point of the body, and the case of a part. */
function isBond(terminal: Terminal): boolean {
  return isBody(terminal) || terminal.spec.name === 'case';
}

function isPole({ part, spec }: Terminal): boolean {
  return part.kind.behaviour.is === 'battery' && spec.polarity !== undefined;
}
