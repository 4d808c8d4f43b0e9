/** Panels: what is taken where a data sheet is silent, and their voltage in the cold. */
import type { TableSource } from './table.ts';

export const typicalDrift: TableSource = {
  title: 'Drift of crystalline silicon panels with temperature, where none is stated',
  citation: 'drifts of typical data sheets',
  units: 'part per kelvin',
  status: 'from memory',
};

/** The middle of what data sheets say: open-circuit voltage -0.27 to -0.35, power -0.35 to -0.45, current +0.04 to +0.06 %/°C. */
export const typicalVocDrift = -0.0031;
export const typicalPowerDrift = -0.004;
export const typicalIscDrift = 0.0005;

export const nominalCellTemperature: TableSource = {
  title: 'Nominal operating cell temperature, where none is stated',
  citation: 'IEC 61215, a typical module',
  units: '°C',
  status: 'confirmed',
};

/** At 800 W/m², 20 °C, wind of 1 m/s and an open rear; the best module reaches 33 °C, the worst 58 °C. */
export const typicalNoct = 48;

export const coldVoc: TableSource = {
  title: 'Correction of the open-circuit voltage of crystalline silicon panels for cold',
  citation: 'NEC table 690.7(A), 2017 and later',
  units: 'times the voltage at 25 °C',
  status: 'from memory',
};

/** Down to a temperature in °C the factor; the first row that reaches down to it holds. */
export const coldVocFactors: readonly (readonly [downTo: number, factor: number])[] = [
  [25, 1],
  [20, 1.02],
  [15, 1.04],
  [10, 1.06],
  [5, 1.08],
  [0, 1.1],
  [-5, 1.12],
  [-10, 1.14],
  [-15, 1.16],
  [-20, 1.18],
  [-25, 1.2],
  [-30, 1.21],
  [-35, 1.23],
  [-40, 1.25],
];

/** Factor at a cell temperature; below the table the last row goes on as steeply as it fell. */
export function coldVocFactor(celsius: number): number {
  const row = coldVocFactors.find(([downTo]) => celsius >= downTo);
  return row?.[1] ?? 1.25 + (-40 - celsius) * 0.004;
}

export const controllerEfficiencySource: TableSource = {
  title: 'Efficiency of a controller that follows the greatest power',
  citation: 'common practice',
  units: 'output power over panel power',
  status: 'common practice, no source',
};

export const controllerEfficiency = 0.95;
