/** Short circuits: how much would flow at every terminal and through every device, what stops it, and what the cables bear. */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { ConductorSize, Core, Part, Run, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import type { TableSource } from '../tables/table.ts';
import type { ContactFigures, CoreFigures } from './answers.ts';
import { type Clearing, clearing, curveOf, overall, timeOf, worstOf } from './clearing.ts';
import { coreOhmsAt20, insulationOf, physicalSize } from './conditions.ts';
import type { CoreFault, FaultAnswers, TerminalFault } from './fault-answers.ts';
import type { FaultView } from './fault-circuits.ts';
import { deviceEdge, faultContactsOf } from './fault-contacts.ts';
import { FaultOfDevice, type Surroundings } from './fault-of-device.ts';
import { type FaultPlace, FaultPlaces } from './fault-places.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';
import { LeastFaults } from './least-fault.ts';
import { mostFaultAmps } from './most-fault.ts';
import type { Protected } from './protected.ts';

export function faultAnswers(
  installation: Installation,
  sizes: ReadonlyMap<Run, ConductorSize>,
  cores: ReadonlyMap<Core, CoreFigures>,
  contacts: ReadonlyMap<string, readonly ContactFigures[]>,
  guard: Protected,
): FaultAnswers {
  return new Faults(installation, sizes, cores, contacts, guard).answers();
}

/** What one fault lets through. */
interface Passed {
  readonly amps: number;
  readonly seconds: number | undefined;
  readonly letThrough: number | undefined;
}

interface Judged extends Passed {
  readonly clears: Clearing;
  /** Of the fault, that which comes through the devices. */
  readonly share: number;
}

class Faults {
  /** Of a core of a run, in ohm; undefined while its size or length is not known. */
  private readonly ohmsAt20 = lazilyEach((run: Run) => coreOhmsAt20(run, this.sizes.get(run)));
  private readonly seen = lazily(() => new FaultPlaces(this.installation, this.ohmsAt20, this.cores));

  constructor(
    private readonly installation: Installation,
    private readonly sizes: ReadonlyMap<Run, ConductorSize>,
    private readonly cores: ReadonlyMap<Core, CoreFigures>,
    private readonly contacts: ReadonlyMap<string, readonly ContactFigures[]>,
    private readonly guard: Protected,
  ) {}

  /** What each device protects by itself. */
  private protectedAlone(): ReadonlyMap<ContactEdge, readonly CoreFigures[]> {
    const protects = new Map<ContactEdge, CoreFigures[]>();
    for (const figures of this.cores.values()) {
      const devices = this.clearing(figures);
      const edge = devices.length === 1 ? deviceEdge(this.installation.layout, devices[0]) : undefined;
      if (edge === undefined) continue;
      const known = protects.get(edge);
      if (known === undefined) protects.set(edge, [figures]);
      else known.push(figures);
    }
    return protects;
  }

  private clearing({ core, protection }: CoreFigures): CoreFigures['protection']['devices'] {
    const { edgeOf, wiring } = this.installation;
    const way = wiring.wayOf[edgeOf(core)?.index ?? -1];
    return way === undefined ? protection.devices : this.guard.protections.clearing(way);
  }

  private get places(): FaultPlaces {
    return this.seen();
  }

  private edgeOf(part: Part, pole: number): ContactEdge | undefined {
    return deviceEdge(this.installation.layout, { part, pole });
  }

  /** Everything is worked out when it is first asked for: a rule that needs one does not wait for the others. */
  answers(): FaultAnswers {
    const ofTerminal = lazilyEach((terminal: Terminal) => this.terminalFault(terminal));
    const ofCore = lazilyEach((core: Core) => {
      const figures = this.cores.get(core);
      return figures === undefined ? undefined : this.coreFault(figures);
    });
    const contacts = () => faultContactsOf(this.installation.layout);
    const least = lazily(() => new LeastFaults(this.installation, this.guard.protections, this.guard.served));
    const protects = lazily(() => this.protectedAlone());
    const around: Surroundings = {
      installation: this.installation,
      places: this.seen,
      changing: () => contacts().changing(),
      least,
      protectedBy: (device) => protects().get(device) ?? [],
      ratedAmps: (part, pole) => this.ratedAmps(part, pole),
    };
    const ofEdge = lazilyEach((edge: ContactEdge) => new FaultOfDevice(edge, around));
    const most = lazily(() => mostFaultAmps(this.installation));
    const [terminals, cores, devices] = [
      lazily(() => new Map(this.installation.wiring.terminals.map((terminal) => [terminal.id, ofTerminal(terminal)]))),
      lazily(() => new Map([...this.cores].map(([core, figures]) => [core, ofCore(core) ?? this.coreFault(figures)]))),
      lazily(() => groupBy([...contacts().devices.values()].flat().map(ofEdge), ({ part }) => part.name)),
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
      ofTerminal,
      ofCore,
      ofDevice: (part, pole) => {
        const edge = this.edgeOf(part, pole);
        return edge === undefined ? undefined : ofEdge(edge);
      },
      mostThrough: (part, pole) => {
        const edge = this.edgeOf(part, pole);
        return edge === undefined ? 0 : most()(edge);
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

  private ratedAmps(part: Part, pole: number): number | undefined {
    return this.contacts.get(part.name)?.find((one) => one.pole === pole)?.device?.amps;
  }

  private coreFault(figures: CoreFigures): CoreFault {
    const { core, beforeFirstDevice } = figures;
    const far = this.places.farEnd(core);
    const near = this.places.nearEnd(figures);
    const { run } = core;
    const devices = this.clearing(figures);
    const size = this.sizes.get(run);
    const bears =
      size === undefined ? undefined : withstandI2t(physicalSize(size), { celsius: insulationOf(run) }, run.material);
    const base = {
      core,
      farEnd: far?.end,
      leastAmps: far?.amps,
      greatestAmps: near?.amps,
      // The first device stands behind it: what the battery drives into a fault before that passes no device.
      devices: beforeFirstDevice ? [] : devices,
      withstand: bears?.i2t,
      k: bears?.k,
    };
    const judged: Judged[] = [];
    const sources = new Set<TableSource>(bears?.sources ?? []);
    const judge = (view: FaultView, place: FaultPlace) => {
      const here = this.clearedIn(view, place, devices, sources);
      if (here !== undefined) judged.push(here);
    };
    if (far !== undefined && !beforeFirstDevice)
      for (const { view, amps } of this.places.aloneBetween(far.end, far.to)) judge(view, { ...far, amps });
    if (near !== undefined && !beforeFirstDevice) judge(this.places.all, near);
    const ownClear = beforeFirstDevice ? 'never' : overall(judged.map((one) => one.clears));
    // What comes home by a return may have come past another device than that of the source on it, which has then nothing to say.
    const byAnother = figures.isReturn && judged.length > 0 && judged.every(({ share }) => share < 0.5);
    const clears = byAnother ? 'not known' : ownClear;
    const sure = clears === 'surely' ? judged : [];
    const seconds = sure.length === 0 ? undefined : Math.max(...sure.map((one) => one.seconds ?? 0));
    // Between the least and the greatest fault more may be let through than at either.
    const passed: Passed[] = [...sure, ...(sure.length === 0 ? [] : this.between(devices, far?.amps, near?.amps))];
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
      ...(byAnother ? { devices: [] } : {}),
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
    let carried = 0;
    for (const { part, pole } of devices) {
      const edge = this.edgeOf(part, pole);
      if (edge === undefined) continue;
      const through = view.through(edge, end, to);
      if (through <= amps / 100) continue;
      carried += through;
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
      share: carried / amps,
      seconds: clears === 'surely' ? seconds : undefined,
      letThrough: clears === 'surely' ? amps * amps * seconds : undefined,
    };
  }
}
