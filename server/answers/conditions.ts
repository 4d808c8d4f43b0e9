/** What a run's conductors have to bear: ambient along its way, insulation, bunching; and so its capacity and resistance. */
import type { Case, ConductorSize, Location, Model, Run } from '../model/model.ts';
import { type Conductor, ohmsPerMetreAt20, type Size } from '../physics/conductors.ts';
import type { Capacity, LimitSet } from '../physics/limits/limit-set.ts';

/** Ambient where nothing says another, °C: the reference of the tables. */
export const defaultAmbientCelsius = 30;
/** Insulation of which nothing is said, °C. */
export const defaultInsulationCelsius = 70;

export interface Ambient {
  readonly celsius: number;
  /** Name of the place that makes it so; undefined where it is the system's. */
  readonly from: string | undefined;
  readonly engineSpace: boolean;
}

/**
 * The warmest place a run lies in governs. Lengths that leave a rest unsaid leave that in the system's ambient. A run that
 * does not say where it lies is taken to lie where its ends are.
 */
export function ambientOf(run: Run, model: Model): Ambient {
  const general = model.system.ambientCelsius ?? defaultAmbientCelsius;
  const places = placesOf(run);
  let warmest: Ambient | undefined;
  for (const place of places) {
    const celsius = place?.celsius ?? general;
    if (warmest === undefined || celsius > warmest.celsius)
      warmest = { celsius, from: place?.name, engineSpace: false };
  }
  const engineSpace = places.some((place) => place?.engineSpace === true);
  return { ...(warmest ?? { celsius: general, from: undefined }), engineSpace };
}

/** Places a run lies in; undefined stands for where nothing is said. */
function placesOf({ along, lengthMetres, cores }: Run): (Location | undefined)[] {
  const said = along.map(({ location }) => location).filter((location) => location !== undefined);
  if (said.length > 0) {
    const lengths = along.map(({ lengthMetres: metres }) => metres);
    const covered = lengths.every((metres) => metres !== undefined)
      ? lengths.reduce<number>((sum, m) => sum + (m ?? 0), 0)
      : lengthMetres;
    const open = lengthMetres !== undefined && covered !== undefined && covered < lengthMetres * (1 - 1e-6);
    return open ? [...said, undefined] : said;
  }
  return cores
    .flatMap(({ from, to }) => [from, to])
    .flatMap((end) => (end?.part.location === undefined ? [] : [end.part.location]));
}

export function insulationOf(run: Run): number {
  return run.insulationCelsius ?? defaultInsulationCelsius;
}

export function physicalSize(size: ConductorSize): Size {
  return size.system === 'mm2' ? { system: 'mm2', areaMm2: size.areaMm2 } : { system: 'awg', gauge: size.gauge };
}

/** Current-carrying capacity of a run in a size, where it lies; a case may say another ambient. */
export function capacityOf(
  run: Run,
  size: ConductorSize,
  model: Model,
  limits: LimitSet,
  nominalVolts: number,
  stated?: Pick<Case, 'ambientCelsius'>,
): Capacity {
  const ambient = ambientOf(run, model);
  return limits.capacity({
    size: physicalSize(size),
    insulationCelsius: insulationOf(run),
    ambientCelsius: stated?.ambientCelsius ?? ambient.celsius,
    bunchedWith: run.bunchedWith,
    cores: Math.max(1, run.cores.filter(({ spare }) => !spare).length),
    inConduit: run.inConduit,
    engineSpace: ambient.engineSpace,
    nominalVolts,
    aluminium: run.material === 'aluminium',
  });
}

/** Resistance of one core of a run at 20 °C, in ohm; undefined while its length is not known. */
export function coreOhmsAt20(run: Run, size: ConductorSize): number | undefined {
  if (run.lengthMetres === undefined) return undefined;
  const conductor: Conductor = {
    size: physicalSize(size),
    conductorClass: run.conductorClass,
    solid: run.solid,
    tinned: run.tinned,
    material: run.material,
  };
  return ohmsPerMetreAt20(conductor) * run.lengthMetres;
}
