/**
 * How every set works a capacity out: the amperes that its table has for size and insulation, times a factor for the ambient,
 * times one for what lies beside. What differs from set to set is handed in as a `CapacityTable`.
 */
import { aluminiumRule } from '../../tables/factors.ts';
import type { TableSource } from '../../tables/table.ts';
import { areaMm2, type Size } from '../conductors.ts';
import type { Capacity, CapacityConditions } from './limit-set.ts';

export interface Factor {
  readonly factor: number;
  /** Where it was read; undefined for one that changes nothing, or that follows a rule of no table. */
  readonly source?: TableSource | undefined;
}

export interface AmbientFactor extends Factor {
  /** By a rule, where the set has no table for this ambient. */
  readonly derived?: boolean;
}

export interface BunchingFactor extends Factor {
  /** Circuits or conductors that lie together, this one included. */
  readonly together: number;
}

export interface TableAmps {
  readonly amps: number;
  /** Read as it stands; false where the size is none of the table's own. */
  readonly exact: boolean;
  /** Where it was read; the table's own source when unsaid. */
  readonly source?: TableSource;
  /** Rules by which it was changed since. */
  readonly rules?: readonly TableSource[];
  readonly deviceLimit?: Capacity['deviceLimit'];
}

/** Its columns are counted from 0. */
export interface CapacityTable {
  /** Insulation temperatures that it has columns for, °C, coolest first. Insulation between two stands in the cooler one. */
  readonly columns: readonly number[];
  source(column: number): TableSource;
  /** Whether the insulation stands in its column as the table says, and not by a rule. */
  listed(conditions: CapacityConditions, column: number): boolean;
  readonly counts: Capacity['counts'];
  bunching(conditions: CapacityConditions): BunchingFactor;
  /** Of the conductor's own material; undefined where the table has no such size. */
  amps(conditions: CapacityConditions, column: number): TableAmps | undefined;
  /** Undefined where the ambient leaves no room for any current. */
  ambient(conditions: CapacityConditions, column: number): AmbientFactor | undefined;
}

/** Aluminium carries this part of copper's current at the same size. */
const aluminiumPart = 0.78;

/** A copper table's ampere for the material of a conductor. */
export function ofMaterial(read: TableAmps, aluminium: boolean): TableAmps {
  return aluminium
    ? { ...read, amps: read.amps * aluminiumPart, exact: false, rules: [...(read.rules ?? []), aluminiumRule] }
    : read;
}

export function tableCapacity(table: CapacityTable, stated: CapacityConditions): Capacity {
  const [insulationCelsius, ambientCelsius] = [whole(stated.insulationCelsius), whole(stated.ambientCelsius)];
  const conditions = { ...stated, insulationCelsius, ambientCelsius };
  const { together, factor: bunchingFactor, source: bunchingSource } = table.bunching(conditions);
  const column = table.columns.findLastIndex((celsius) => celsius <= insulationCelsius);
  const none = (reason: Capacity['reason']): Capacity => ({
    ambientCelsius,
    insulationCelsius,
    bunchingFactor,
    circuits: together,
    counts: table.counts,
    amps: 0,
    tableAmps: 0,
    ambientFactor: 0,
    derived: false,
    reason,
    sources: column === -1 ? [] : [table.source(column)],
  });
  if (column === -1) return none('insulation-below-table');
  const ambient = ambientCelsius >= insulationCelsius ? undefined : table.ambient(conditions, column);
  if (ambient === undefined || ambient.factor <= 0) return none('ambient-at-limit');
  const read = table.amps(conditions, column);
  if (read === undefined) return none('size-not-in-table');
  const sources = [read.source ?? table.source(column), ...(read.rules ?? [])];
  if (ambient.source !== undefined) sources.push(ambient.source);
  if (bunchingSource !== undefined) sources.push(bunchingSource);
  return {
    ambientCelsius,
    insulationCelsius,
    bunchingFactor,
    circuits: together,
    counts: table.counts,
    amps: read.amps * ambient.factor * bunchingFactor,
    tableAmps: read.amps,
    ambientFactor: ambient.factor,
    derived: !read.exact || ambient.derived === true || !table.listed(conditions, column),
    reason: undefined,
    sources,
    deviceLimit: read.deviceLimit,
  };
}

/**
 * Tables go by whole degrees, and step there: what comes out of °F a hair beside one is that one, so that the same warmth said
 * in either unit stands on the same side of the step.
 */
function whole(celsius: number): number {
  const nearest = Math.round(celsius);
  return Math.abs(celsius - nearest) < 1e-9 ? nearest : celsius;
}

/** A size that a table lists, with what it has for it. */
export interface SizeRow {
  readonly gauge: number | undefined;
  readonly areaMm2: number;
}

/** The row of the gauge itself; for mm² that of the thickest size that is not thicker. `rows` begin with the thinnest. */
export function rowOfSize<Row extends SizeRow>(rows: readonly Row[], size: Size): Row | undefined {
  return size.system === 'awg' ? rows.find(({ gauge }) => gauge === size.gauge) : thickestWithin(rows, size);
}

/** The row of the thickest size that is not thicker. */
export function thickestWithin<Row extends SizeRow>(rows: readonly Row[], size: Size): Row | undefined {
  const area = areaMm2(size) * 1.0001;
  return rows.findLast((row) => row.areaMm2 <= area);
}

/**
 * Current goes with the root of the warmth that is left to rise: √((limit − ambient)/(reference − 30)), where the table is
 * for insulation of the reference temperature. All in °C; 0 where nothing is left.
 */
export function squareRootFactor(
  limitCelsius: number,
  ambientCelsius: number,
  referenceCelsius = limitCelsius,
): number {
  return Math.sqrt(Math.max(0, limitCelsius - ambientCelsius) / (referenceCelsius - 30));
}
