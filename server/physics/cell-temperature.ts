/** What sun and air make of a panel: the temperature of its cells, and its points at another temperature than its data sheet's. */
import type { PanelPoints } from './panel-curve.ts';

/** Standard test conditions (IEC 61215): 25 °C and 1000 W/m². */
export const standardCelsius = 25;
export const standardWattsPerSquareMetre = 1000;

/**
 * Cell temperature in °C by the nominal operating cell temperature (IEC 61215): at 800 W/m² and 20 °C the cells stand at it,
 * and their rise above the air is as the sun.
 */
export function cellCelsius(airCelsius: number, noctCelsius: number, wattsPerSquareMetre: number): number {
  return airCelsius + ((noctCelsius - 20) / 800) * wattsPerSquareMetre;
}

/** Parts per kelvin, of the figures at 25 °C. */
export interface Drifts {
  readonly voc: number;
  readonly isc: number;
  readonly power: number;
}

/** However hot or cold, something is left of every figure: a straight line past what a data sheet means must not turn it round. */
const least = 0.05;

/** A figure at a temperature. */
export function drifted(value: number, perKelvin: number, celsius: number): number {
  return value * Math.max(least, 1 + perKelvin * (celsius - standardCelsius));
}

/** The four points at a cell temperature. The current at greatest power drifts as the short-circuit current does. */
export function pointsAt({ voc, isc, vmp, imp }: PanelPoints, drifts: Drifts, celsius: number): PanelPoints {
  const current = drifted(imp, drifts.isc, celsius);
  return {
    voc: drifted(voc, drifts.voc, celsius),
    isc: drifted(isc, drifts.isc, celsius),
    vmp: drifted(vmp * imp, drifts.power, celsius) / current,
    imp: current,
  };
}
