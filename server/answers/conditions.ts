/** What a run's conductors have to bear: ambient along its way, insulation, bunching; and so its capacity and resistance. */
import { keptWith } from '../model/lazily.ts';
import type { ConductorSize, Location, Model, Run } from '../model/model.ts';
import { type Conductor, ohmsPerMetreAt20, type Size } from '../physics/conductors.ts';
import type { Bunch, Capacity, CapacityConditions, LimitSet } from '../physics/limits/limit-set.ts';
import { bunchOf, carryingCores } from './bunches.ts';

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
  return warmestOf(ambientsOf(run, model));
}

export function warmestOf(ambients: readonly Ambient[]): Ambient {
  return ambients.reduce((warmest, one) => (one.celsius > warmest.celsius ? one : warmest));
}

/** Around a run, place by place, of alike ones the first; at least one. */
export function ambientsOf(run: Run, model: Model): readonly Ambient[] {
  const general = model.system.ambientCelsius ?? defaultAmbientCelsius;
  const ambients: Ambient[] = [];
  for (const place of placesOf(run)) {
    const [celsius, engineSpace] = [place?.celsius ?? general, place?.engineSpace === true];
    if (!ambients.some((one) => one.celsius === celsius && one.engineSpace === engineSpace))
      ambients.push({ celsius, from: place?.name, engineSpace });
  }
  return ambients.length > 0 ? ambients : [{ celsius: general, from: undefined, engineSpace: false }];
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

/** What holds in place of what the run says itself; and what is known already of where it lies. */
interface Circumstances {
  readonly ambientCelsius?: number | undefined;
  readonly bunch?: Bunch | undefined;
  readonly ambients?: readonly Ambient[];
}

/**
 * Current-carrying capacity of a run in a size, where it lies: the least of all the places it passes, which need not be
 * that of the warmest, since a set may correct an engine space by a factor of its own. A case may say another ambient.
 */
export function capacityOf(
  run: Run,
  size: ConductorSize,
  model: Model,
  limits: LimitSet,
  nominalVolts: number,
  { ambientCelsius, bunch = bunchOf(run, model), ambients = ambientsOf(run, model) }: Circumstances = {},
): Capacity {
  const conditions = {
    size: physicalSize(size),
    insulationCelsius: insulationOf(run),
    bunchedWith: bunch.count,
    bunchedCores: bunch.cores,
    cores: carryingCores(run),
    inConduit: run.inConduit,
    nominalVolts,
    aluminium: run.material === 'aluminium',
  };
  const light = bunch.leftOut.length > 0 ? limits.lightlyLoaded : undefined;
  const inPlace = ({ celsius, engineSpace }: Ambient) =>
    lookedUp(limits, { ambientCelsius: ambientCelsius ?? celsius, engineSpace, ...conditions });
  let [place, ...others] = ambients as [Ambient, ...Ambient[]];
  let worst = inPlace(place);
  for (const other of others) {
    const one = inPlace(other);
    if (one.amps < worst.amps || (one.amps === worst.amps && one.ambientCelsius > worst.ambientCelsius))
      [worst, place] = [one, other];
  }
  const sources = light === undefined ? worst.sources : [...worst.sources, light.source];
  return { place: place.from, bunch, ...worst, sources };
}

/** By set, what was looked up in it of late. */
const known = new WeakMap<LimitSet, Map<string, InSet>>();
type InSet = ReturnType<LimitSet['capacity']>;
const mostKnown = 5000;

/** Many cables lie alike, and edit after edit they do so again. */
function lookedUp(limits: LimitSet, conditions: CapacityConditions): InSet {
  const { size, bunchedCores, ...others } = conditions;
  const sized = size.system === 'mm2' ? size.areaMm2 : `awg ${size.gauge}`;
  const key = `${sized} ${bunchedCores?.join()} ${Object.values(others).join(' ')}`;
  let own = known.get(limits);
  if (own === undefined || own.size > mostKnown) {
    own = new Map();
    known.set(limits, own);
  }
  let capacity = own.get(key);
  if (capacity === undefined) {
    capacity = limits.capacity(conditions);
    own.set(key, capacity);
  }
  return capacity;
}

/** Resistance of one core of a run at 20 °C, in ohm; undefined while its size or length is not known. */
export function coreOhmsAt20(run: Run, size: ConductorSize | undefined): number | undefined {
  return run.size === size ? ohmsAsStated(run) : ohmsIn(run, size);
}

const ohmsAsStated = keptWith((run: Run) => ohmsIn(run, run.size));

function ohmsIn(run: Run, size: ConductorSize | undefined): number | undefined {
  if (size === undefined || run.lengthMetres === undefined) return undefined;
  const conductor: Conductor = {
    size: physicalSize(size),
    conductorClass: run.conductorClass,
    solid: run.solid,
    tinned: run.tinned,
    material: run.material,
  };
  return ohmsPerMetreAt20(conductor) * run.lengthMetres;
}
