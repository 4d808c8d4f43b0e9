/** Loads: which supply feeds each, by which cores out and back, and how much is lost on the way. */
import type { Core, Part } from '../model/model.ts';
import type { LoadFigures } from './answers.ts';
import type { Installation } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import { type Draw, designAmpsOf } from './ports.ts';
import type { Supply } from './supplies.ts';

/** The supply that feeds a draw as the contacts of a case stand; one that gives nothing there feeds nothing. */
export function feederIn(
  installation: Installation,
  draw: Draw,
  { connections, sourceAmps }: OperatingPoint,
): Supply | undefined {
  const { joined } = connections;
  return installation.feeder(
    draw,
    (supply) =>
      supply.sources.every((source) => sourceAmps.has(source)) &&
      joined(supply.plus, draw.plus) &&
      joined(supply.minus, draw.minus),
  );
}

/** Volts lost between a supply's terminals and a draw's, out and back. */
export function dropBetween(supply: Supply, draw: Draw, point: OperatingPoint): number {
  return point.across(supply) - point.across(draw);
}

/** Cores out from a supply to a draw and back, by the way of least resistance. */
export function coresBetween({ paths }: Installation, supply: Supply, draw: Draw): readonly Core[] {
  const { out, back } = paths(supply);
  const outward = out.edges(draw.plus);
  const inward = [...back.edges(draw.minus)].reverse();
  return [...outward, ...inward].flatMap((edge) => (edge.is === 'core' ? [edge.core] : []));
}

/** Figures of every load, socket, inverter and input; of several inputs of one part those of the worst. */
export function loadFigures(installation: Installation, points: readonly OperatingPoint[]): Map<string, LoadFigures> {
  const figures = new Map<string, LoadFigures>();
  for (const draw of installation.draws) {
    if (draw.is !== 'load' && draw.is !== 'input') continue;
    const here = figuresOf(installation, draw, points);
    const known = figures.get(draw.part.name);
    if (
      known === undefined ||
      (known.source === undefined && here.source !== undefined) ||
      here.dropPercent > known.dropPercent
    )
      figures.set(draw.part.name, here);
  }
  return figures;
}

function figuresOf(installation: Installation, draw: Draw, points: readonly OperatingPoint[]): LoadFigures {
  const usual = installation.usualFeeder(draw);
  let worst: Worst | undefined;
  let lowestVolts: number | undefined;
  for (const point of points) {
    if (!point.converged || !((point.drawAmps.get(draw) ?? 0) > 0)) continue;
    const volts = point.across(draw);
    lowestVolts = Math.min(lowestVolts ?? volts, volts);
    const supply = feederIn(installation, draw, point);
    if (supply === undefined) continue;
    const dropVolts = dropBetween(supply, draw, point);
    const percent = percentOf(dropVolts, installation.nominalOf(supply));
    // Of equal cases the first counts, whatever the last digit says.
    if (worst === undefined || percent > worst.percent + 1e-9 * Math.abs(worst.percent))
      worst = { supply, dropVolts, percent, name: point.stated.name };
  }
  return new FiguresOfLoad(installation, draw, usual, worst, lowestVolts ?? 0);
}

/** The case in which a load loses most of the voltage of its supply there. */
interface Worst {
  readonly supply: Supply;
  readonly dropVolts: number;
  readonly percent: number;
  readonly name: string;
}

/** It is a class, since V8 keeps an object with getters of its own as a table. */
class FiguresOfLoad implements LoadFigures {
  readonly dropVolts: number;
  readonly dropPercent: number;
  readonly supplyVolts: number;
  readonly worstCase: string;
  readonly designAmps: number;
  readonly #installation: Installation;
  readonly #supply: Supply | undefined;
  readonly #draw: Draw;
  #cores: readonly Core[] | undefined;

  constructor(
    installation: Installation,
    draw: Draw,
    private readonly usual: Supply | undefined,
    worst: Worst | undefined,
    readonly lowestVolts: number,
  ) {
    const supply = worst?.supply ?? usual;
    this.dropVolts = worst?.dropVolts ?? 0;
    this.dropPercent = worst?.percent ?? 0;
    this.supplyVolts = installation.nominalOf(supply);
    this.worstCase = worst?.name ?? '';
    this.designAmps = designAmpsOf(draw, installation.nominalOf(usual));
    this.#installation = installation;
    this.#supply = supply;
    this.#draw = draw;
  }

  get load(): Part {
    return this.#draw.part;
  }

  get usualSource(): Part | undefined {
    return this.usual?.part;
  }

  get source(): Part | undefined {
    return this.#supply?.part;
  }

  get cores(): readonly Core[] {
    this.#cores ??= this.#supply === undefined ? [] : coresBetween(this.#installation, this.#supply, this.#draw);
    return this.#cores;
  }
}

export function percentOf(volts: number, nominalVolts: number): number {
  return nominalVolts > 0 ? (100 * volts) / nominalVolts : 0;
}
