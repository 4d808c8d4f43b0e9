/** A set of limits of one's own: a published set with some of its figures replaced. */
import type { TableSource } from '../../tables/table.ts';
import { areaMm2, type Size } from '../conductors.ts';
import { type CapacityTable, ofMaterial, tableCapacity } from './capacity-table.ts';
import type { CapacityConditions, LimitSet } from './limit-set.ts';

export interface OwnCapacity {
  readonly size: Size;
  /** Of one copper conductor alone at 30 °C. */
  readonly amps: number;
  /** Least temperature of the insulation that it is for, °C; undefined for any. */
  readonly insulationCelsius: number | undefined;
}

/** What is undefined, the published set decides. */
export interface OwnLimits {
  readonly id: string;
  readonly title: string;
  /** What findings cite for every figure that is its own. */
  readonly source: TableSource;
  readonly factor: number | undefined;
  readonly capacities: readonly OwnCapacity[];
  /** Greatest device rating over capacity. */
  readonly deviceRatio: number | undefined;
  /** Parts of the nominal voltage. */
  readonly dropRatio: number | undefined;
  readonly essentialDropRatio: number | undefined;
  readonly unfusedMetres: number | undefined;
  readonly sheathedUnfusedMetres: number | undefined;
  readonly tailMetres: number | undefined;
  readonly sheathedTailMetres: number | undefined;
  readonly lightlyLoadedRatio: number | undefined;
  readonly pvFactor: number | undefined;
}

export function ownLimitSet(base: LimitSet, own: OwnLimits): LimitSet {
  const { source } = own;
  const table = ownTable(base.table, own);
  const { deviceRatio, lightlyLoadedRatio: light, pvFactor } = own;
  return {
    ...base,
    id: own.id,
    title: own.title,
    base: base.id,
    cautionOn: base.cautionOn === undefined ? undefined : (decides) => cautionOn(base, own, decides),
    table,
    capacity: (conditions) => tableCapacity(table, conditions),
    permittedDeviceAmps:
      deviceRatio === undefined ? base.permittedDeviceAmps : ({ amps }) => ({ amps: amps * deviceRatio, source }),
    drop: (essential) => drop(base, own, essential),
    unfusedLength: (sheathed) => unfusedLength(base, own, sheathed),
    tail: (sheathed) => tail(base, own, sheathed),
    lightlyLoaded: light === undefined ? base.lightlyLoaded : light > 0 ? { ratio: light, source } : undefined,
    pvFactor: pvFactor === undefined ? base.pvFactor : { factor: pvFactor, source },
  };
}

function cautionOn(base: LimitSet, own: OwnLimits, decides: Parameters<NonNullable<LimitSet['cautionOn']>>[0]) {
  if (decides === 'drop' && own.dropRatio !== undefined && own.essentialDropRatio !== undefined) return undefined;
  if (decides === 'unfused' && own.unfusedMetres !== undefined) return undefined;
  return base.cautionOn?.(decides);
}

/** Where only the usual drop is its own and is the smaller, what must not fail is held to it too. */
function drop(base: LimitSet, { dropRatio, essentialDropRatio, source }: OwnLimits, essential: boolean) {
  const usual = dropRatio === undefined ? base.drop(false) : { ratio: dropRatio, source };
  if (!essential) return usual;
  if (essentialDropRatio !== undefined) return { ratio: essentialDropRatio, source };
  const strict = base.drop(true);
  return usual.ratio < strict.ratio ? usual : strict;
}

function unfusedLength(base: LimitSet, { unfusedMetres, sheathedUnfusedMetres, source }: OwnLimits, sheathed: boolean) {
  const metres = sheathed ? (sheathedUnfusedMetres ?? unfusedMetres) : unfusedMetres;
  return metres === undefined ? base.unfusedLength(sheathed) : { metres, source };
}

/** How many times its capacity the device before it may be stays as published. */
function tail(base: LimitSet, { tailMetres, sheathedTailMetres, source }: OwnLimits, sheathed: boolean) {
  const metres = sheathed ? (sheathedTailMetres ?? tailMetres) : tailMetres;
  const published = base.tail(sheathed);
  return metres === undefined ? published : { ...published, metres, source };
}

function ownTable(base: CapacityTable, own: OwnLimits): CapacityTable {
  const { factor = 1, source } = own;
  if (factor === 1 && own.capacities.length === 0) return base;
  return {
    ...base,
    amps(conditions, column) {
      const row = rowFor(own, conditions);
      if (row !== undefined) return ofMaterial({ amps: row.amps * factor, exact: true, source }, conditions.aluminium);
      const read = base.amps(conditions, column);
      if (read === undefined || factor === 1) return read;
      return { ...read, amps: read.amps * factor, rules: [...(read.rules ?? []), source] };
    },
    ambient(conditions, column) {
      const there = base.ambient(conditions, column);
      if (there === undefined || rowFor(own, conditions) === undefined) return there;
      // What is stated is for 30 °C as it stands, also where the published set carries better insulation on by a rule.
      const reference = base.ambient({ ...conditions, ambientCelsius: 30, engineSpace: false }, column)?.factor ?? 1;
      return { ...there, factor: there.factor / reference };
    },
    listed: (conditions, column) => rowFor(own, conditions) !== undefined || base.listed(conditions, column),
  };
}

/** That of the best insulation which the conductor still has; one for any insulation last. */
function rowFor({ capacities }: OwnLimits, { size, insulationCelsius }: CapacityConditions): OwnCapacity | undefined {
  let found: OwnCapacity | undefined;
  for (const row of capacities) {
    if (!sameSize(row.size, size) || (row.insulationCelsius ?? 0) > insulationCelsius) continue;
    if (found === undefined || (row.insulationCelsius ?? 0) > (found.insulationCelsius ?? 0)) found = row;
  }
  return found;
}

function sameSize(one: Size, other: Size): boolean {
  return one.system === other.system && Math.abs(areaMm2(one) / areaMm2(other) - 1) < 1e-9;
}
