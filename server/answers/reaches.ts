/**
 * Which sources can drive a conductor or contact, and in which direction: out of a source's plus and away from it, home to
 * its minus. Every contact counts as closed, as for protection; a diode lets current pass one way only.
 */

import { lazily } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Arrangement } from './arrangement.ts';
import { loopEntries } from './loops.ts';
import type { Source } from './ports.ts';
import { isFar } from './separation.ts';
import type { Way, Wiring } from './wiring.ts';

export interface Drivers {
  /** From the way's a to its b. */
  readonly forward: readonly Part[];
  readonly backward: readonly Part[];
}

interface Reach {
  readonly source: Source;
  /** Nodes that current out of its plus comes to. */
  readonly from: ReadonlySet<number>;
  /** Nodes that current comes home from. */
  readonly home: ReadonlySet<number>;
}

export class Reaches {
  private readonly reaches: () => readonly Reach[];
  private readonly entries = new Map<number, ReadonlyMap<number, number>>();

  constructor(private readonly arrangement: Arrangement) {
    this.reaches = lazily(() => {
      const { sources, wiring } = arrangement;
      const onward = stepsOf(wiring, false);
      const back = stepsOf(wiring, true);
      const nodes = (terminal: Terminal, steps: Steps) => reachedFrom(wiring.node(terminal), steps);
      return sources.map((source) => ({ source, from: nodes(source.plus, onward), home: nodes(source.minus, back) }));
    });
  }

  of(way: Way): Drivers {
    const forward = new Set<Part>();
    const backward = new Set<Part>();
    for (const reach of this.reaches()) {
      const { part } = reach.source;
      if (this.drives(reach, way, way.a, way.b)) forward.add(part);
      if (!way.oneWay && this.drives(reach, way, way.b, way.a)) backward.add(part);
    }
    return { forward: [...forward], backward: [...backward] };
  }

  private drives({ source, from, home }: Reach, way: Way, start: number, end: number): boolean {
    if (start === end) return false;
    const { wiring } = this.arrangement;
    const plus = wiring.node(source.plus);
    const minus = wiring.node(source.minus);
    return (
      (from.has(start) && this.isBehind(way, start, end, plus)) ||
      (home.has(end) && this.isBehind(way, end, start, minus))
    );
  }

  /** Whether a source's terminal lies on the near side of a way; on a loop nothing flows back to where it came in. */
  private isBehind(way: Way, near: number, far: number, terminal: number): boolean {
    const { whole } = this.arrangement.wiring;
    if (whole.far[way.index] !== undefined)
      return isFar(whole, way.index, near, terminal) === isFar(whole, way.index, near, near);
    const loop = whole.loop[way.index] ?? -1;
    let entry = this.entries.get(loop);
    if (entry === undefined) {
      entry = loopEntries(this.arrangement.wiring, loop);
      this.entries.set(loop, entry);
    }
    const at = entry.get(terminal);
    return at !== undefined && at !== far;
  }
}

/** By node: where current may go on to, or with `back` where it may have come from. */
type Steps = ReadonlyMap<number, readonly number[]>;

function stepsOf({ ways }: Wiring, back: boolean): Steps {
  const steps = new Map<number, number[]>();
  const add = (from: number, to: number) => {
    const list = steps.get(from);
    if (list === undefined) steps.set(from, [to]);
    else list.push(to);
  };
  for (const { a, b, oneWay } of ways) {
    if (!oneWay || !back) add(a, b);
    if (!oneWay || back) add(b, a);
  }
  return steps;
}

function reachedFrom(start: number, steps: Steps): ReadonlySet<number> {
  const reached = new Set([start]);
  // The set is walked while it grows.
  for (const node of reached) for (const next of steps.get(node) ?? []) reached.add(next);
  return reached;
}
