/** Short circuits: how much would flow at every terminal and through every device, what stops it, and what the cables bear. */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { ConductorSize, Core, Part, Run, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import type { TableSource } from '../tables/table.ts';
import type { ContactFigures, CoreFigures } from './answers.ts';
import { backUpOf } from './back-up.ts';
import {
  breakingCapacity,
  type Clearing,
  type Curve,
  clearing,
  curveOf,
  finite,
  overall,
  timeOf,
  worstOf,
} from './clearing.ts';
import { insulationOf, physicalSize } from './conditions.ts';
import type { CoreFault, DeviceFault, FaultAnswers, TerminalFault } from './fault-answers.ts';
import { type FaultView, mostFaultAmps } from './fault-circuits.ts';
import { type FaultPlace, FaultPlaces } from './fault-places.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';

export function faultAnswers(
  installation: Installation,
  sizes: ReadonlyMap<Run, ConductorSize>,
  cores: ReadonlyMap<Core, CoreFigures>,
  contacts: ReadonlyMap<string, readonly ContactFigures[]>,
): FaultAnswers {
  return new Faults(installation, sizes, cores, contacts).answers();
}

/** What one fault lets through. */
interface Passed {
  readonly amps: number;
  readonly seconds: number | undefined;
  readonly letThrough: number | undefined;
}

interface Judged extends Passed {
  readonly clears: Clearing;
}

/** The least fault through a device, where, and who drives it. */
interface Least {
  readonly amps: number;
  readonly core: Core;
  readonly battery: boolean;
}

/** Currents that differ by less than this part of themselves are as much as each other. */
const tie = 1e-6;

class Faults {
  private readonly places: FaultPlaces;
  private readonly edges = new Map<string, ContactEdge>();
  /** Some contacts part one way while they close another, so that the nearest way may not be there. */
  private readonly changing: boolean;

  constructor(
    private readonly installation: Installation,
    private readonly sizes: ReadonlyMap<Run, ConductorSize>,
    private readonly cores: ReadonlyMap<Core, CoreFigures>,
    private readonly contacts: ReadonlyMap<string, readonly ContactFigures[]>,
  ) {
    this.places = new FaultPlaces(installation, sizes, cores);
    const { at, edges } = installation.network;
    const isWired = ({ id }: Terminal) => at.get(id)?.some(({ is }) => is === 'core' || is === 'bar') === true;
    this.changing = edges.some(
      (edge) =>
        edge.is === 'contact' &&
        ['coil-rest', 'position'].includes(edge.contact.operated) &&
        isWired(edge.from) &&
        isWired(edge.to),
    );
    for (const edge of installation.network.edges)
      if (edge.is === 'contact' && edge.contact.protects) this.edges.set(key(edge.part, edge.contact.pole), edge);
  }

  /** Everything is worked out when it is first asked for: a rule that needs one does not wait for the others. */
  answers(): FaultAnswers {
    const ofTerminal = lazilyEach((terminal: Terminal) => this.terminalFault(terminal));
    const ofCore = lazilyEach((core: Core) => {
      const figures = this.cores.get(core);
      return figures === undefined ? undefined : this.coreFault(figures);
    });
    const protectedBy = lazily(() =>
      groupBy(
        [...this.cores.values()].flatMap((figures) =>
          // Of several devices each has a share only, which says nothing about whether all of them open.
          figures.protection.devices.length === 1
            ? figures.protection.devices.map(({ part, pole }) => ({ figures, device: key(part, pole) }))
            : [],
        ),
        ({ device }) => device,
      ),
    );
    const ofEdge = lazilyEach((edge: ContactEdge) => {
      const protects = protectedBy().get(key(edge.part, edge.contact.pole)) ?? [];
      return this.deviceFault(
        edge,
        protects.map(({ figures }) => figures),
      );
    });
    const bound = lazily(() => mostFaultAmps(this.installation));
    const [terminals, cores, devices] = [
      lazily(() => new Map(this.installation.wiring.terminals.map((terminal) => [terminal.id, ofTerminal(terminal)]))),
      lazily(() => new Map([...this.cores].map(([core, figures]) => [core, ofCore(core) ?? this.coreFault(figures)]))),
      lazily(() => groupBy([...this.edges.values()].map(ofEdge), ({ part }) => part.name)),
    ];
    return {
      get terminals() {
        return terminals();
      },
      get cores() {
        return cores();
      },
      get devices() {
        return devices();
      },
      get boundAmps() {
        return bound();
      },
      ofTerminal,
      ofCore,
      ofDevice: (part, pole) => {
        const edge = this.edges.get(key(part, pole));
        return edge === undefined ? undefined : ofEdge(edge);
      },
    };
  }

  private terminalFault(terminal: Terminal): TerminalFault {
    const [greatest, least] = [this.places.greatestAt(terminal), this.places.leastAt(terminal)];
    return {
      terminal,
      greatestAmps: greatest?.amps,
      greatestTo: greatest?.to,
      leastAmps: least?.amps,
      leastTo: least?.to,
    };
  }

  private deviceFault(edge: ContactEdge, protects: readonly CoreFigures[]): DeviceFault {
    const { part, contact, from, to } = edge;
    const { pole } = contact;
    const ratedAmps = this.ratedAmps(part, pole);
    const faultBehind = (end: Terminal) => {
      const other = this.places.greatestAt(end)?.to;
      return other === undefined ? 0 : this.places.all.through(edge, end, other);
    };
    const curve = curveOf(part);
    const greatest = lazily(() => {
      const [backwardAmps, forwardAmps] = [faultBehind(from), faultBehind(to)];
      const amps = Math.max(backwardAmps, forwardAmps);
      return { backwardAmps, forwardAmps, amps, time: timeOf(curve, ratedAmps, amps) };
    });
    const breaks = breakingCapacity(part, ratedAmps);
    const least = lazily(() => this.leastThrough(edge, protects));
    const leastAmps = () => least()?.amps;
    const backUp = lazily(() =>
      backUpOf(this.installation, edge, greatest(), breaks?.amps ?? 0, (device) =>
        breakingCapacity(device.part, this.ratedAmps(device.part, device.contact.pole)),
      ),
    );
    const weakest = lazily(() => timeOf(curve, ratedAmps, leastAmps()));
    const clears = lazily((): Clearing => {
      const far = this.clearedFromAfar(ratedAmps, curve, protects);
      if (far !== undefined) return far;
      const { amps, time } = greatest();
      const small = leastAmps();
      return small === undefined ? clearing(ratedAmps, amps, amps, time) : clearing(ratedAmps, amps, small, weakest());
    });
    // Everything waits until somebody asks.
    return {
      part,
      pole,
      ratedAmps,
      breaks,
      curve: curve?.from,
      get greatestAmps() {
        return greatest().amps;
      },
      get forwardAmps() {
        return greatest().forwardAmps;
      },
      get backwardAmps() {
        return greatest().backwardAmps;
      },
      get greatestSeconds() {
        return finite(greatest().time?.most);
      },
      get leastAmps() {
        return leastAmps();
      },
      get leastAt() {
        return least()?.core;
      },
      get leastByBattery() {
        return least()?.battery === true;
      },
      get backedUpBy() {
        return breaks === undefined ? [] : backUp();
      },
      get leastSeconds() {
        return finite(weakest()?.most);
      },
      get clears() {
        return clears();
      },
    };
  }

  /** Whether a device opens, where the nearest way out and back to what it protects tells that it has enough to. */
  private clearedFromAfar(
    ratedAmps: number | undefined,
    curve: Curve | undefined,
    protects: readonly CoreFigures[],
  ): Clearing | undefined {
    const judged = protects.filter(({ core }) => this.places.ohmsAt20(core.run) !== undefined);
    if (ratedAmps === undefined || judged.length === 0 || this.changing) return undefined;
    const opensFrom =
      curve === undefined
        ? 1
        : Math.min(...curve.gates.flatMap(({ multiple, most }) => (most === undefined ? [] : multiple)));
    const enough = 1.01 * opensFrom * ratedAmps;
    const sure = judged.every(({ core }) => (this.places.leastBound(core) ?? 0) > enough);
    return sure ? (curve === undefined ? 'not known' : 'surely') : undefined;
  }

  /** Least through a device of what faults at the far ends of what it protects bring. */
  private leastThrough(edge: ContactEdge, protects: readonly CoreFigures[]): Least | undefined {
    let least: Least | undefined;
    for (const figures of protects) {
      const at = this.places.farEnd(figures.core);
      if (at === undefined) continue;
      for (const { view, amps, battery } of this.places.aloneBetween(at.end, at.to)) {
        const through = view.through(edge, at.end, at.to);
        // A source that reaches the fault another way leaves this device to what comes through it.
        if (through <= amps / 100) continue;
        // Where it is as much at several ends, neither the last digit chooses nor the order of statements.
        const isFirst =
          least !== undefined && through <= least.amps * (1 + tie) && figures.core.run.name < least.core.run.name;
        if (least === undefined || through < least.amps * (1 - tie) || isFirst)
          least = { amps: through, core: figures.core, battery };
      }
    }
    return least;
  }

  private ratedAmps(part: Part, pole: number): number | undefined {
    return this.contacts.get(part.name)?.find((one) => one.pole === pole)?.device?.amps;
  }

  private coreFault(figures: CoreFigures): CoreFault {
    const { core, protection, beforeFirstDevice } = figures;
    const far = this.places.farEnd(core);
    const near = this.places.nearEnd(figures);
    const { run } = core;
    const size = this.sizes.get(run);
    const bears =
      size === undefined ? undefined : withstandI2t(physicalSize(size), { celsius: insulationOf(run) }, run.material);
    const base = {
      core,
      farEnd: far?.end,
      leastAmps: far?.amps,
      greatestAmps: near?.amps,
      // The first device stands behind it: what the battery drives into a fault before that passes no device.
      devices: beforeFirstDevice ? [] : protection.devices,
      withstand: bears?.i2t,
      k: bears?.k,
    };
    const judged: Judged[] = [];
    const sources = new Set<TableSource>(bears?.sources ?? []);
    const judge = (view: FaultView, place: FaultPlace) => {
      const here = this.clearedIn(view, place, protection.devices, sources);
      if (here !== undefined) judged.push(here);
    };
    if (far !== undefined && !beforeFirstDevice)
      for (const { view, amps } of this.places.aloneBetween(far.end, far.to)) judge(view, { ...far, amps });
    if (near !== undefined && !beforeFirstDevice) judge(this.places.all, near);
    const clears = beforeFirstDevice ? 'never' : overall(judged.map((one) => one.clears));
    const sure = clears === 'surely' ? judged : [];
    const seconds = sure.length === 0 ? undefined : Math.max(...sure.map((one) => one.seconds ?? 0));
    // Between the least and the greatest fault more may be let through than at either.
    const passed: Passed[] = [
      ...sure,
      ...(sure.length === 0 ? [] : this.between(protection.devices, far?.amps, near?.amps)),
    ];
    const most = passed.reduce<(typeof passed)[number] | undefined>(
      (best, one) => (best === undefined || (one.letThrough ?? 0) > (best.letThrough ?? 0) ? one : best),
      undefined,
    );
    const letThrough = most === undefined ? undefined : (most.letThrough ?? 0);
    const holds = letThrough === undefined || bears === undefined ? undefined : letThrough <= bears.i2t;
    const quick = passed.some(
      (one) => (one.letThrough ?? 0) > (bears?.i2t ?? 0) && (one.seconds ?? 0) <= adiabaticSeconds,
    );
    return {
      ...base,
      clears,
      seconds,
      letThrough,
      letThroughAt: most && { amps: most.amps, seconds: most.seconds ?? 0 },
      withstands: holds === false && !quick ? undefined : holds,
      sources: [...sources],
    };
  }

  /** What the gates of a single device let through at currents in between. */
  private between([device, second]: CoreFigures['protection']['devices'], least = 0, greatest = 0): Passed[] {
    const rated = device === undefined || second !== undefined ? undefined : this.ratedAmps(device.part, device.pole);
    if (device === undefined || rated === undefined) return [];
    return (curveOf(device.part)?.gates ?? []).flatMap(({ multiple, most }) => {
      const amps = multiple * rated;
      return most === undefined || amps <= least || amps >= greatest
        ? []
        : [{ amps, seconds: most, letThrough: amps * amps * most }];
    });
  }

  /** One fault and the devices that would clear it: all through which it is fed must have opened. */
  private clearedIn(
    view: FaultView,
    { end, to, amps }: FaultPlace,
    devices: CoreFigures['protection']['devices'],
    sources: Set<TableSource>,
  ): Judged | undefined {
    let clears: Clearing | undefined;
    let seconds = 0;
    for (const { part, pole } of devices) {
      const edge = this.edges.get(key(part, pole));
      if (edge === undefined) continue;
      const through = view.through(edge, end, to);
      if (through <= amps / 100) continue;
      const curve = curveOf(part);
      const time = timeOf(curve, this.ratedAmps(part, pole), through);
      if (curve !== undefined && curve.from !== 'stated') sources.add(curve.from);
      const here = clearing(this.ratedAmps(part, pole), through, through, time);
      clears = clears === undefined ? here : worstOf([clears, here]);
      seconds = Math.max(seconds, time?.most ?? 0);
    }
    if (clears === undefined) return undefined;
    return {
      amps,
      clears,
      seconds: clears === 'surely' ? seconds : undefined,
      letThrough: clears === 'surely' ? amps * amps * seconds : undefined,
    };
  }
}

function key(part: Part, pole: number): string {
  return `${part.name} ${pole}`;
}
