/** Limits that are not capacities: voltage drop, unfused length, panel circuits. */
import type { TableSource } from './table.ts';

export const dropEssential: TableSource = {
  title: 'Voltage drop of circuits that must not fail',
  citation: 'ISO 10133 annex C: 3 % for main feeders, navigation lights, pumps and other safety equipment',
  units: 'part of nominal voltage',
  status: 'confirmed',
};

export const dropOther: TableSource = {
  title: 'Voltage drop of other circuits',
  citation: 'ISO 10133: 10 % at full load',
  units: 'part of nominal voltage',
  status: 'from memory',
};

export const dropIec: TableSource = {
  title: 'Voltage drop of other circuits',
  citation: 'IEC 60364-5-52 table G.52.1: 5 % for uses other than lighting',
  units: 'part of nominal voltage',
  status: 'from memory',
};

export const unfusedIec: TableSource = {
  title: 'Length of conductor from the battery to its protective device',
  citation: 'IEC 60364-4-43 clause 433.2.2: up to 3 m where the risk of short-circuit and fire is kept small',
  units: 'm',
  status: 'from memory',
};

export const unfusedCfr: TableSource = {
  title: 'Length of conductor from the battery to its protective device',
  citation: '33 CFR 183.460: within 72 inches of the battery along the conductor',
  units: 'm',
  status: 'from memory',
};

export const pvCurrentFactor: TableSource = {
  title: 'Rating needed on the panel side',
  citation: 'IEC 62548: 1.25 times the sum of the short-circuit currents of the strings in parallel',
  units: 'multiplier',
  status: 'from memory',
};
