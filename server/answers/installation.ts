/** Everything of a spec that is the same in all cases: who feeds, who draws, and how the conductors join them. */

import { lazily } from '../model/lazily.ts';
import type { Core, Model, Part, Terminal } from '../model/model.ts';
import type { CoreEdge, Edge, Network } from '../model/network.ts';
import { coreOhmsAt20 } from './conditions.ts';
import { groupBy } from './grouping.ts';
import { type PanelString, stringsOf } from './panel-side.ts';
import { type Paths, pathsFrom } from './paths.ts';
import { type Draw, drawsOf, type Port, type Source, sourcesOf } from './ports.ts';
import { type Supply, suppliesOf } from './supplies.ts';
import { type Way, type Wiring, wiringOf } from './wiring.ts';

export interface PartStands {
  /** Linked poles are one way. */
  readonly ways: readonly Way[];
  readonly sources: readonly Source[];
  readonly draws: readonly Draw[];
}

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
  /** Undefined for a core of which an end is missing. */
  edgeOf(core: Core): CoreEdge | undefined;
  /** What stands at a part: its contacts, what of it gives and what of it takes. */
  at(part: Part): PartStands;
  /** Supplies and strings of panels with an end of theirs on the net of a terminal. */
  feedsOn(terminal: Terminal): ReadonlySet<Supply | PanelString>;
  /**
   * The supply that feeds a port, of those on the net of its plus that `may` allows: batteries before others, then the
   * nearest by resistance, then the first by name, so that the order of statements decides nothing.
   */
  feeder(port: Port, may: (supply: Supply) => boolean): Supply | undefined;
  /** The same with every contact closed. */
  usualFeeder(port: Port): Supply | undefined;
  /** Least resistance from a supply's plus and back to its minus. */
  paths(supply: Supply): { readonly out: Paths; readonly back: Paths };
}

const nothing: PartStands = { ways: [], sources: [], draws: [] };

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
      const beside = suppliesOn()
        .get(wiring.net(supply.plus))
        ?.find((other) => isBattery(other) && joined(supply, other));
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
      const from = (terminal: Terminal) => pathsFrom(terminal, network, wiring.innerAt, near);
      known = { out: from(supply.plus), back: from(supply.minus) };
      pathsOf.set(supply, known);
    }
    return known;
  };
  const distance = (supply: Supply, { plus, minus }: Port): number => {
    const { out, back } = paths(supply);
    return (out.cost(plus) ?? Number.POSITIVE_INFINITY) + (back.cost(minus) ?? Number.POSITIVE_INFINITY);
  };
  const suppliesOn = lazily(() => groupBy(supplies, ({ plus }) => wiring.net(plus)));
  const feeder = (port: Port, may: (supply: Supply) => boolean): Supply | undefined => {
    const here = suppliesOn().get(wiring.net(port.plus)) ?? [];
    let able = here.filter((supply) => supply.part !== port.part && may(supply));
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
  const usualFeeder = (port: Port): Supply | undefined => {
    let supply = usual.get(port);
    if (supply === undefined && !usual.has(port)) {
      supply = feeder(port, (other) => joined(port, other));
      usual.set(port, supply);
    }
    return supply;
  };
  const at = lazily(() => {
    const stands = new Map<Part, { ways: Way[]; sources: Source[]; draws: Draw[] }>();
    const of = (part: Part) => {
      let here = stands.get(part);
      if (here === undefined) {
        here = { ways: [], sources: [], draws: [] };
        stands.set(part, here);
      }
      return here;
    };
    for (const way of wiring.ways) if (way.edges[0]?.is === 'contact') of(way.edges[0].part).ways.push(way);
    for (const source of sources) of(source.part).sources.push(source);
    for (const draw of draws) of(draw.part).draws.push(draw);
    return stands;
  });
  const edges = lazily(
    () => new Map(network.edges.flatMap((edge) => (edge.is === 'core' ? [[edge.core, edge] as const] : []))),
  );
  const strings = stringsOf(sources, draws, wiring);
  const feedsOn = lazily(() => {
    const on = new Map<number, Set<Supply | PanelString>>();
    // Of batteries in series also where two of them meet.
    for (const feed of [...supplies, ...strings])
      for (const { plus, minus } of 'sources' in feed ? [feed, ...feed.sources] : [feed])
        for (const net of [wiring.net(plus), wiring.net(minus)]) on.set(net, (on.get(net) ?? new Set()).add(feed));
    return on;
  });
  return {
    model,
    network,
    wiring,
    sources,
    draws,
    supplies,
    joints,
    strings,
    edgeOf: (core) => edges().get(core),
    at: (part) => at().get(part) ?? nothing,
    feedsOn: (terminal) => feedsOn().get(wiring.net(terminal)) ?? new Set(),
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
