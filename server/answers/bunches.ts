/** Which cables lie against which, and which of them count when a capacity is worked out. */
import { keptWith } from '../model/lazily.ts';
import type { Model, Run } from '../model/model.ts';
import type { Bunch, Capacity, LimitSet } from '../physics/limits/limit-set.ts';

/**
 * By name of the run, the runs that lie against it. A run and those it names make one bunch, so that each of them has all
 * the others beside it, wherever that was said; what lies in several bunches has the cables of all beside it.
 */
const neighbours = keptWith((model: Model): ReadonlyMap<string, ReadonlySet<string>> => {
  const beside = new Map<string, Set<string>>();
  for (const run of model.runs.values()) {
    if (run.bunchedRuns.length === 0) continue;
    const bunch = [run.name, ...run.bunchedRuns.filter((name) => model.runs.has(name))];
    if (bunch.length === 1) continue;
    for (const one of bunch) {
      const others = beside.get(one) ?? new Set();
      for (const other of bunch) if (other !== one) others.add(other);
      beside.set(one, others);
    }
  }
  return beside;
});

export function carryingCores({ cores }: Run): number {
  return Math.max(1, cores.filter(({ spare }) => !spare).length);
}

/** Of a run that nothing lies against. */
const nothing: Bunch = { count: 0, cores: [], leftOut: [] };

/** What lies against a run, without those that `light` leaves out. A number that it says itself counts where it is greater. */
export function bunchOf(run: Run, model: Model, light: (other: Run) => boolean = () => false): Bunch {
  const names = neighbours(model).get(run.name);
  if (names === undefined && run.bunchedRuns.length === 0 && !(run.bunchedWith > 0)) return nothing;
  const others = [...(names ?? [])].flatMap((name) => model.runs.get(name) ?? []);
  const counted = others.filter((other) => !light(other));
  const leftOut = others.filter((other) => !counted.includes(other)).map(({ name }) => name);
  const unnamed = run.bunchedRuns.length > 0 ? 0 : Math.max(0, run.bunchedWith - others.length);
  // Of cables that have no name here it is not known how many cores they have: the convention for single cores counts.
  const cores = unnamed > 0 ? undefined : counted.map(carryingCores);
  return { count: counted.length + unnamed, cores, leftOut };
}

/**
 * By run, what lies against it once the cables are left out that a set lets go uncounted for what little they carry. A
 * cable of which nothing is known to flow counts: its operating conditions are not known.
 */
export function countedBunches(
  model: Model,
  { lightlyLoaded }: LimitSet,
  ampsOf: (run: Run) => number,
  groupedCapacity: (run: Run) => Capacity | undefined,
): ReadonlyMap<Run, Bunch> {
  const bunches = new Map<Run, Bunch>();
  if (lightlyLoaded === undefined) return bunches;
  const light = (run: Run) => {
    const amps = ampsOf(run);
    return amps > 0 && amps <= lightlyLoaded.ratio * (groupedCapacity(run)?.amps ?? 0);
  };
  for (const name of neighbours(model).keys()) {
    const run = model.runs.get(name);
    if (run !== undefined) bunches.set(run, bunchOf(run, model, light));
  }
  return bunches;
}
