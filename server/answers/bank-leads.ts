/**
 * Leads between batteries in parallel that have no device between them: when one battery or the lead to it fails, the others
 * drive their short-circuit current through it, and nothing opens.
 */
import type { ConductorSize, Core, Part, Run } from '../model/model.ts';
import type { CoreEdge } from '../model/network.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import type { TableSource } from '../tables/table.ts';
import { coreOhmsAt20, insulationOf, physicalSize } from './conditions.ts';
import { FaultCircuits } from './fault-circuits.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';
import { isFar } from './separation.ts';
import { isBattery, type Supply } from './supplies.ts';

export interface BankLead {
  readonly core: Core;
  /** The others that drive through it, and those that they drive into. */
  readonly from: readonly Part[];
  readonly into: readonly Part[];
  /** What they drive, all of them full and the copper cold. */
  readonly amps: number;
  /** I²t of that over the longest time for which k²S² holds, and k²S² itself, in A²s. */
  readonly i2t: number;
  readonly withstand: number;
  readonly seconds: number;
  readonly sources: readonly TableSource[];
}

/** The batteries of one bank and its leads whose size and length are known. */
export interface UnfusedBank {
  readonly batteries: readonly Part[];
  /** Those at whose positive their string meets the others: one of each in series. */
  readonly tops: readonly Part[];
  readonly leads: readonly BankLead[];
}

export function unfusedBanks(installation: Installation, sizes: ReadonlyMap<Run, ConductorSize>): UnfusedBank[] {
  const { wiring, supplies } = installation;
  const zoneOf = ({ plus }: Supply) => wiring.zones.part[wiring.node(plus)] ?? -1;
  const partOf = ({ minus }: Supply) => wiring.whole.part[wiring.node(minus)] ?? -1;
  const circuits = new FaultCircuits(installation, (run) => coreOhmsAt20(run, sizes.get(run)));
  const groups = groupBy(supplies.filter(isBattery), (supply) => `${zoneOf(supply)} ${partOf(supply)}`);
  return [...groups.values()].flatMap((bank) => {
    if (bank.length < 2) return [];
    const zone = zoneOf(bank[0] as Supply);
    const leads = installation.network.edges.flatMap((edge) =>
      edge.is === 'core' && wiring.zones.part[wiring.node(edge.from)] === zone
        ? leadsOf(installation, circuits, sizes, bank, edge)
        : [],
    );
    const batteries = [...new Set(bank.flatMap(({ sources }) => sources.map(({ part }) => part)))];
    return [{ batteries, tops: bank.map(({ part }) => part), leads }];
  });
}

/** A conductor that parts the bank in two, in both directions. */
function leadsOf(
  installation: Installation,
  circuits: FaultCircuits,
  sizes: ReadonlyMap<Run, ConductorSize>,
  bank: readonly Supply[],
  { core, from, to, index }: CoreEdge,
): BankLead[] {
  const { wiring } = installation;
  const way = wiring.wayOf[index];
  const size = sizes.get(core.run);
  if (way === undefined || size === undefined || wiring.zones.far[way.index] === undefined) return [];
  const isAway = (node: number) => isFar(wiring.zones, way.index, way.a, node) === true;
  const isOnTo = ({ plus }: Supply) => isAway(wiring.node(plus)) === isAway(wiring.node(to));
  const sides = [bank.filter(isOnTo), bank.filter((supply) => !isOnTo(supply))] as const;
  if (sides.some((side) => side.length === 0)) return [];
  const bears = withstandI2t(physicalSize(size), { celsius: insulationOf(core.run) }, core.run.material);
  const parts = (side: readonly Supply[]) => side.flatMap(({ sources }) => sources.map(({ part }) => part));
  return [
    { driving: sides[0], driven: sides[1], end: from },
    { driving: sides[1], driven: sides[0], end: to },
  ].map(({ driving, driven, end }): BankLead => {
    const view = circuits.view(
      'greatest',
      driving.flatMap(({ sources }) => sources),
    );
    const amps = view.between(end, (driven[0] as Supply).minus);
    return {
      core,
      from: parts(driving),
      into: parts(driven),
      amps,
      i2t: amps * amps * adiabaticSeconds,
      withstand: bears.i2t,
      seconds: adiabaticSeconds,
      sources: bears.sources,
    };
  });
}
