/** When a device clears a fault, and what it can break: as its part states, else by its standard body style. */
import { keptWith } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import { type OperatingTime, operatingTime } from '../physics/operating-time.ts';
import { usualBreakingCapacity } from '../tables/breaking-capacity.ts';
import { fuseGates, type Gate } from '../tables/fuse-gates.ts';
import type { TableSource } from '../tables/table.ts';

/**
 * Whether a device opens: `surely`; `never`, because no fault brings it more than its rating; `not surely`, because the
 * least fault is below what it must open at; `not known`, because nothing tells its curve.
 */
export type Clearing = 'surely' | 'never' | 'not surely' | 'not known';

/** A figure that the spec states, or a table that stands in for it. */
export type Origin = 'stated' | TableSource;

export interface BreakingCapacity {
  readonly amps: number;
  readonly from: Origin;
}

export interface Curve {
  readonly gates: readonly Gate[];
  readonly from: Origin;
}

/** As its `operates` clauses say, else by its body style; the ways of a fusebox take blade fuses. */
export const curveOf = keptWith(({ kind, facts }: Part): Curve | undefined => {
  const stated = facts.each('operates').flatMap((row) => {
    const [multiple, least, most] = ['share', 'least', 'most'].map((slot) => row.number('operates', slot));
    return multiple === undefined || most === undefined ? [] : [{ multiple, least: least ?? 0, most }];
  });
  if (stated.length > 0) return { gates: stated, from: 'stated' };
  const usual = fuseGates(styleOf({ kind, facts }));
  return usual === undefined ? undefined : { gates: usual.gates, from: usual.source };
});

/** Times its rating from which it is sure to open; Infinity where nothing tells it. */
export const opensFrom = keptWith(({ gates }: Curve): number =>
  Math.min(...gates.flatMap(({ multiple, most }) => (most === undefined ? [] : multiple))),
);

function styleOf({ kind, facts }: Pick<Part, 'kind' | 'facts'>): string | undefined {
  return kind.word === 'fusebox' ? 'blade' : facts.word('style');
}

/** Undefined where it is neither stated nor usual for the style. */
export function breakingCapacity(part: Part, ratedAmps: number | undefined): BreakingCapacity | undefined {
  const stated = part.facts.number('breaks');
  if (stated !== undefined) return { amps: stated, from: 'stated' };
  const usual = part.kind.word === 'breaker' ? undefined : usualBreakingCapacity(styleOf(part), ratedAmps);
  return usual === undefined ? undefined : { amps: usual.amps, from: usual.source };
}

export function timeOf(
  curve: Curve | undefined,
  ratedAmps: number | undefined,
  amps: number | undefined,
): OperatingTime | undefined {
  if (curve === undefined || ratedAmps === undefined || !(ratedAmps > 0) || amps === undefined) return undefined;
  return operatingTime(curve.gates, amps / ratedAmps);
}

export function clearing(
  ratedAmps: number | undefined,
  greatestAmps: number,
  leastAmps: number,
  atLeast: OperatingTime | undefined,
): Clearing {
  if (ratedAmps === undefined) return 'not known';
  if (greatestAmps <= ratedAmps) return 'never';
  if (leastAmps <= ratedAmps) return 'not surely';
  if (atLeast === undefined) return 'not known';
  return atLeast.most < Number.POSITIVE_INFINITY ? 'surely' : 'not surely';
}

const fromWorst: readonly Clearing[] = ['never', 'not surely', 'not known', 'surely'];

/** Of several faults on one core: what one of them clears and another does not is not sure. */
export function overall(all: readonly Clearing[]): Clearing {
  const worst = worstOf(all);
  return worst === 'never' && all.some((one) => one !== 'never') ? 'not surely' : worst;
}

/** Of several devices that must all open; `not known` where there is nothing to go by. */
export function worstOf(all: readonly Clearing[]): Clearing {
  return fromWorst.find((one) => all.includes(one)) ?? 'not known';
}

export function finite(seconds: number | undefined): number | undefined {
  return seconds !== undefined && seconds < Number.POSITIVE_INFINITY ? seconds : undefined;
}

/**
 * The most I²t that a device lets through in a fault that it clears within so many seconds, in A²s, whatever flows; along
 * straight lines of a logarithmic curve it is most at their ends.
 */
export function mostLetThrough({ gates }: Curve, ratedAmps: number, withinSeconds: number): number {
  const points = gates
    .flatMap(({ multiple, most }) => (most === undefined ? [] : [{ multiple, seconds: most }]))
    .sort((a, b) => a.multiple - b.multiple);
  const letThrough = (multiple: number, seconds: number) => (multiple * ratedAmps) ** 2 * seconds;
  let greatest = 0;
  points.forEach(({ multiple, seconds }, i) => {
    const before = points[i - 1];
    if (seconds <= withinSeconds || i === points.length - 1)
      greatest = Math.max(greatest, letThrough(multiple, seconds));
    if (before === undefined || before.seconds <= withinSeconds || seconds >= withinSeconds) return;
    const part = Math.log(withinSeconds / before.seconds) / Math.log(seconds / before.seconds);
    greatest = Math.max(greatest, letThrough(before.multiple * (multiple / before.multiple) ** part, withinSeconds));
  });
  return greatest;
}
