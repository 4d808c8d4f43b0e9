/**
 * What flows for a time only: loads that run for seconds (`for`), what loads take when they start (`surge`), and starter
 * motors (`cranking`). The design currents of the cases have the first at full and the others not at all; here each is
 * taken apart by solving the case once more without it, or with it. One load starts at a time (common practice, no source).
 */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Case, Part, Terminal } from '../model/model.ts';
import type { SolvedBefore } from '../physics/solved-before.ts';
import type { ShortCurrent } from './answers.ts';
import { systemsOf } from './apart.ts';
import type { Settling } from './contacts-in-case.ts';
import { ampsThrough } from './design-currents.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';
import { isOn } from './loads.ts';
import { type OperatingPoint, operatingPoint } from './operating-points.ts';
import { type Draw, designAmpsOf, efficiencyOf, lowestInputVolts } from './ports.ts';
import type { Electrics } from './run-electrics.ts';
import { leastWhileStarting } from './start-bound.ts';
import type { Way } from './wiring.ts';

/** How long a starter motor turns where nothing is said (common practice, no source), in second. */
export const usualCrankingSeconds = 10;
const secondsOfDay = 86_400;

/** Currents of a way in a case, positive from a to b: what lasts, and what comes on top of it, the longest first. */
export interface CaseFlow {
  readonly caseName: string;
  readonly lastingAmps: number;
  readonly runs: readonly ShortCurrent[];
}

/** A case without its short-time loads, then with those that run longest, and so on to the case as it is. */
interface Layers {
  readonly lasting: OperatingPoint;
  readonly layers: readonly {
    readonly seconds: number;
    readonly loads: readonly Draw[];
    readonly point: OperatingPoint;
  }[];
}

/** A load at what it takes when it starts, in ampere, in a case that has it on. */
interface StartingPoint {
  readonly draw: Draw;
  readonly amps: number;
  readonly point: OperatingPoint;
}

interface Start {
  readonly draw: Draw;
  readonly amps: number;
  readonly seconds: number | undefined;
}

/** A start in a case that has its load on, and the case as it is without. */
interface Starting {
  readonly start: Start;
  readonly usual: OperatingPoint;
  readonly system: number;
  point(): OperatingPoint;
}

export class Duty {
  private readonly layered: readonly (() => Layers)[];
  private readonly surges: readonly Start[];
  private readonly starting: () => readonly Starting[];
  /** The most that a start adds, by case. */
  private readonly surgeIn: () => readonly number[];
  private readonly systemOf: (terminal: Terminal) => number;
  private readonly startingIn: () => ReadonlyMap<number, readonly Starting[]>;
  private readonly cranking: () => readonly { readonly start: Start; readonly point: OperatingPoint }[];
  /** The most that a load takes more when it starts than when it runs, in ampere; of those that say for how long. */
  readonly greatestSurgeAmps: number;

  /** `points` are the cases worked out for design currents, with `electrics`. */
  constructor(
    private readonly installation: Installation,
    private readonly electrics: Electrics,
    private readonly points: readonly OperatingPoint[],
    private readonly before: SolvedBefore,
  ) {
    this.layered = points.map((point) => lazily(() => this.layersOf(point)));
    this.surges = installation.draws.flatMap((draw) => this.surgeOf(draw));
    this.greatestSurgeAmps = this.mostSurge(() => true);
    this.surgeIn = lazily(() => points.map(({ stated }) => this.mostSurge((draw) => isOn(draw, stated))));
    this.systemOf = systemsOf(installation.layout);
    this.starting = lazily(() => this.startingOf());
    this.startingIn = lazily(() => groupBy(this.starting(), ({ system }) => system));
    this.cranking = lazily(() =>
      installation.draws.filter((draw) => draw.cranking).flatMap((draw) => this.cranked(draw)),
    );
  }

  /** No less than some draws take together at any time, cranking left out, with one of them starting; of inputs all that they can. */
  mostOf(draws: readonly Draw[]): number {
    const running = draws.reduce((sum, draw) => sum + this.mostRunningAmps(draw), 0);
    return running + this.mostSurge((draw) => draws.includes(draw));
  }

  /** The most that one of some loads takes more when it starts than when it runs, in ampere; of those that say for how long. */
  private mostSurge(isMeant: (draw: Draw) => boolean): number {
    return this.surges.reduce(
      (most, { draw, amps, seconds }) =>
        seconds !== undefined && isMeant(draw) ? Math.max(most, amps - this.runningAmps(draw)) : most,
      0,
    );
  }

  /**
   * No less than a way carries while a load starts, of which is said for how long: in each case what it carries there, at most
   * `designAmps`, and that load besides.
   */
  mostWhileStarting(way: Way, designAmps: number): number {
    return this.points.reduce((most, point, i) => {
      const amps = point.converged ? Math.abs(this.through(way, point)) : designAmps;
      return Math.max(most, amps + (this.surgeIn()[i] ?? 0));
    }, designAmps);
  }

  /** Infinity where nothing tells it. */
  private mostRunningAmps(draw: Draw): number {
    const { cranking, is, as, part } = draw;
    if (cranking) return 0;
    // No source holds twice the nominal voltage across what it feeds.
    if (as === 'resistance' && this.installation.usualFeeder(draw) !== undefined) return 2 * this.runningAmps(draw);
    // Panels, load outputs and chargers take what others make of it; a converter is asked for no more than its output.
    const isKnown = as !== 'resistance' && (is === 'load' || (is === 'input' && part.kind.word === 'converter'));
    return isKnown ? this.runningAmps(draw) : Number.POSITIVE_INFINITY;
  }

  flows(way: Way): CaseFlow[] {
    return this.points.flatMap((point, i): CaseFlow[] => {
      const layered = this.layered[i]?.();
      if (layered === undefined || !layered.lasting.converged) return [];
      const lastingAmps = this.through(way, layered.lasting);
      let before = lastingAmps;
      const runs = layered.layers.flatMap(({ seconds, loads, point: at }): ShortCurrent[] => {
        const amps = this.through(way, at);
        const changes = at.converged && Math.abs(amps - before) > share * Math.abs(before) + least;
        before = amps;
        if (!changes) return [];
        const parts = partsOf(loads);
        return [{ is: 'runs', loads: parts, amps, seconds, duty: dutyOf(parts), caseName: point.stated.name }];
      });
      return [{ caseName: point.stated.name, lastingAmps, runs }];
    });
  }

  /** Where a load that starts brings a way more than it carries in that case; `timed`: of which is said how long. */
  starts(way: Way, timed = false): ShortCurrent[] {
    const [edge] = way.edges;
    const here = edge === undefined ? [] : (this.startingIn().get(this.systemOf(edge.from)) ?? []);
    return here.flatMap(({ start: { draw, seconds }, usual, point }): ShortCurrent[] => {
      if (timed && seconds === undefined) return [];
      const [amps, before] = [this.through(way, point()), this.through(way, usual)];
      if (!point().converged || !isMore(amps, before)) return [];
      return [{ is: 'starts', loads: [draw.part], amps, seconds, duty: undefined, caseName: usual.stated.name }];
    });
  }

  cranks(way: Way): ShortCurrent[] {
    return this.cranking().flatMap(({ start, point }): ShortCurrent[] => {
      const usual = this.points.find(({ stated }) => stated === point.stated);
      const [amps, before] = [this.through(way, point), usual === undefined ? 0 : this.through(way, usual)];
      if (!point.converged || !isMore(amps, before)) return [];
      const { draw, seconds } = start;
      return [{ is: 'cranks', loads: [draw.part], amps, seconds, duty: undefined, caseName: point.stated.name }];
    });
  }

  /** Cases with a starter motor turning, for its volts. */
  get crankingPoints(): readonly StartingPoint[] {
    return this.cranking().map(({ start: { draw, amps }, point }) => ({ draw, amps, point }));
  }

  /** Cases with a load that starts, for its volts. */
  startingPoints(load: Part): readonly StartingPoint[] {
    return this.starting()
      .filter(({ start }) => start.draw.part === load)
      .map(({ start: { draw, amps }, point }) => ({ draw, amps, point: point() }));
  }

  /** No less than stands across a load in any case while it starts, in volt; undefined where nothing tells it without a closer look. */
  leastWhileStarting(load: Part): number | undefined {
    let least = Number.POSITIVE_INFINITY;
    for (const { draw, amps } of this.surges) {
      if (draw.part !== load) continue;
      for (const usual of this.points) {
        if (!isOn(draw, usual.stated)) continue;
        const volts = leastWhileStarting(this.installation, draw, amps, usual);
        if (volts === undefined) return undefined;
        least = Math.min(least, volts);
      }
    }
    return least;
  }

  /** One load starts at a time; of systems that nothing joins one each, which costs no more than one. */
  private startingOf(): Starting[] {
    const all: (Omit<Starting, 'point'> & { readonly together: string; readonly place: number })[] = [];
    const counts = new Map<string, number>();
    for (const start of this.surges)
      for (const [i, usual] of this.points.entries()) {
        if (!isOn(start.draw, usual.stated)) continue;
        const system = this.systemOf(start.draw.plus);
        // What is not timed is not asked for by who asks for timed starts.
        const kind = `${i} ${start.seconds === undefined}`;
        const before = counts.get(`${kind} ${system}`) ?? 0;
        counts.set(`${kind} ${system}`, before + 1);
        all.push({ start, usual, system, together: `${kind} ${before}`, place: all.length });
      }
    return [...groupBy(all, ({ together }) => together).values()]
      .flatMap((some) => {
        const common = lazily(() => this.startedFrom(some));
        return some.map((one) => {
          const alone = lazily(() => this.startedFrom([one]));
          const point = () => (some.length === 1 || common().converged ? common() : alone());
          return { ...one, point };
        });
      })
      .sort((one, other) => one.place - other.place);
  }

  /** Of starts in one case. */
  private startedFrom(starts: readonly Omit<Starting, 'point'>[]): OperatingPoint {
    const [first] = starts as readonly [Omit<Starting, 'point'>];
    const amounts = starts.map(({ start: { draw, amps } }) => [draw, { as: 'current', amount: amps }] as const);
    // A load starts while the rest runs: relays stand as they do then.
    return this.solved(first.usual.stated, new Map(amounts), first.usual.settling);
  }

  private through(way: Way, point: OperatingPoint): number {
    return ampsThrough(way, this.installation, point);
  }

  private readonly runningAmps = lazilyEach((draw: Draw): number => {
    const { nominalOf, usualFeeder } = this.installation;
    return designAmpsOf(draw, nominalOf(usualFeeder(draw)));
  });

  /** An inverter gives its surge as output. */
  private surgeOf(draw: Draw): Start[] {
    const { part, is, cranking } = draw;
    const { nominalOf, usualFeeder } = this.installation;
    const said = part.facts.slot('surge', part.kind.behaviour.is === 'inverter' ? 'power' : 'surge')?.atom;
    const amount = said?.kind === 'quantity' ? said.si : undefined;
    if (is !== 'load' || cranking || said?.kind !== 'quantity' || amount === undefined) return [];
    const volts = lowestInputVolts(draw, nominalOf(usualFeeder(draw)));
    const efficiency = part.kind.behaviour.is === 'inverter' ? efficiencyOf(part) : 1;
    const amps = said.dimension === 'current' ? amount : amount / efficiency / volts;
    const seconds = part.facts.number('surge', 'time');
    if (!Number.isFinite(amps) || !(amps > this.runningAmps(draw))) return [];
    return [{ draw, amps, seconds: seconds !== undefined && seconds > 0 ? seconds : undefined }];
  }

  private layersOf(point: OperatingPoint): Layers {
    const { stated } = point;
    const short = this.installation.draws.filter((draw) => secondsOf(draw) !== undefined && isOn(draw, stated));
    if (short.length === 0) return { lasting: point, layers: [] };
    const without = (draws: readonly Draw[]) => (draws.length === 0 ? point : this.solved(switchedOff(stated, draws)));
    const groups = [...groupBy(short, (draw) => secondsOf(draw) ?? 0)].sort(([one], [other]) => other - one);
    return {
      lasting: without(short),
      layers: groups.map(([seconds, loads]) => ({
        seconds,
        loads,
        point: without(short.filter((draw) => (secondsOf(draw) ?? 0) < seconds)),
      })),
    };
  }

  /** In every stated case that has it on, else with everything else off. */
  private cranked(draw: Draw): { readonly start: Start; readonly point: OperatingPoint }[] {
    const start = { draw, amps: this.runningAmps(draw), seconds: draw.part.facts.number('for') };
    const cases = this.points.map(({ stated }) => stated).filter((stated) => isOn(draw, stated));
    const [first] = this.points;
    const alone = first === undefined ? [] : [crankedAlone(first.stated, draw)];
    return (cases.length > 0 ? cases : alone).map((stated) => ({
      start,
      point: this.solved(stated, new Map([[draw, { cranking: false }]])),
    }));
  }

  private solved(stated: Case, changes: ReadonlyMap<Draw, Partial<Draw>> = new Map(), from?: Settling): OperatingPoint {
    const draws = this.installation.draws.map((draw) => {
      const change = changes.get(draw);
      return change === undefined ? draw : { ...draw, ...change };
    });
    return operatingPoint({ ...this.installation, draws }, this.electrics, stated, 'design', this.before, from);
  }
}

/** What a way carries more than this, as part and in ampere, is more: what warms otherwise shifts the rest a little. */
const share = 0.001;
const least = 0.001;

function isMore(amps: number, before: number): boolean {
  return Math.abs(amps) > Math.abs(before) * (1 + share) + least;
}

/** How long a short-time load runs; undefined for what runs as long as it is wanted. */
function secondsOf({ is, cranking, part }: Draw): number | undefined {
  const seconds = is === 'load' && !cranking ? part.facts.number('for') : undefined;
  return seconds !== undefined && seconds > 0 ? seconds : undefined;
}

/** Share of the day that some of them run, taking turns; undefined where none says. */
function dutyOf(loads: readonly Part[]): number | undefined {
  const hours = loads.flatMap(({ facts }) => facts.number('hours') ?? []);
  return hours.length === 0 ? undefined : Math.min(1, hours.reduce((sum, one) => sum + one, 0) / secondsOfDay);
}

function switchedOff(stated: Case, draws: readonly Draw[]): Case {
  return { ...stated, on: new Map([...stated.on, ...draws.map(({ part }) => [part.name, false] as const)]) };
}

function crankedAlone(stated: Case, { part }: Draw): Case {
  return {
    ...stated,
    name: `${part.name} cranking`,
    implied: false,
    sun: undefined,
    on: new Map([[part.name, true]]),
    allLoads: undefined,
    allSources: undefined,
  };
}

function partsOf(draws: readonly Draw[]): Part[] {
  return [...new Set(draws.map(({ part }) => part))];
}
