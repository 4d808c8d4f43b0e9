/** Everything of a spec that is the same in all cases: who feeds, who draws, and how the conductors join them. */
import type { Model, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { coreOhmsAt20 } from './conditions.ts';
import { type PanelString, stringsOf } from './panel-side.ts';
import { type Paths, pathsFrom } from './paths.ts';
import { type Draw, drawsOf, type Port, type Source, sourcesOf } from './ports.ts';
import { type Supply, suppliesOf } from './supplies.ts';
import { type Wiring, wiringOf } from './wiring.ts';

export interface Installation {
  readonly model: Model;
  readonly network: Network;
  readonly wiring: Wiring;
  readonly sources: readonly Source[];
  readonly draws: readonly Draw[];
  readonly supplies: readonly Supply[];
  /** Connected parts that only join batteries in series. */
  readonly joints: ReadonlySet<number>;
  readonly strings: readonly PanelString[];
  /** What is 0 V in a circuit: the negative of the battery first by name in a connected part, else of the first other source. */
  readonly references: readonly Terminal[];
  /** Nominal voltage of the whole: as stated, else that of the first supply that has one. */
  readonly systemVolts: number;
  /** Nominal voltage of a supply: its own, else that of the battery beside it, else of the whole. */
  nominalOf(supply: Supply | undefined): number;
  /**
   * The supply that feeds a port, of those that `may` allows: batteries before others, then the nearest by resistance,
   * then the first by name, so that the order of statements decides nothing.
   */
  feeder(port: Port, may: (supply: Supply) => boolean): Supply | undefined;
  /** The same with every contact closed. */
  usualFeeder(port: Port): Supply | undefined;
  /** Least resistance from a supply's plus and back to its minus. */
  paths(supply: Supply): { readonly out: Paths; readonly back: Paths };
}

export function installationOf(model: Model, network: Network): Installation {
  const wiring = wiringOf(model, network);
  const sources = sourcesOf(model);
  const draws = drawsOf(model);
  const { all: supplies, joints } = suppliesOf(sources, draws, wiring);
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] ?? -1;
  const joined = (a: Port, b: Port) => partOf(a.plus) === partOf(b.plus) && partOf(a.minus) === partOf(b.minus);
  const systemVolts =
    model.system.nominalVolts ?? supplies.find(({ nominalVolts }) => positive(nominalVolts))?.nominalVolts ?? 12;
  const nominal = new Map<Supply, number>();
  const nominalOf = (supply: Supply | undefined): number => {
    if (supply === undefined) return systemVolts;
    let volts = nominal.get(supply);
    if (volts === undefined) {
      const beside = supplies.find((other) => isBattery(other) && joined(supply, other));
      volts = [supply.nominalVolts, beside?.nominalVolts].find(positive) ?? systemVolts;
      nominal.set(supply, volts);
    }
    return volts;
  };
  const ohms = new Float64Array(network.edges.length).fill(Number.NaN);
  const near = (edge: Edge) => {
    if (Number.isNaN(ohms[edge.index])) ohms[edge.index] = nearness(edge);
    return ohms[edge.index] as number;
  };
  const pathsOf = new Map<Supply, { out: Paths; back: Paths }>();
  const paths = (supply: Supply) => {
    let known = pathsOf.get(supply);
    if (known === undefined) {
      const from = (terminal: Terminal) => pathsFrom(terminal, network, wiring.inner, near);
      known = { out: from(supply.plus), back: from(supply.minus) };
      pathsOf.set(supply, known);
    }
    return known;
  };
  const distance = (supply: Supply, { plus, minus }: Port): number => {
    const { out, back } = paths(supply);
    return (out.cost(plus) ?? Number.POSITIVE_INFINITY) + (back.cost(minus) ?? Number.POSITIVE_INFINITY);
  };
  const feeder = (port: Port, may: (supply: Supply) => boolean): Supply | undefined => {
    let able = supplies.filter((supply) => supply.part !== port.part && may(supply));
    if (able.some(isBattery)) able = able.filter(isBattery);
    let best: { supply: Supply; distance: number } | undefined;
    for (const supply of able) {
      const here = able.length === 1 ? 0 : distance(supply, port);
      const nearer = best === undefined || here < best.distance * (1 - 1e-9);
      const asNear =
        best !== undefined && here <= best.distance * (1 + 1e-9) && supply.part.name < best.supply.part.name;
      if (nearer || asNear) best = { supply, distance: here };
    }
    return best?.supply;
  };
  const usual = new Map<Port, Supply | undefined>();
  const byParts = new Map<string, Supply[]>();
  for (const supply of supplies) {
    const key = `${partOf(supply.plus)} ${partOf(supply.minus)}`;
    byParts.set(key, [...(byParts.get(key) ?? []), supply]);
  }
  const usualFeeder = (port: Port): Supply | undefined => {
    if (!usual.has(port)) {
      const here = byParts.get(`${partOf(port.plus)} ${partOf(port.minus)}`) ?? [];
      usual.set(port, here.length === 0 ? undefined : feeder(port, (supply) => here.includes(supply)));
    }
    return usual.get(port);
  };
  return {
    model,
    network,
    wiring,
    sources,
    draws,
    supplies,
    joints,
    strings: stringsOf(sources, draws, wiring),
    references: referencesOf(sources),
    systemVolts,
    nominalOf,
    feeder,
    usualFeeder,
    paths,
  };
}

function referencesOf(sources: readonly Source[]): Terminal[] {
  const byName = [...sources].sort((a, b) => (a.part.name < b.part.name ? -1 : Number(a.part.name > b.part.name)));
  const battery = ({ is }: Source) => is === 'battery';
  return [...byName.filter(battery), ...byName.filter((one) => !battery(one))].map(({ minus }) => minus);
}

export function isBattery({ sources }: Supply): boolean {
  return sources[0]?.is === 'battery';
}

function positive(volts: number | undefined): volts is number {
  return volts !== undefined && volts > 0;
}

/** Resistance of an edge for telling near from far; a size that is not known yet counts as 2.5 mm². */
export function nearness(edge: Edge): number {
  if (edge.is === 'core')
    return coreOhmsAt20(edge.core.run, edge.core.run.size ?? { system: 'mm2', areaMm2: 2.5, written: '' }) ?? 0;
  return edge.is === 'bar' ? 0 : edge.ohms;
}
