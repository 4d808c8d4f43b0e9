/** What a run's conductors have to bear: ambient along its way, insulation, bunching; and so its capacity and resistance. */
import type { Case, ConductorSize, Model, Run } from '../model/model.ts';
import { type Conductor, ohmsPerMetreAt20, type Size } from '../physics/conductors.ts';
import type { Capacity, LimitSet } from '../physics/limits/limit-set.ts';

/** Ambient where nothing says another, °C: the reference of the tables. */
export const defaultAmbientCelsius = 30;
/** Insulation of which nothing is said, °C. */
export const defaultInsulationCelsius = 70;

/** The warmest place a run lies in or ends at governs; where none is known, the system's ambient. */
export function ambientOf(run: Run, model: Model): { celsius: number; from: string | undefined; engineSpace: boolean } {
  const general = model.system.ambientCelsius ?? defaultAmbientCelsius;
  const places = run.along.map(({ location }) => location).filter((location) => location !== undefined);
  // A run that says where it lies is taken at its word; one that does not lies where its ends are.
  if (places.length === 0)
    for (const core of run.cores)
      for (const end of [core.from, core.to]) if (end?.part.location !== undefined) places.push(end.part.location);
  let celsius: number | undefined;
  let from: string | undefined;
  for (const place of places) {
    const here = place.celsius ?? general;
    if (celsius === undefined || here > celsius) {
      celsius = here;
      from = place.name;
    }
  }
  return { celsius: celsius ?? general, from, engineSpace: places.some(({ engineSpace }) => engineSpace) };
}

export function insulationOf(run: Run): number {
  return run.insulationCelsius ?? defaultInsulationCelsius;
}

export function physicalSize(size: ConductorSize): Size {
  return size.system === 'mm2' ? { system: 'mm2', areaMm2: size.areaMm2 } : { system: 'awg', gauge: size.gauge };
}

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
