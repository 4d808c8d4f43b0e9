/** What runs are to the solver in the sizes they have or are given; capacities are worked out once for all cases and sizes tried. */
import type { Case, ConductorSize, Model, Run } from '../model/model.ts';
import type { Bunch, Capacity, LimitSet } from '../physics/limits/limit-set.ts';
import { ambientOf, capacityOf, coreOhmsAt20, insulationOf } from './conditions.ts';

/** What the solver needs of a run. */
export interface RunElectrics {
  /** Of one core, in ohm; undefined while its size or length is not known. */
  readonly ohmsAt20: number | undefined;
  readonly insulationCelsius: number;
  readonly ambientCelsius: number;
  capacity(stated: Case): Capacity | undefined;
}

interface Known {
  readonly size: ConductorSize;
  readonly ambientCelsius: number | undefined;
  readonly bunch: Bunch | undefined;
  readonly capacity: Capacity;
}

export class Conductors {
  private readonly known = new Map<Run, Known[]>();
  private readonly ambients = new Map<Run, number>();
  /** What lies against a run where that is not all that the spec says lies there. */
  private bunches: ReadonlyMap<Run, Bunch> = new Map();

  constructor(
    private readonly model: Model,
    private readonly limits: LimitSet,
    private readonly nominalVolts: number,
  ) {}

  /** From now on only these cables count in each bunch; before, all do. */
  count(bunches: ReadonlyMap<Run, Bunch>): void {
    this.bunches = new Map([...bunches].filter(([, { leftOut }]) => leftOut.length > 0));
  }

  /** In the ambient of its places, or in another that a case says. */
  capacity(run: Run, size: ConductorSize, ambientCelsius?: number): Capacity {
    const bunch = this.bunches.get(run);
    const known = this.known.get(run);
    const found = known?.find(
      (one) => one.size === size && one.ambientCelsius === ambientCelsius && one.bunch === bunch,
    );
    if (found !== undefined) return found.capacity;
    const capacity = capacityOf(run, size, this.model, this.limits, this.nominalVolts, { ambientCelsius, bunch });
    const one = { size, ambientCelsius, bunch, capacity };
    if (known === undefined) this.known.set(run, [one]);
    else known.push(one);
    return capacity;
  }

  /** All runs, those of `sizes` in these where they state none themselves. */
  electrics(sizes: ReadonlyMap<Run, ConductorSize>): Map<Run, RunElectrics> {
    const electrics = new Map<Run, RunElectrics>();
    for (const run of this.model.runs.values()) {
      const size = run.size ?? sizes.get(run);
      electrics.set(run, {
        ohmsAt20: size === undefined ? undefined : coreOhmsAt20(run, size),
        insulationCelsius: insulationOf(run),
        ambientCelsius: this.ambientOf(run),
        capacity: ({ ambientCelsius }) => (size === undefined ? undefined : this.capacity(run, size, ambientCelsius)),
      });
    }
    return electrics;
  }

  private ambientOf(run: Run): number {
    let celsius = this.ambients.get(run);
    if (celsius === undefined) {
      celsius = ambientOf(run, this.model).celsius;
      this.ambients.set(run, celsius);
    }
    return celsius;
  }
}
