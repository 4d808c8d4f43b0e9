/** What runs are to the solver in the sizes they have or are given; capacities are worked out once for all cases and sizes tried. */
import type { Case, ConductorSize, Model, Run } from '../model/model.ts';
import type { Bunch, Capacity, LimitSet } from '../physics/limits/limit-set.ts';
import { bunchOf } from './bunches.ts';
import { type Ambient, ambientsOf, capacityOf, coreOhmsAt20, insulationOf, warmestOf } from './conditions.ts';

/** What the solver needs of a run. */
export interface RunElectrics {
  /** Of one core, in ohm; undefined while its size or length is not known. */
  readonly ohmsAt20: number | undefined;
  readonly insulationCelsius: number;
  readonly ambientCelsius: number;
  capacity(stated: Case): Capacity | undefined;
}

/** Of a run in a size, or in none while that is not known. */
class InSize implements RunElectrics {
  readonly ohmsAt20: number | undefined;

  constructor(
    private readonly conductors: Conductors,
    private readonly run: Run,
    private readonly size: ConductorSize | undefined,
    readonly ambientCelsius: number,
  ) {
    this.ohmsAt20 = coreOhmsAt20(run, size);
  }

  get insulationCelsius(): number {
    return insulationOf(this.run);
  }

  capacity({ ambientCelsius }: Case): Capacity | undefined {
    const { conductors, run, size } = this;
    return size === undefined ? undefined : conductors.capacity(run, size, ambientCelsius);
  }
}

/** Of all runs. */
export class Electrics extends Map<Run, RunElectrics> {
  constructor(private readonly conductors: Conductors) {
    super();
  }

  /** What lies against each cable as it counts now: capacities hold as long as this is the same. */
  get counted(): object {
    return this.conductors.bunches;
  }
}

/** What is known of a run, and what of the spec as a whole that rests on. */
interface Known {
  readonly limits: LimitSet;
  readonly nominalVolts: number;
  readonly generalCelsius: number | undefined;
  readonly ambients: readonly Ambient[];
  /** All that lies against it. */
  readonly whole: Bunch;
  readonly capacities: {
    readonly size: ConductorSize;
    readonly ambientCelsius: number | undefined;
    readonly bunch: Bunch;
    readonly capacity: Capacity;
  }[];
}

/** From edit to edit. */
const kept = new WeakMap<Run, Known>();

/** Sizes tried for a run, under what a case says; beyond this many the first are let go. */
const mostCapacities = 24;

export class Conductors {
  private readonly known = new Map<Run, Known>();
  private asStated: Electrics | undefined;
  /** What lies against a run where that is not all that the spec says lies there. */
  bunches: ReadonlyMap<Run, Bunch> = new Map();

  constructor(
    private readonly model: Model,
    private readonly limits: LimitSet,
    private readonly nominalVolts: number,
  ) {}

  /** From now on only these cables count in each bunch; before, all do. */
  count(bunches: ReadonlyMap<Run, Bunch>): void {
    const fewer = [...bunches].filter(([, { leftOut }]) => leftOut.length > 0);
    if (fewer.length > 0 || this.bunches.size > 0) this.bunches = new Map(fewer);
  }

  /** In the ambient of its places, or in another that a case says. */
  capacity(run: Run, size: ConductorSize, ambientCelsius?: number): Capacity {
    const { capacities, ambients, whole } = this.of(run);
    const bunch = this.bunches.get(run) ?? whole;
    for (const one of capacities)
      if (one.size === size && one.ambientCelsius === ambientCelsius && isSame(one.bunch, bunch)) return one.capacity;
    const circumstances = { ambientCelsius, bunch, ambients };
    const capacity = capacityOf(run, size, this.model, this.limits, this.nominalVolts, circumstances);
    if (capacities.length === mostCapacities) capacities.shift();
    capacities.push({ size, ambientCelsius, bunch, capacity });
    return capacity;
  }

  /** All runs, those of `sizes` in these where they state none themselves. */
  electrics(sizes: ReadonlyMap<Run, ConductorSize>): Electrics {
    if (sizes.size > 0) return this.electricsIn(sizes);
    this.asStated ??= this.electricsIn(sizes);
    return this.asStated;
  }

  private electricsIn(sizes: ReadonlyMap<Run, ConductorSize>): Electrics {
    const electrics = new Electrics(this);
    for (const run of this.model.runs.values()) {
      const size = run.size ?? sizes.get(run);
      electrics.set(run, new InSize(this, run, size, warmestOf(this.of(run).ambients).celsius));
    }
    return electrics;
  }

  private of(run: Run): Known {
    let known = this.known.get(run);
    if (known === undefined) {
      known = this.stillKnown(run);
      this.known.set(run, known);
      kept.set(run, known);
    }
    return known;
  }

  private stillKnown(run: Run): Known {
    const { model, limits, nominalVolts } = this;
    const generalCelsius = model.system.ambientCelsius;
    const whole = bunchOf(run, model);
    const known = kept.get(run);
    return known !== undefined &&
      known.limits === limits &&
      known.nominalVolts === nominalVolts &&
      known.generalCelsius === generalCelsius &&
      isSame(known.whole, whole)
      ? known
      : { limits, nominalVolts, generalCelsius, ambients: ambientsOf(run, model), whole, capacities: [] };
  }
}

function isSame(one: Bunch, other: Bunch): boolean {
  const alike = (a: readonly unknown[] = [], b: readonly unknown[] = []) =>
    a.length === b.length && a.every((value, i) => value === b[i]);
  return (
    one === other ||
    (one.count === other.count &&
      (one.cores === undefined) === (other.cores === undefined) &&
      alike(one.cores, other.cores) &&
      alike(one.leftOut, other.leftOut))
  );
}
