/**
 * The whole way of a load in one case: from the supply that feeds it, out over every core, contact and bar and back, with the
 * volts lost at each. What feeds a charger or converter on the way follows as a way of its own.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { feederIn } from './drop-paths.ts';
import { type Installation, nearness } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import { pathsFrom } from './paths.ts';
import type { Draw } from './ports.ts';
import type { Supply } from './supplies.ts';

export interface WayStep {
  readonly edge: Edge;
  readonly side: 'out' | 'back';
  /** In the order in which one goes from the supply's plus to its minus. */
  readonly from: Terminal;
  readonly to: Terminal;
  /** Positive in that order. */
  readonly amps: number;
  /** Volts from `from` to `to`; over all steps they are what is missing at the load. */
  readonly dropVolts: number;
}

export interface SupplyWay {
  readonly load: Part;
  /** What the load draws by this way. */
  readonly amps: number;
  readonly source: Part;
  readonly sourceVolts: number;
  readonly loadVolts: number;
  /** Nominal voltage of the supply. */
  readonly nominalVolts: number;
  readonly steps: readonly WayStep[];
}

/**
 * The load's own way first, then that of what feeds it, up to a battery, panel or alternator. None for a part that draws
 * nothing by itself, or that no supply reaches as the contacts of this case stand.
 */
export function supplyWays(installation: Installation, part: Part, point: OperatingPoint): SupplyWay[] {
  const ways: SupplyWay[] = [];
  const seen = new Set<Part>();
  for (let fed: Part | undefined = part; fed !== undefined && !seen.has(fed); ) {
    seen.add(fed);
    const way: SupplyWay | undefined = point.converged ? wayOf(installation, fed, point) : undefined;
    if (way === undefined) break;
    ways.push(way);
    fed = way.source;
  }
  return ways;
}

function wayOf(installation: Installation, part: Part, point: OperatingPoint): SupplyWay | undefined {
  let best: { readonly draw: Draw; readonly supply: Supply; readonly amps: number } | undefined;
  for (const draw of installation.draws) {
    if (draw.part !== part || draw.is === 'pass') continue;
    const amps = point.drawAmps.get(draw) ?? 0;
    if (best !== undefined && amps <= best.amps) continue;
    const supply = feederIn(installation, draw, point);
    if (supply !== undefined) best = { draw, supply, amps };
  }
  if (best === undefined) return undefined;
  const { draw, supply, amps } = best;
  const out = stepsBetween(installation, point, supply.plus, draw.plus);
  const back = stepsBetween(installation, point, supply.minus, draw.minus);
  if (out === undefined || back === undefined) return undefined;
  const homeward = [...back].reverse().map(({ edge, from, to }) => ({ edge, from: to, to: from }));
  const stepOf =
    (side: WayStep['side']) =>
    ({ edge, from, to }: Hop): WayStep => {
      const current = point.amps[edge.index] ?? 0;
      return {
        edge,
        side,
        from,
        to,
        amps: edge.from === from ? current : -current,
        dropVolts: point.voltsAt(from) - point.voltsAt(to),
      };
    };
  return {
    load: part,
    amps,
    source: supply.part,
    sourceVolts: point.across(supply),
    loadVolts: point.across(draw),
    nominalVolts: installation.nominalOf(supply),
    steps: [...out.map(stepOf('out')), ...homeward.map(stepOf('back'))],
  };
}

interface Hop {
  readonly edge: Edge;
  readonly from: Terminal;
  readonly to: Terminal;
}

/** By the way of least resistance over what is closed; undefined when there is none. */
function stepsBetween(
  { network, wiring }: Installation,
  { connections }: OperatingPoint,
  start: Terminal,
  end: Terminal,
): Hop[] | undefined {
  const paths = pathsFrom(
    start,
    network,
    wiring.innerAt,
    (edge) => (edge.is === 'contact' && connections.closed[edge.index] !== true ? undefined : nearness(edge)),
    (terminal) => terminal === end,
  );
  if (paths.cost(end) === undefined) return undefined;
  // Nothing is lost on a way inside a part.
  return paths.steps(end).flatMap(({ edge, from, to }) => (edge === undefined ? [] : [{ edge, from, to }]));
}
