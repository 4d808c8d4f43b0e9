/** Continuous current of single conductors in small craft by size and insulation: nothing of it was read in a copy. */
import type { TableSource } from './table.ts';

export const iso13297Table: TableSource = {
  title: 'Allowable continuous current of single conductors',
  citation: 'ISO 13297 (2014 and 2020), carried over from ISO 10133 annex A',
  units: 'mm², A; ambient 30 °C',
  status: 'from memory',
};

/** The column of 85 °C stands for 85 °C to 90 °C. */
export const iso13297Columns = [60, 70, 85, 105, 125, 200] as const;

/** In the order of the columns. That of 60 °C is unusually low. */
export const iso13297Rows: readonly { readonly areaMm2: number; readonly amps: readonly number[] }[] = [
  { areaMm2: 0.75, amps: [6, 10, 12, 16, 20, 25] },
  { areaMm2: 1, amps: [8, 14, 18, 20, 25, 35] },
  { areaMm2: 1.5, amps: [12, 18, 21, 25, 30, 40] },
  { areaMm2: 2.5, amps: [17, 25, 30, 35, 40, 45] },
  { areaMm2: 4, amps: [22, 35, 40, 45, 50, 55] },
  { areaMm2: 6, amps: [29, 45, 50, 60, 70, 75] },
  { areaMm2: 10, amps: [40, 65, 70, 90, 100, 120] },
  { areaMm2: 16, amps: [54, 90, 100, 130, 150, 170] },
  { areaMm2: 25, amps: [71, 120, 140, 170, 185, 200] },
  { areaMm2: 35, amps: [87, 160, 185, 210, 225, 240] },
  { areaMm2: 50, amps: [105, 210, 230, 270, 300, 325] },
  { areaMm2: 70, amps: [135, 265, 285, 330, 360, 375] },
  { areaMm2: 95, amps: [165, 310, 330, 390, 410, 430] },
  { areaMm2: 120, amps: [190, 360, 400, 450, 480, 520] },
  { areaMm2: 150, amps: [220, 380, 430, 475, 520, 560] },
];

export const iso13297Engine: TableSource = {
  title: 'Correction in engine spaces of up to 60 °C',
  citation: 'ISO 13297, carried over from ISO 10133 annex A',
  units: 'multiplier',
  status: 'from memory',
};

/** In the order of the columns; 60 °C insulation has none. They follow the square-root rule for 50 °C rather than for 60 °C. */
export const iso13297EngineFactors: readonly (number | undefined)[] = [undefined, 0.75, 0.82, 0.86, 0.89, 1];
export const iso13297EngineCelsius = 60;
