/** Everything of a spec that is the same in all cases: who feeds, who draws, and how the conductors join them. */

import { lazily } from '../model/lazily.ts';
import type { Core, Model, Run, Terminal } from '../model/model.ts';
import type { CoreEdge, Edge, Network } from '../model/network.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { coreOhmsAt20 } from './conditions.ts';
import { groupBy } from './grouping.ts';
import { type Paths, pathsFrom } from './paths.ts';
import type { Port } from './ports.ts';
import { isBattery, type Supply } from './supplies.ts';
import { referencesOf } from './zero-volts.ts';

export interface Installation extends Arrangement {
  readonly model: Model;
  readonly network: Network;
  /** Resistance of every edge by which near is told from far, in ohm. */
  readonly near: Float64Array;
  /** What is 0 V in a circuit: the first of them in a connected part. */
  readonly references: readonly Terminal[];
  /** By edge: 1 for a core whose size and length are known, so that this is its resistance at 20 °C. */
  readonly measured: Uint8Array;
  /** Nominal voltage of the whole: as stated, else that of the first supply that has one. */
  readonly systemVolts: number;
  /** Nominal voltage of a supply: its own, else that of the battery beside it, else of the whole. */
  nominalOf(supply: Supply | undefined): number;
  /** Undefined for a core of which an end is missing. */
  edgeOf(core: Core): CoreEdge | undefined;
  /**
   * The supply that feeds a port, of those on the net of its plus that `may` allows: batteries before others, then the
   * nearest by resistance, of two as near the one whose negative comes first among `references`.
   */
  feeder(port: Port, may: (supply: Supply) => boolean): Supply | undefined;
  /** The same with every contact closed. */
  usualFeeder(port: Port): Supply | undefined;
  /** Least resistance from a supply's plus and back to its minus. */
  paths(supply: Supply): { readonly out: Paths; readonly back: Paths };
}

export function installationOf(model: Model, network: Network): Installation {
  const arrangement = arrangementOf(network.layout);
  const { wiring, supplies } = arrangement;
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
  const near = new Float64Array(network.edges.length);
  const measured = new Uint8Array(network.edges.length);
  for (const edge of network.edges) {
    near[edge.index] = nearness(edge);
    if (edge.is === 'core') measured[edge.index] = isMeasured(edge.core.run) ? 1 : 0;
  }
  const pathsOf = new Map<Supply, { out: Paths; back: Paths }>();
  const paths = (supply: Supply) => {
    let known = pathsOf.get(supply);
    if (known === undefined) {
      const from = (terminal: Terminal) => pathsFrom(terminal, network, wiring.innerAt, ({ index }) => near[index]);
      known = { out: from(supply.plus), back: from(supply.minus) };
      pathsOf.set(supply, known);
    }
    return known;
  };
  const distance = (supply: Supply, { plus, minus }: Port): number => {
    const { out, back } = paths(supply);
    return (out.cost(plus) ?? Number.POSITIVE_INFINITY) + (back.cost(minus) ?? Number.POSITIVE_INFINITY);
  };
  const references = referencesOf(arrangement, network, near);
  const ranks = lazily(() => new Map(references.map((terminal, rank) => [terminal, rank])));
  const rankOf = ({ minus }: Supply): number => ranks().get(minus) ?? references.length;
  const suppliesOn = lazily(() => groupBy(supplies, ({ plus }) => wiring.net(plus)));
  const feeder = (port: Port, may: (supply: Supply) => boolean): Supply | undefined => {
    let able: Supply[] = [];
    for (const supply of suppliesOn().get(wiring.net(port.plus)) ?? [])
      if (supply.part !== port.part && may(supply)) able.push(supply);
    if (able.length > 1 && able.some(isBattery)) able = able.filter(isBattery);
    let [best] = able;
    // How far away a single one is does not matter.
    if (best === undefined || able.length === 1) return best;
    let least = distance(best, port);
    for (const supply of able.slice(1)) {
      const here = distance(supply, port);
      const asNear = here >= least * (1 - 1e-9) && here <= least * (1 + 1e-9);
      if (!(asNear ? rankOf(supply) < rankOf(best) : here < least)) continue;
      best = supply;
      least = here;
    }
    return best;
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
  const edges = lazily(
    () => new Map(network.edges.flatMap((edge) => (edge.is === 'core' ? [[edge.core, edge] as const] : []))),
  );
  const edgeOf = (core: Core) => edges().get(core);
  const own = {
    model,
    network,
    near,
    measured,
    references,
    edgeOf,
    systemVolts,
    nominalOf,
    feeder,
    usualFeeder,
    paths,
  };
  return { ...own, ...arrangement };
}

function positive(volts: number | undefined): volts is number {
  return volts !== undefined && volts > 0;
}

function isMeasured({ size, lengthMetres }: Run): boolean {
  return size !== undefined && lengthMetres !== undefined;
}

/** Resistance of an edge for telling near from far; a size that is not known yet counts as 2.5 mm². */
export function nearness(edge: Edge): number {
  if (edge.is === 'core')
    return coreOhmsAt20(edge.core.run, edge.core.run.size ?? { system: 'mm2', areaMm2: 2.5, written: '' }) ?? 0;
  return edge.is === 'bar' ? 0 : edge.ohms;
}
