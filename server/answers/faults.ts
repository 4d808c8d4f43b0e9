/**
 * Short circuits: how much would flow, and what stops it. A fault is between a terminal and the other pole of its circuit: of
 * a part with a plus and a minus its own other terminal; else, for the greatest current, the other terminal of a source that
 * feeds it, and for the least that of the nearest load that it serves.
 */
import type { ConductorSize, Core, Part, Run, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import { type OperatingTime, operatingTime } from '../physics/operating-time.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import { usualBreakingCapacity } from '../tables/breaking-capacity.ts';
import { fuseGates, type Gate } from '../tables/fuse-gates.ts';
import type { TableSource } from '../tables/table.ts';
import type { ContactFigures, CoreFigures } from './answers.ts';
import { coreOhmsAt20, insulationOf, physicalSize } from './conditions.ts';
import { type FaultView, faultView, lazily } from './fault-circuits.ts';
import { groupBy } from './grouping.ts';
import { type Installation, isBattery } from './installation.ts';
import type { Source } from './ports.ts';

export interface TerminalFault {
  readonly terminal: Terminal;
  /** Undefined where no source reaches it with both poles. */
  readonly greatestAmps: number | undefined;
  readonly leastAmps: number | undefined;
  /** The other terminal of the greatest and of the least fault. */
  readonly greatestTo: Terminal | undefined;
  readonly leastTo: Terminal | undefined;
}

/**
 * Whether a device opens: `surely`; `never`, because no fault brings it more than its rating; `not surely`, because the
 * least fault is below what it must open at; `not known`, because nothing tells its curve.
 */
export type Clearing = 'surely' | 'never' | 'not surely' | 'not known';

/** A figure that the spec states, or a table that stands in for it. */
export type Origin = 'stated' | TableSource;

export interface DeviceFault {
  readonly part: Part;
  readonly pole: number;
  readonly ratedAmps: number | undefined;
  /** Through it, for a fault right behind it on the side where that is more. */
  readonly greatestAmps: number;
  /** Through it, for the least fault at the far end of anything that it protects. */
  readonly leastAmps: number | undefined;
  /** Breaking capacity; undefined where it is neither stated nor usual for the style. */
  readonly breaks: { readonly amps: number; readonly from: Origin } | undefined;
  readonly clears: Clearing;
  /** Where its times come from; undefined where nothing tells them. */
  readonly curve: Origin | undefined;
  /** Time to clear the greatest and the least fault at the latest, in second; undefined where it is not sure to. */
  readonly greatestSeconds: number | undefined;
  readonly leastSeconds: number | undefined;
}

export interface CoreFault {
  readonly core: Core;
  /** Least current at its far end; undefined while its resistance is not known or nothing drives it. */
  readonly farEnd: Terminal | undefined;
  readonly leastAmps: number | undefined;
  /** Greatest at its nearer end. */
  readonly greatestAmps: number | undefined;
  /** Devices that would clear it. */
  readonly devices: readonly { readonly part: Part; readonly pole: number }[];
  readonly clears: Clearing;
  /** Longest that a fault on it lasts, in second. */
  readonly seconds: number | undefined;
  /** Greatest I²t let through, and what the core bears by k²S², in A²s. */
  readonly letThrough: number | undefined;
  readonly withstand: number | undefined;
  readonly k: number | undefined;
  /**
   * Undefined where a figure is missing, and where more is let through but over more than 5 s: then the conductor gives heat
   * off, and it is its rating that protects it.
   */
  readonly withstands: boolean | undefined;
  readonly sources: readonly TableSource[];
}

export interface FaultAnswers {
  readonly terminals: ReadonlyMap<string, TerminalFault>;
  readonly cores: ReadonlyMap<Core, CoreFault>;
  /** By name, then pole. */
  readonly devices: ReadonlyMap<string, readonly DeviceFault[]>;
}

export const noFaults: FaultAnswers = { terminals: new Map(), cores: new Map(), devices: new Map() };

/** What feeds a fault as one: batteries in series, a string of panels, or one source. */
interface Feed {
  readonly sources: readonly Source[];
  readonly plus: Terminal;
  readonly minus: Terminal;
  readonly battery: boolean;
  readonly view: FaultView;
  /** Resistance from one of its poles to a terminal, to tell near from far; strings of panels have none. */
  cost(pole: 'plus' | 'minus', terminal: Terminal): number;
}

export function faultAnswers(
  installation: Installation,
  sizes: ReadonlyMap<Run, ConductorSize>,
  cores: ReadonlyMap<Core, CoreFigures>,
  contacts: ReadonlyMap<string, readonly ContactFigures[]>,
): FaultAnswers {
  return new Faults(installation, sizes, cores, contacts).answers();
}

class Faults {
  private readonly all: FaultView;
  private readonly feeds: readonly Feed[];
  private readonly edges = new Map<string, ContactEdge>();
  private readonly least = new Map<string, ReturnType<Faults['leastOf']>>();
  private readonly greatest = new Map<string, ReturnType<Faults['greatestOf']>>();

  constructor(
    private readonly installation: Installation,
    private readonly sizes: ReadonlyMap<Run, ConductorSize>,
    private readonly cores: ReadonlyMap<Core, CoreFigures>,
    private readonly contacts: ReadonlyMap<string, readonly ContactFigures[]>,
  ) {
    const { sources, supplies, strings, network } = installation;
    const ohms = (run: Run) => this.ohmsAt20(run);
    this.all = faultView(installation, ohms, 'greatest', sources);
    const alone = (some: readonly Source[]) => faultView(installation, ohms, 'least', some);
    this.feeds = [
      ...supplies.map((supply) => ({
        ...supply,
        battery: isBattery(supply),
        view: alone(supply.sources),
        cost(pole: 'plus' | 'minus', terminal: Terminal) {
          const { out, back } = installation.paths(supply);
          return (pole === 'plus' ? out : back).cost(terminal) ?? Number.POSITIVE_INFINITY;
        },
      })),
      ...strings.map(({ panels, plus, minus }) => ({
        sources: panels,
        plus,
        minus,
        battery: false,
        view: alone(panels),
        cost: () => 0,
      })),
    ];
    for (const edge of network.edges)
      if (edge.is === 'contact' && edge.contact.protects) this.edges.set(key(edge.part, edge.contact.pole), edge);
  }

  /** Each of the three is worked out when it is first asked for: a rule that needs one does not wait for the others. */
  answers(): FaultAnswers {
    const [terminals, cores, devices] = [
      lazily(() => this.terminalFaults()),
      lazily(() => new Map([...this.cores].map(([core, figures]) => [core, this.coreFault(figures)]))),
      lazily(() => this.deviceFaults()),
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
    };
  }

  private terminalFaults(): Map<string, TerminalFault> {
    const terminals = new Map<string, TerminalFault>();
    for (const terminal of this.installation.wiring.terminals) {
      const [greatest, least] = [this.greatestAt(terminal), this.leastAt(terminal)];
      terminals.set(terminal.id, {
        terminal,
        greatestAmps: greatest?.amps,
        greatestTo: greatest?.to,
        leastAmps: least?.amps,
        leastTo: least?.to,
      });
    }
    return terminals;
  }

  private deviceFaults(): Map<string, DeviceFault[]> {
    const devices = new Map<string, DeviceFault[]>();
    const protectedBy = groupBy(
      [...this.cores.values()].flatMap((figures) =>
        figures.protection.devices.map(({ part, pole }) => ({ figures, device: key(part, pole) })),
      ),
      ({ device }) => device,
    );
    for (const [name, edge] of this.edges) {
      const { part } = edge;
      const one = this.deviceFault(
        edge,
        (protectedBy.get(name) ?? []).map(({ figures }) => figures),
      );
      const list = devices.get(part.name);
      if (list === undefined) devices.set(part.name, [one]);
      else list.push(one);
    }
    return devices;
  }

  private ohmsAt20(run: Run): number | undefined {
    const size = this.sizes.get(run);
    return size === undefined ? undefined : coreOhmsAt20(run, size);
  }

  private partOf(terminal: Terminal): number {
    const { wiring } = this.installation;
    return wiring.whole.part[wiring.node(terminal)] ?? -1;
  }

  /** Other terminal of its own side of its part. */
  private ownOther({ part, spec }: Terminal): Terminal | undefined {
    if (spec.polarity === undefined) return undefined;
    return part.terminals.find(
      (other) =>
        other.spec.polarity !== undefined && other.spec.polarity !== spec.polarity && other.spec.side === spec.side,
    );
  }

  /** Panels share their negative with the battery, but it is panels that feed a fault there. */
  private onPanelSide({ id }: Terminal): boolean {
    const cores = (this.installation.network.at.get(id) ?? []).flatMap((edge) =>
      edge.is === 'core' ? (this.cores.get(edge.core) ?? []) : [],
    );
    return cores.length > 0 && cores.every(({ onPanelSide }) => onPanelSide);
  }

  /** Feeds with a pole on the conductors of a terminal, and the other pole of each. */
  private reaching(terminal: Terminal): { feed: Feed; other: Terminal }[] {
    const part = this.partOf(terminal);
    const panels = this.onPanelSide(terminal);
    return this.feeds.flatMap((feed) => {
      if (panels && feed.sources[0]?.is !== 'panel') return [];
      // Between batteries in series both poles of those that meet there count.
      if (this.partOf(feed.plus) === part) return [{ feed, other: feed.minus }];
      if (this.partOf(feed.minus) === part) return [{ feed, other: feed.plus }];
      return feed.sources.flatMap((source) => {
        if (this.partOf(source.plus) === part) return [{ feed, other: source.minus }];
        return this.partOf(source.minus) === part ? [{ feed, other: source.plus }] : [];
      });
    });
  }

  private greatestAt(terminal: Terminal) {
    let known = this.greatest.get(terminal.id);
    if (known === undefined && !this.greatest.has(terminal.id)) {
      known = this.greatestOf(terminal);
      this.greatest.set(terminal.id, known);
    }
    return known;
  }

  private greatestOf(terminal: Terminal): { readonly amps: number; readonly to: Terminal } | undefined {
    const own = this.ownOther(terminal);
    const others = own === undefined ? this.reaching(terminal).map(({ other }) => other) : [own];
    let best: { readonly amps: number; readonly to: Terminal } | undefined;
    for (const to of new Set(others)) {
      const amps = this.all.between(terminal, to);
      if (amps > (best?.amps ?? 0)) best = { amps, to };
    }
    return best;
  }

  private leastAt(terminal: Terminal) {
    let known = this.least.get(terminal.id);
    if (known === undefined && !this.least.has(terminal.id)) {
      known = this.leastOf(terminal);
      this.least.set(terminal.id, known);
    }
    return known;
  }

  /** The weakest source alone; what limits its own current only where no battery reaches, because no device waits for it. */
  private leastOf(
    terminal: Terminal,
  ): { readonly amps: number; readonly to: Terminal; readonly feed: Feed } | undefined {
    const to = this.ownOther(terminal) ?? this.nearestOther(terminal);
    if (to === undefined) return undefined;
    const found = this.aloneBetween(terminal, to);
    return found.reduce<(typeof found)[number] | undefined>(
      (least, one) => (least === undefined || one.amps < least.amps ? one : least),
      undefined,
    );
  }

  /** What each battery alone drives between two terminals; where none does, each other source. */
  private aloneBetween(terminal: Terminal, to: Terminal): { amps: number; to: Terminal; feed: Feed }[] {
    const parts = new Set([this.partOf(terminal), this.partOf(to)]);
    const near = this.feeds.filter(({ sources }) =>
      sources.some(({ plus, minus }) => parts.has(this.partOf(plus)) || parts.has(this.partOf(minus))),
    );
    for (const battery of [true, false]) {
      const found = near
        .filter((feed) => feed.battery === battery)
        .map((feed) => ({ amps: feed.view.between(terminal, to), to, feed }))
        .filter(({ amps }) => amps > 0);
      if (found.length > 0) return found;
    }
    return [];
  }

  /** The other pole of the nearest load that a terminal serves, else that of the nearest source. */
  private nearestOther(terminal: Terminal): Terminal | undefined {
    const { network, draws } = this.installation;
    const part = this.partOf(terminal);
    const isOnPlus = (feed: Feed) => this.partOf(feed.plus) === part;
    const distance = (feed: Feed) => feed.cost(isOnPlus(feed) ? 'plus' : 'minus', terminal);
    const [reached] = [...this.reaching(terminal)].sort(
      (a, b) => Number(b.feed.battery) - Number(a.feed.battery) || distance(a.feed) - distance(b.feed),
    );
    if (reached === undefined) return undefined;
    const onPlus = isOnPlus(reached.feed);
    const served = new Set<Part>();
    for (const edge of network.at.get(terminal.id) ?? [])
      if (edge.is === 'core') for (const load of this.cores.get(edge.core)?.loads ?? []) served.add(load);
    const far = this.partOf(reached.other);
    let nearest: { readonly other: Terminal; readonly cost: number } | undefined;
    for (const draw of draws) {
      const [here, other] = onPlus ? [draw.plus, draw.minus] : [draw.minus, draw.plus];
      if (!served.has(draw.part) || this.partOf(here) !== part || this.partOf(other) !== far) continue;
      const cost = reached.feed.cost(onPlus ? 'minus' : 'plus', other);
      if (nearest === undefined || cost < nearest.cost) nearest = { other, cost };
    }
    return nearest?.other ?? reached.other;
  }

  private deviceFault(edge: ContactEdge, protects: readonly CoreFigures[]): DeviceFault {
    const { part, contact, from, to } = edge;
    const { pole } = contact;
    const ratedAmps = this.ratedAmps(part, pole);
    const greatestAmps = Math.max(
      0,
      ...[from, to].map((end) => {
        const other = this.greatestAt(end)?.to;
        return other === undefined ? 0 : this.all.through(edge, end, other);
      }),
    );
    const leastAmps = lazily(() => this.leastThrough(edge, protects));
    const curve = curveOf(part);
    const worst = timeOf(curve, ratedAmps, greatestAmps);
    const weakest = lazily(() => timeOf(curve, ratedAmps, leastAmps()));
    return {
      part,
      pole,
      ratedAmps,
      greatestAmps,
      breaks: breakingCapacity(part, ratedAmps),
      curve: curve?.from,
      greatestSeconds: finite(worst?.most),
      // What needs every core's far end waits until somebody asks.
      get leastAmps() {
        return leastAmps();
      },
      get leastSeconds() {
        return finite(weakest()?.most);
      },
      get clears() {
        const least = leastAmps();
        return least === undefined
          ? clearing(ratedAmps, greatestAmps, greatestAmps, worst)
          : clearing(ratedAmps, greatestAmps, least, weakest());
      },
    };
  }

  /** Least through a device of what faults at the far ends of what it protects bring. */
  private leastThrough(edge: ContactEdge, protects: readonly CoreFigures[]): number | undefined {
    const least: number[] = [];
    for (const figures of protects) {
      const at = this.farEnd(figures.core);
      if (at === undefined) continue;
      for (const { feed, to: other, amps } of this.aloneBetween(at.end, at.other)) {
        const through = feed.view.through(edge, at.end, other);
        // A source that reaches the fault another way leaves this device to what comes through it.
        if (through > amps / 100) least.push(through);
      }
    }
    return least.length === 0 ? undefined : Math.min(...least);
  }

  private ratedAmps(part: Part, pole: number): number | undefined {
    return this.contacts.get(part.name)?.find((one) => one.pole === pole)?.device?.amps;
  }

  /** The end of a core where a fault is least, and its other pole. */
  private farEnd(core: Core): { end: Terminal; other: Terminal; amps: number } | undefined {
    if (this.ohmsAt20(core.run) === undefined) return undefined;
    let found: { end: Terminal; other: Terminal; amps: number } | undefined;
    for (const end of [core.to, core.from]) {
      const at = end === undefined ? undefined : this.leastAt(end);
      if (end !== undefined && at !== undefined && (found === undefined || at.amps < found.amps))
        found = { end, other: at.to, amps: at.amps };
    }
    return found;
  }

  /**
   * The end of a core where a fault that flows in it is greatest. At the terminal of a battery it does not: there the fault is
   * the battery's own. Through what returns a current flows what comes by the conductors whose return it is.
   */
  private nearEnd({ core, isReturn }: CoreFigures): { end: Terminal; to: Terminal; amps: number } | undefined {
    if (isReturn) {
      const far = this.farEnd(core);
      return far && { end: far.end, to: far.other, amps: this.all.between(far.end, far.other) };
    }
    const { sources } = this.installation;
    let near: { end: Terminal; to: Terminal; amps: number } | undefined;
    for (const end of [core.from, core.to]) {
      if (end === undefined || sources.some((one) => one.is === 'battery' && (one.plus === end || one.minus === end)))
        continue;
      const at = this.greatestAt(end);
      if (at !== undefined && at.amps > (near?.amps ?? 0)) near = { end, ...at };
    }
    return near;
  }

  private coreFault(figures: CoreFigures): CoreFault {
    const { core, protection, beforeFirstDevice } = figures;
    const far = this.farEnd(core);
    const near = this.nearEnd(figures);
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
    const judged: { clears: Clearing; seconds: number | undefined; letThrough: number | undefined }[] = [];
    const sources = new Set<TableSource>(bears?.sources ?? []);
    const judge = (view: FaultView, end: Terminal, other: Terminal, amps: number) => {
      const here = this.clearedIn(view, protection.devices, end, other, amps, sources);
      if (here !== undefined) judged.push(here);
    };
    if (far !== undefined && !beforeFirstDevice)
      for (const { feed, amps } of this.aloneBetween(far.end, far.other)) judge(feed.view, far.end, far.other, amps);
    if (near !== undefined && !beforeFirstDevice) judge(this.all, near.end, near.to, near.amps);
    const clears = beforeFirstDevice ? 'never' : overall(judged.map((one) => one.clears));
    const sure = clears === 'surely' ? judged : [];
    const seconds = sure.length === 0 ? undefined : Math.max(...sure.map((one) => one.seconds ?? 0));
    // Between the least and the greatest fault more may be let through than at either.
    const passed = [...sure, ...(sure.length === 0 ? [] : this.between(protection.devices, far?.amps, near?.amps))];
    const letThrough = passed.length === 0 ? undefined : Math.max(...passed.map((one) => one.letThrough ?? 0));
    const holds = letThrough === undefined || bears === undefined ? undefined : letThrough <= bears.i2t;
    const quick = passed.some(
      (one) => (one.letThrough ?? 0) > (bears?.i2t ?? 0) && (one.seconds ?? 0) <= adiabaticSeconds,
    );
    return {
      ...base,
      clears,
      seconds,
      letThrough,
      withstands: holds === false && !quick ? undefined : holds,
      sources: [...sources],
    };
  }

  /** What the gates of a single device let through at currents in between. */
  private between(
    [device, second]: CoreFigures['protection']['devices'],
    least = 0,
    greatest = 0,
  ): { seconds: number; letThrough: number }[] {
    const rated = device === undefined || second !== undefined ? undefined : this.ratedAmps(device.part, device.pole);
    if (device === undefined || rated === undefined) return [];
    return (curveOf(device.part)?.gates ?? []).flatMap(({ multiple, most }) => {
      const amps = multiple * rated;
      return most === undefined || amps <= least || amps >= greatest
        ? []
        : [{ seconds: most, letThrough: amps * amps * most }];
    });
  }

  /** One fault and the devices that would clear it: all through which it is fed must have opened. */
  private clearedIn(
    view: FaultView,
    devices: CoreFigures['protection']['devices'],
    end: Terminal,
    other: Terminal,
    amps: number,
    sources: Set<TableSource>,
  ) {
    let clears: Clearing | undefined;
    let seconds = 0;
    for (const { part, pole } of devices) {
      const edge = this.edges.get(key(part, pole));
      if (edge === undefined) continue;
      const through = view.through(edge, end, other);
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
      clears,
      seconds: clears === 'surely' ? seconds : undefined,
      letThrough: clears === 'surely' ? amps * amps * seconds : undefined,
    };
  }
}

function key(part: Part, pole: number): string {
  return `${part.name} ${pole}`;
}

interface Curve {
  readonly gates: readonly Gate[];
  readonly from: Origin;
}

/** As its `operates` clauses say, else by its body style; the ways of a fusebox take blade fuses. */
function curveOf({ kind, facts }: Part): Curve | undefined {
  const stated = facts.each('operates').flatMap((row) => {
    const [multiple, least, most] = ['share', 'least', 'most'].map((slot) => row.number('operates', slot));
    return multiple === undefined || most === undefined ? [] : [{ multiple, least: least ?? 0, most }];
  });
  if (stated.length > 0) return { gates: stated, from: 'stated' };
  const usual = fuseGates(styleOf({ kind, facts }));
  return usual === undefined ? undefined : { gates: usual.gates, from: usual.source };
}

function styleOf({ kind, facts }: Pick<Part, 'kind' | 'facts'>): string | undefined {
  return kind.word === 'fusebox' ? 'blade' : facts.word('style');
}

function breakingCapacity(part: Part, ratedAmps: number | undefined): DeviceFault['breaks'] {
  const stated = part.facts.number('breaks');
  if (stated !== undefined) return { amps: stated, from: 'stated' };
  const usual = part.kind.word === 'breaker' ? undefined : usualBreakingCapacity(styleOf(part), ratedAmps);
  return usual === undefined ? undefined : { amps: usual.amps, from: usual.source };
}

function timeOf(
  curve: Curve | undefined,
  ratedAmps: number | undefined,
  amps: number | undefined,
): OperatingTime | undefined {
  if (curve === undefined || ratedAmps === undefined || !(ratedAmps > 0) || amps === undefined) return undefined;
  return operatingTime(curve.gates, amps / ratedAmps);
}

function clearing(
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
function overall(all: readonly Clearing[]): Clearing {
  const worst = worstOf(all);
  return worst === 'never' && all.some((one) => one !== 'never') ? 'not surely' : worst;
}

/** Of several devices that must all open; `not known` where there is nothing to go by. */
function worstOf(all: readonly Clearing[]): Clearing {
  return fromWorst.find((one) => all.includes(one)) ?? 'not known';
}

function finite(seconds: number | undefined): number | undefined {
  return seconds !== undefined && seconds < Number.POSITIVE_INFINITY ? seconds : undefined;
}
