/** A protective device in short circuits: what can flow through it, what it breaks, and whether and how soon it opens. */

import type { Core, Part, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import type { OperatingTime } from '../physics/operating-time.ts';
import type { CoreFigures } from './answers.ts';
import { backUpOf } from './back-up.ts';
import {
  type BreakingCapacity,
  breakingCapacity,
  type Clearing,
  clearing,
  curveOf,
  finite,
  type Origin,
  opensFrom,
  timeOf,
} from './clearing.ts';
import type { DeviceFault } from './fault-answers.ts';
import type { FaultPlaces } from './fault-places.ts';
import type { Installation } from './installation.ts';
import type { LeastFaults } from './least-fault.ts';

/** What stands around a device. */
export interface Surroundings {
  readonly installation: Installation;
  places(): FaultPlaces;
  /** Some contacts part one way while they close another, so that the nearest way may not be there. */
  changing(): boolean;
  /** What a device alone protects. */
  protectedBy(device: ContactEdge): readonly CoreFigures[];
  /** What no fault on that is less than. */
  least(): LeastFaults;
  /** Rating of a device; undefined while nothing tells it. */
  ratedAmps(part: Part, pole: number): number | undefined;
}

interface Greatest {
  readonly forwardAmps: number;
  readonly backwardAmps: number;
  readonly amps: number;
  readonly time: OperatingTime | undefined;
}

/** The least fault through a device, where, and who drives it. */
interface Least {
  readonly amps: number;
  readonly core: Core;
  readonly battery: boolean;
}

/** Currents that differ by less than this part of themselves are as much as each other. */
const tie = 1e-6;

/** Everything waits until somebody asks. */
export class FaultOfDevice implements DeviceFault {
  readonly ratedAmps: number | undefined;
  private knownGreatest: Greatest | undefined;
  private knownLeast: { readonly least: Least | undefined } | undefined;
  private knownClearing: Clearing | undefined;

  constructor(
    private readonly edge: ContactEdge,
    private readonly around: Surroundings,
  ) {
    this.ratedAmps = around.ratedAmps(this.part, this.pole);
  }

  get part(): Part {
    return this.edge.part;
  }

  get pole(): number {
    return this.edge.contact.pole;
  }

  private get greatest(): Greatest {
    this.knownGreatest ??= this.greatestThrough();
    return this.knownGreatest;
  }

  private get least(): Least | undefined {
    this.knownLeast ??= { least: this.leastThrough() };
    return this.knownLeast.least;
  }

  private get weakest(): OperatingTime | undefined {
    return timeOf(curveOf(this.part), this.ratedAmps, this.leastAmps);
  }

  get breaks(): BreakingCapacity | undefined {
    return breakingCapacity(this.part, this.ratedAmps);
  }

  get curve(): Origin | undefined {
    return curveOf(this.part)?.from;
  }

  get greatestAmps(): number {
    return this.greatest.amps;
  }

  get forwardAmps(): number {
    return this.greatest.forwardAmps;
  }

  get backwardAmps(): number {
    return this.greatest.backwardAmps;
  }

  get greatestSeconds(): number | undefined {
    return finite(this.greatest.time?.most);
  }

  get leastAmps(): number | undefined {
    return this.least?.amps;
  }

  get leastAt(): Core | undefined {
    return this.least?.core;
  }

  get leastByBattery(): boolean {
    return this.least?.battery === true;
  }

  get leastSeconds(): number | undefined {
    return finite(this.weakest?.most);
  }

  get clears(): Clearing {
    this.knownClearing ??= this.clearedFromAfar() ?? this.clearedAtLeast();
    return this.knownClearing;
  }

  get backedUpBy(): DeviceFault['backedUpBy'] {
    const { edge, breaks, around } = this;
    if (breaks === undefined) return [];
    return backUpOf(around.installation, edge, this.greatest, breaks.amps, ({ part, contact }) =>
      breakingCapacity(part, around.ratedAmps(part, contact.pole)),
    );
  }

  private greatestThrough(): Greatest {
    const { edge, around } = this;
    const behind = (end: Terminal) => around.places().greatestThrough(edge, end);
    const [backwardAmps, forwardAmps] = [behind(edge.from), behind(edge.to)];
    const amps = Math.max(backwardAmps, forwardAmps);
    return { backwardAmps, forwardAmps, amps, time: timeOf(curveOf(this.part), this.ratedAmps, amps) };
  }

  /** Whether it opens, where the nearest way out and back to what it protects tells that it has enough to. */
  private clearedFromAfar(): Clearing | undefined {
    const { around, ratedAmps } = this;
    if (ratedAmps === undefined || around.changing()) return undefined;
    const curve = curveOf(this.part);
    const enough = 1.01 * (curve === undefined ? 1 : opensFrom(curve)) * ratedAmps;
    const least = around.least();
    return least.of(this.edge) > enough || least.closerOf(this.edge) > enough || this.isSureOfEach(enough)
      ? curve === undefined
        ? 'not known'
        : 'surely'
      : undefined;
  }

  private isSureOfEach(enough: number): boolean {
    const { around } = this;
    const places = around.places();
    const judged = around.protectedBy(this.edge).filter(({ core }) => places.ohmsAt20(core.run) !== undefined);
    return judged.length > 0 && judged.every(({ core }) => (places.leastBound(core) ?? 0) > enough);
  }

  private clearedAtLeast(): Clearing {
    const { ratedAmps, leastAmps } = this;
    const { amps, time } = this.greatest;
    return leastAmps === undefined
      ? clearing(ratedAmps, amps, amps, time)
      : clearing(ratedAmps, amps, leastAmps, this.weakest);
  }

  /** Least through it of what faults at the far ends of what it protects bring. */
  private leastThrough(): Least | undefined {
    const places = this.around.places();
    let least: Least | undefined;
    for (const { core } of this.around.protectedBy(this.edge)) {
      const at = places.farEnd(core);
      if (at === undefined) continue;
      for (const { view, amps, battery } of places.aloneBetween(at.end, at.to)) {
        const through = view.through(this.edge, at.end, at.to);
        // A source that reaches the fault another way leaves this device to what comes through it.
        if (through <= amps / 100) continue;
        // Where it is as much at several ends, neither the last digit chooses nor the order of statements.
        const isFirst = least !== undefined && through <= least.amps * (1 + tie) && core.run.name < least.core.run.name;
        if (least === undefined || through < least.amps * (1 - tie) || isFirst)
          least = { amps: through, core, battery };
      }
    }
    return least;
  }
}
