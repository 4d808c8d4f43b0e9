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

export const dropNec: TableSource = {
  title: 'Voltage drop of other circuits',
  citation: 'NEC (NFPA 70) 210.19 and 215.2, informational notes: 5 % over feeder and branch together',
  units: 'part of nominal voltage',
  status: 'confirmed',
};

export const unfusedNec: TableSource = {
  title: 'Length of conductor from the battery to its protective device',
  citation: 'NEC (NFPA 70) 551.10(E)(3) and 552.10(E)(3): within 18 inches of the battery connection',
  units: 'm',
  status: 'from memory',
};

export const unfusedIso: TableSource = {
  title: 'Length of conductor from the battery to its protective device',
  citation: 'ISO 13297, after ISO 10133 clause 8.1: within 200 mm of the source along the conductor',
  units: 'm',
  status: 'from memory',
};

export const pvCurrentFactorNec: TableSource = {
  title: 'Rating needed on the panel side',
  citation: 'NEC (NFPA 70) 690.8(A) and (B): 1.25 × 1.25 times the sum of the short-circuit currents',
  units: 'multiplier',
  status: 'confirmed',
};

export const tailIec: TableSource = {
  title: 'Length of conductor from where it becomes thinner to its protective device',
  citation: 'IEC 60364-4-43 clauses 433.2.2 and 434.2.1',
  units: 'm',
  status: 'from memory',
};

export const tailCfr: TableSource = {
  title: 'Length of conductor from the source of power of its circuit to its protective device',
  citation: '33 CFR 183.455(b): within 7 inches along the conductor, 40 inches where it is sheathed all the way',
  units: 'm',
  status: 'confirmed',
};

export const tailNec: TableSource = {
  title: 'Length of a tap conductor',
  citation: 'NEC (NFPA 70) 240.21(B)(1): up to 10 ft, with a device before it of at most 10 times its ampacity',
  units: 'm',
  status: 'from memory',
};
