/** Where on a load’s way the voltage is lost, and the size that would save enough of it. */
import type { LoadFigures } from '../answers/answers.ts';
import { coreOhmsAt20 } from '../answers/conditions.ts';
import { standardSizes } from '../answers/work-out.ts';
import type { ConductorSize, Run } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import type { Fix, RuleContext } from './rule.ts';
import { names } from './words.ts';

/** A run of a load’s way, and what all its cores on the way lose together in the worst case. */
export interface Leg {
  readonly run: Run;
  readonly dropVolts: number;
  readonly amps: number;
  /** Whether it leads to the load, back from it, or both. */
  readonly sides: ReadonlySet<'out' | 'back'>;
}

/** Where this much less is lost than in the worst run, a larger size is not worth its price (common practice, no source). */
const worthwhile = 0.25;

/** Of a load’s whole way, what loses most first. */
export function legsOf({ cores, worstCase, supplyVolts }: LoadFigures, { answers }: RuleContext): Leg[] {
  const answer = answers.cases.find(({ name }) => name === worstCase);
  const legs = new Map<Run, Leg>();
  for (const core of cores) {
    const inCase = answer?.cores.find((one) => one.core === core);
    const before = legs.get(core.run);
    const volts = answer?.volts.get(core.from?.id ?? '') ?? 0;
    legs.set(core.run, {
      run: core.run,
      dropVolts: (before?.dropVolts ?? 0) + Math.abs(inCase?.dropVolts ?? 0),
      amps: Math.max(before?.amps ?? 0, Math.abs(inCase?.amps ?? 0)),
      sides: new Set([...(before?.sides ?? []), Math.abs(volts) > supplyVolts / 2 ? 'out' : 'back']),
    });
  }
  return [...legs.values()].sort((a, b) => b.dropVolts - a.dropVolts);
}

/** The run that loses most, first, and those of the same circuit that lose nearly as much: its way back above all. */
export function worstLegs([worst, ...others]: readonly Leg[]): Leg[] {
  if (worst === undefined) return [];
  return [worst, ...others.filter((leg) => isWith(leg, worst) && isOwnSize(leg.run))];
}

/** The parts of a way that carry one current each, as a feed and its return do, those left out that lose little beside the others. */
export function stretchesOf(all: readonly Leg[]): Leg[][] {
  const stretches: Leg[][] = [];
  for (const leg of all) {
    const own = stretches.find(
      ([worst]) => worst !== undefined && Math.abs(leg.amps - worst.amps) <= 0.02 * worst.amps,
    );
    if (own === undefined) stretches.push([leg]);
    else if (own[0] !== undefined && isWith(leg, own[0])) own.push(leg);
  }
  return stretches;
}

export function lossOf(legs: readonly Leg[]): number {
  return legs.reduce((sum, leg) => sum + leg.dropVolts, 0);
}

function isWith({ run, dropVolts, amps }: Leg, worst: Leg): boolean {
  return (
    dropVolts >= worthwhile * worst.dropVolts &&
    Math.abs(amps - worst.amps) <= 0.02 * worst.amps &&
    run.size?.system === worst.run.size?.system
  );
}

/** Whether a size that somebody would buy saves enough on them. */
export function mendsWithin(legs: readonly Leg[], excessVolts: number): boolean {
  const enough = sizeEnough(legs, excessVolts);
  const size = legs[0]?.run.size;
  return enough !== undefined && size !== undefined && areaMm2(enough.size) <= areaMm2(size) / worthwhile;
}

/** Stated by the run itself, so that a larger one changes no other. */
function isOwnSize(run: Run): boolean {
  return run.size !== undefined && run.facts.fact('size')?.fromStock === undefined;
}

export interface LargerSize {
  readonly written: string;
  readonly mm2: number;
  readonly where: string;
  readonly fix: Fix;
}

/** That size as it is offered; undefined where a run has its own from stock, which others take too. */
export function largerSize(legs: readonly Leg[], excessVolts: number): LargerSize | undefined {
  const enough = sizeEnough(legs, excessVolts);
  if (enough === undefined || !enough.changed.every(({ run }) => isOwnSize(run))) return undefined;
  const { size, changed } = enough;
  const where = placesOf(changed, legs);
  return {
    written: size.written,
    mm2: areaMm2(size),
    where,
    fix: {
      title: where === 'there' ? `Use ${size.written}` : `Use ${size.written} ${where}`,
      safe: false,
      edits: changed.map(({ run }) => ({ place: run.sizePlace, newText: size.written })),
    },
  };
}

/** The smallest size that, given to all these runs that have less, saves enough. */
function sizeEnough(legs: readonly Leg[], excessVolts: number) {
  const [worst] = legs;
  if (worst?.run.size === undefined) return undefined;
  for (const size of standardSizes(worst.run.size.system === 'awg')) {
    const changed: Leg[] = [];
    let savedVolts = 0;
    for (const leg of legs) {
      const saved = savedBy(size, leg.run, leg.dropVolts);
      if (saved <= 0) continue;
      changed.push(leg);
      savedVolts += saved;
    }
    // A little room: with less loss the load sees more voltage, but its cores are also cooler.
    if (changed.includes(worst) && savedVolts >= excessVolts * 1.02) return { size, changed };
  }
  return undefined;
}

/** What a size would save of the volts that a run loses; nothing where it is no larger. */
export function savedBy(size: ConductorSize, run: Run, dropVolts: number): number {
  const now = coreOhmsAt20(run, run.size);
  const ohms = coreOhmsAt20(run, size);
  return now === undefined || ohms === undefined || now <= 0 || ohms >= now ? 0 : dropVolts * (1 - ohms / now);
}

function placesOf(changed: readonly Leg[], legs: readonly Leg[]): string {
  if (legs.length === 1) return 'there';
  const sides = new Set(changed.flatMap((leg) => [...leg.sides]));
  if (sides.size === 2 && changed.length === legs.length) return 'out and back';
  return `for ${names(changed.map(({ run }) => run))}`;
}
