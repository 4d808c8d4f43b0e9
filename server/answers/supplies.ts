/**
 * Supplies: what loads hang on. A source by itself, or batteries in series, whose joints are part of the supply and feed
 * nothing. Every battery, converter and charger output begins a supply with a nominal voltage of its own.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { Draw, Source } from './ports.ts';
import type { Wiring } from './wiring.ts';

export interface Supply {
  /** From its minus to its plus; one in the ordinary case. */
  readonly sources: readonly Source[];
  /** The one whose plus is the supply's. */
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
  readonly limitAmps: number | undefined;
  readonly nominalVolts: number | undefined;
}

export interface Supplies {
  /** All that may feed a load: panels are none, they feed a controller. */
  readonly all: readonly Supply[];
  /** Connected parts (of the whole wiring) that only join batteries in series. */
  readonly joints: ReadonlySet<number>;
}

export function isBattery({ sources }: Pick<Supply, 'sources'>): boolean {
  return sources[0]?.is === 'battery';
}

/** More batteries in series than any vehicle has: beyond it a wrong spec could make no end of chains. */
const mostChains = 256;

export function suppliesOf(sources: readonly Source[], draws: readonly Draw[], wiring: Wiring): Supplies {
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] ?? -1;
  const batteries = sources.filter(({ is }) => is === 'battery');
  const joints = seriesJoints(batteries, sources, draws, partOf);
  const above = new Map<number, Source[]>();
  for (const battery of batteries) {
    const list = above.get(partOf(battery.minus));
    if (list === undefined) above.set(partOf(battery.minus), [battery]);
    else list.push(battery);
  }
  const all: Supply[] = sources
    .filter(({ is }) => is !== 'battery' && is !== 'panel')
    .map((source) => supply([source]));
  let chains = 0;
  const climb = (chain: readonly Source[]) => {
    if (chains >= mostChains) return;
    const top = chain.at(-1) as Source;
    const at = partOf(top.plus);
    if (!joints.has(at)) {
      all.push(supply(chain));
      chains += 1;
    }
    for (const next of above.get(at) ?? []) if (!chain.includes(next)) climb([...chain, next]);
  };
  for (const battery of batteries) if (!joints.has(partOf(battery.minus))) climb([battery]);
  return { all, joints };
}

function supply(sources: readonly Source[]): Supply {
  const [bottom, top] = [sources[0] as Source, sources.at(-1) as Source];
  const volts = sources.map(({ nominalVolts }) => nominalVolts);
  return {
    sources,
    part: top.part,
    plus: top.plus,
    minus: bottom.minus,
    limitAmps: top.limitAmps,
    nominalVolts: volts.reduce((sum, one) => (sum === undefined || one === undefined ? undefined : sum + one)),
  };
}

/** Parts where batteries alone meet, some with their plus and some with their minus. */
function seriesJoints(
  batteries: readonly Source[],
  sources: readonly Source[],
  draws: readonly Draw[],
  partOf: (terminal: Terminal) => number,
): Set<number> {
  const pluses = new Set(batteries.map(({ plus }) => partOf(plus)));
  const joints = new Set(batteries.map(({ minus }) => partOf(minus)).filter((part) => pluses.has(part)));
  const others = [...draws, ...sources.filter(({ is }) => is !== 'battery')];
  for (const { plus, minus } of others) for (const end of [plus, minus]) joints.delete(partOf(end));
  // A battery shorted by its own cables is no joint.
  for (const { plus, minus } of batteries) if (partOf(plus) === partOf(minus)) joints.delete(partOf(plus));
  return joints;
}
