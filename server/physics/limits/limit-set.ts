/** A set of limits is code plus data: what a conductor carries, what its device may be rated, drop, unfused length. */
import type { TableSource } from '../../tables/table.ts';
import type { Size } from '../conductors.ts';
import type { CapacityTable } from './capacity-table.ts';

export interface CapacityConditions {
  readonly size: Size;
  /** Greatest temperature of the insulation, °C. */
  readonly insulationCelsius: number;
  readonly ambientCelsius: number;
  /** Other cables lying against this one. */
  readonly bunchedWith: number;
  /** Of each of them the cores that carry current, where they are known; else they are taken to be like this cable, with one core a conductor. */
  readonly bunchedCores?: readonly number[] | undefined;
  /** Cores of this cable that carry current; 1 for a single-core cable. */
  readonly cores: number;
  readonly inConduit: boolean;
  readonly engineSpace: boolean;
  readonly nominalVolts: number;
  readonly aluminium: boolean;
}

/** What lies against a cable. */
export interface Bunch {
  /** Other cables that count. */
  readonly count: number;
  /** Of each of them the cores that carry current; undefined where only their number was said. */
  readonly cores: readonly number[] | undefined;
  /** Names of cables that do not count for what little they carry. */
  readonly leftOut: readonly string[];
}

/** Conductors that carry current in a bunch, this cable's own included. */
export function conductorsBunched({ cores, bunchedWith, bunchedCores }: CapacityConditions): number {
  return cores + (bunchedCores?.reduce((sum, one) => sum + one, 0) ?? bunchedWith);
}

/** Current-carrying capacity Iz with everything that made it. */
export interface Capacity {
  readonly amps: number;
  readonly tableAmps: number;
  readonly ambientFactor: number;
  readonly bunchingFactor: number;
  /** Circuits, or conductors with a set that counts those, that lie together, this one included. */
  readonly circuits: number;
  readonly counts: 'circuits' | 'conductors';
  readonly ambientCelsius: number;
  /** Name of the place that governs, where one is known. */
  readonly place?: string | undefined;
  readonly insulationCelsius: number;
  /** What lay against the cable. */
  readonly bunch?: Bunch | undefined;
  /** Worked out from a table by a rule rather than read in it. */
  readonly derived: boolean;
  /** Why there is no capacity at all. */
  readonly reason: 'ambient-at-limit' | 'insulation-below-table' | 'size-not-in-table' | undefined;
  readonly sources: readonly TableSource[];
  /** The largest device for this size, whatever the capacity, where the set has one. */
  readonly deviceLimit?: { readonly amps: number; readonly source: TableSource } | undefined;
}

/** What a finding may rest on. */
export type Decides = 'capacity' | 'drop' | 'unfused';

export interface LimitSet {
  readonly id: string;
  readonly title: string;
  /** The published set behind one of one's own. */
  readonly base?: string | undefined;
  /** One sentence that every finding ends with which rests on what this set decides. */
  readonly cautionOn?: ((decides: Decides) => string | undefined) | undefined;
  /** The system that its sizes are usually written in. */
  readonly sizesIn: Size['system'];
  readonly table: CapacityTable;
  capacity(conditions: CapacityConditions): Capacity;
  /** Greatest device rating In for a capacity Iz, in ampere. */
  permittedDeviceAmps(
    capacity: Pick<Capacity, 'amps' | 'deviceLimit'>,
    nominalVolts: number,
  ): { readonly amps: number; readonly source: TableSource | undefined };
  /** Greatest drop, as part of the nominal voltage. */
  drop(essential: boolean): { readonly ratio: number; readonly source: TableSource };
  /** Greatest length from the battery to its first device. */
  unfusedLength(sheathed: boolean): { readonly metres: number; readonly source: TableSource };
  /**
   * Greatest length along a conductor from where it begins to the device that protects it, while the device before it is too
   * large for it; and how many times its capacity that one may be, where the set bounds it.
   */
  tail(sheathed: boolean): { readonly metres: number; readonly timesCapacity?: number; readonly source: TableSource };
  /** A cable that carries no more than this part of its grouped capacity does not count in the bunches of others. */
  readonly lightlyLoaded?: { readonly ratio: number; readonly source: TableSource } | undefined;
  /** On the panel side: rating needed over short-circuit current. */
  readonly pvFactor: { readonly factor: number; readonly source: TableSource };
}
