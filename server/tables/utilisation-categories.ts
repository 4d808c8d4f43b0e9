/** Utilisation categories of switches and disconnectors on direct current. */
import type { TableSource } from './table.ts';

export const categorySource: TableSource = {
  title: 'Utilisation categories of switches and disconnectors, d.c.',
  citation: 'IEC 60947-3, table 2 and annex D for photovoltaic circuits; DC-PV0 from memory',
  units: 'none',
  status: 'confirmed',
};

/** By category; A is for frequent, B for infrequent operation. */
export const dcCategories: ReadonlyMap<string, string> = new Map([
  ['DC-20A', 'connecting and disconnecting without load'],
  ['DC-20B', 'connecting and disconnecting without load, now and then'],
  ['DC-21A', 'resistive loads with moderate overloads'],
  ['DC-21B', 'resistive loads with moderate overloads, now and then'],
  ['DC-22A', 'mixed resistive and inductive loads with moderate overloads'],
  ['DC-22B', 'mixed resistive and inductive loads with moderate overloads, now and then'],
  ['DC-23A', 'highly inductive loads such as motors'],
  ['DC-23B', 'highly inductive loads such as motors, now and then'],
  ['DC-PV0', 'panel circuits without load: disconnecting only'],
  ['DC-PV1', 'a string of panels without reverse and overcurrents'],
  ['DC-PV2', 'strings of panels with reverse and overcurrents'],
]);
