/**
 * Sizes that the tool would choose for blank runs: the smallest standard size whose capacity, where the run lies, reaches
 * what its devices let through and its design current, and with which no load loses more than the set of limits allows.
 */
import type { ConductorSize, Run } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import type { Capacity, LimitSet } from '../physics/limits/limit-set.ts';
import { isAtLeast, leastAreaMm2 } from '../tables/least-sizes.ts';
import { areasMm2, gauges } from '../tables/sizes.ts';
import type { ChosenValue, LoadFigures, Protection } from './answers.ts';
import { asksForGauge, type Blank, blankSize } from './blanks.ts';
import { coreOhmsAt20, physicalSize } from './conditions.ts';
import type { DesignCurrent } from './design-currents.ts';
import { loadFigures } from './drop-paths.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import { coresOf, type Way } from './wiring.ts';

export function standardSizes(awg: boolean): ConductorSize[] {
  return awg
    ? gauges.map((gauge) => ({ system: 'awg', gauge, written: `${gauge <= 0 ? `${1 - gauge}/0` : gauge} AWG` }))
    : areasMm2.map((areaMm2) => ({ system: 'mm2', areaMm2, written: `${areaMm2} mm²` }));
}

export interface SizeQuestion {
  readonly installation: Installation;
  readonly limits: LimitSet;
  readonly design: readonly DesignCurrent[];
  protectionOf(way: Way): Protection;
  capacity(run: Run, size: ConductorSize): Capacity;
  voltsOf(run: Run): number;
  /** Operating points with these sizes. */
  points(sizes: ReadonlyMap<Run, ConductorSize>): readonly OperatingPoint[];
}

/** Runs that share one blank, in their own statement or in stock. */
interface Open {
  readonly blank: Blank;
  readonly runs: readonly Run[];
  readonly candidates: readonly ConductorSize[];
  /** Place among the candidates. */
  at: number;
  why: string;
}

export interface ChosenSizes {
  readonly sizes: ReadonlyMap<Run, ConductorSize>;
  readonly chosen: readonly ChosenValue[];
}

/** So many times sizes are grown and everything is worked out again before the last choice stands. */
const mostRounds = 12;

export function chooseSizes(question: SizeQuestion): ChosenSizes {
  const { installation, limits } = question;
  const runs = [...installation.model.runs.values()];
  const blanks = runs.flatMap((run) => {
    const blank = blankSize(run);
    return blank === undefined ? [] : [{ run, blank }];
  });
  if (blanks.length === 0) return { sizes: new Map(), chosen: [] };
  const ways = groupBy(
    installation.wiring.ways.flatMap((way) => coresOf(way, installation.network).map(({ run }) => ({ run, way }))),
    ({ run }) => run,
  );
  const open: Open[] = [];
  for (const group of groupBy(blanks, ({ blank }) => blank.key).values()) {
    const [first] = group;
    if (first === undefined) continue;
    const candidates = standardSizes(asksForGauge(first.run) ?? limits.sizesIn === 'awg');
    const needs = group.map(({ run }) =>
      needOf(
        run,
        (ways.get(run) ?? []).map(({ way }) => way),
        question,
      ),
    );
    const at = candidates.findIndex((size) => needs.every((need) => bears(need, size, question)));
    if (at === -1 || !needs.some(({ device, design }) => device > 0 || design > 0)) continue;
    const most = needs.reduce((worst, need) =>
      Math.max(need.device, need.design) > Math.max(worst.device, worst.design) ? need : worst,
    );
    const { amps } = question.capacity(most.run, candidates[at] as ConductorSize);
    const thinner = candidates[at - 1];
    const byLeast = thinner !== undefined && group.some(({ run }) => !isAllowed(run, thinner, limits));
    const why = `the smallest standard size ${byLeast ? 'that a conductor may have by itself or in its sheath, and it carries the' : 'that carries'} ${figure(Math.max(most.device, most.design))} A where it lies (it is good for ${figure(amps)} A)`;
    open.push({ blank: first.blank, runs: group.map(({ run }) => run), candidates, at, why });
  }
  grow(open, question);
  const sizes = new Map<Run, ConductorSize>();
  const chosen: ChosenValue[] = [];
  for (const { runs: takers, candidates, at, why, blank } of open) {
    const size = candidates[at] as ConductorSize;
    for (const run of takers) {
      sizes.set(run, size);
      chosen.push({ subject: run.name, clause: 'size', text: size.written, why, place: blank.place });
    }
  }
  return { sizes, chosen };
}

interface Need {
  readonly run: Run;
  /** Greatest device, and greatest current by design or by the panels, in ampere. */
  readonly device: number;
  readonly design: number;
}

function needOf(run: Run, ways: readonly Way[], { design, protectionOf }: SizeQuestion): Need {
  let need: Need = { run, device: 0, design: 0 };
  for (const way of ways) {
    const current = design[way.index];
    const { amps } = protectionOf(way);
    const panels = current?.neededAmps;
    need = {
      run,
      device: Math.max(need.device, panels === undefined && Number.isFinite(amps) ? amps : 0),
      design: Math.max(need.design, panels ?? current?.amps ?? 0),
    };
  }
  return need;
}

function bears(
  { run, device, design }: Need,
  size: ConductorSize,
  { limits, capacity, voltsOf }: SizeQuestion,
): boolean {
  const good = capacity(run, size);
  const permitted = limits.permittedDeviceAmps(good, voltsOf(run)).amps;
  if (!isAllowed(run, size, limits)) return false;
  return good.amps >= design * (1 - 1e-9) && permitted >= device * (1 - 1e-9);
}

/** No thinner than the set lets any conductor be. */
function isAllowed(run: Run, size: ConductorSize, limits: LimitSet): boolean {
  const sheathed = run.cores.length > 1 || run.facts.says('sheathed');
  const least = leastAreaMm2(limits.base ?? limits.id, sheathed, run.lengthMetres);
  return least === undefined || isAtLeast(areaMm2(physicalSize(size)), least);
}

/** Larger sizes on the way of every load that loses too much, where they save most, until none does. */
function grow(open: readonly Open[], question: SizeQuestion): void {
  if (open.length === 0) return;
  const { installation } = question;
  const of = new Map(open.flatMap((one) => one.runs.map((run) => [run, one] as const)));
  const pointsNow = () =>
    question.points(new Map([...of].map(([run, { candidates, at }]) => [run, candidates[at] as ConductorSize])));
  feed(open, pointsNow);
  for (let round = 0; round < mostRounds; round++) {
    const points = pointsNow();
    let grown = false;
    for (const figures of loadFigures(installation, points).values()) {
      const { load } = figures;
      if (load.facts.says('cranking') || load.kind.word === 'charger') continue;
      const { ratio } = question.limits.drop(load.facts.says('essential'));
      const excess = figures.dropVolts - ratio * figures.supplyVolts;
      if (excess > 1e-9 * figures.supplyVolts && relieve(figures, excess, of, points, installation)) grown = true;
    }
    if (!grown) return;
  }
}

/**
 * Where the wiring cannot feed its loads at all there are no drops to go by: larger sizes until it can. Where it cannot with
 * any, that is not for its sizes, and they stay as they were.
 */
function feed(open: readonly Open[], pointsNow: () => readonly OperatingPoint[]): void {
  const before = open.map(({ at, why }) => ({ at, why }));
  for (let round = 0; ; round++) {
    if (pointsNow().every(({ converged }) => converged)) return;
    if (round === mostRounds || !open.map((one) => enlarge(one, 'so that its loads can be fed')).includes(true)) break;
  }
  open.forEach((one, i) => {
    Object.assign(one, before[i]);
  });
}

/** Enlarges the open runs on a load's way by what each would save there, from the greatest loss on; false when none can. */
function relieve(
  { load, cores, worstCase }: LoadFigures,
  excessVolts: number,
  of: ReadonlyMap<Run, Open>,
  points: readonly OperatingPoint[],
  { network }: Installation,
): boolean {
  const point = points.find(({ stated }) => stated.name === worstCase);
  if (point === undefined) return false;
  const onWay = new Set(cores);
  const lost = new Map<Open, number>();
  for (const edge of network.edges) {
    const one = edge.is === 'core' && onWay.has(edge.core) ? of.get(edge.core.run) : undefined;
    if (one !== undefined)
      lost.set(one, (lost.get(one) ?? 0) + Math.abs((point.amps[edge.index] ?? 0) * (point.ohms[edge.index] ?? 0)));
  }
  let [left, grown] = [excessVolts, false];
  while (left > 0) {
    const [worst] = [...lost]
      .filter(([{ at, candidates }]) => at + 1 < candidates.length)
      .sort(([, a], [, b]) => b - a);
    if (worst === undefined || !(worst[1] > 0)) return grown;
    const [one, volts] = worst;
    const run = one.runs[0] as Run;
    const before = coreOhmsAt20(run, one.candidates[one.at] as ConductorSize) ?? 0;
    if (!enlarge(one, `so that ${load.name} does not lose too much on the way`)) return grown;
    const after = coreOhmsAt20(run, one.candidates[one.at] as ConductorSize) ?? 0;
    const now = before > 0 ? (volts * after) / before : 0;
    lost.set(one, now);
    left -= volts - now;
    grown = true;
  }
  return grown;
}

function enlarge(one: Open, reason: string): boolean {
  if (one.at + 1 >= one.candidates.length) return false;
  one.at += 1;
  one.why = `the smallest standard size that is large enough ${reason}`;
  return true;
}

function figure(value: number): string {
  return value < 99.95 ? value.toFixed(1).replace(/\.0$/, '') : value.toFixed(0);
}
