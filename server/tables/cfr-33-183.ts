/** Allowable current of insulated stranded copper conductors by gauge and insulation temperature. */
import type { TableSource } from './table.ts';

export const cfr183Table5: TableSource = {
  title: 'Allowable amperage of conductors',
  citation: '33 CFR 183.425 table 5',
  units: 'AWG, A; single conductor, ambient 30 °C (50 °C in engine spaces after note 1)',
  status: 'confirmed',
};

export const cfr183Columns = [60, 75, 80, 90, 105, 125, 200] as const;

/** By gauge (0 is 1/0, -1 is 2/0 …), in the order of the columns. */
export const cfr183Rows: ReadonlyMap<number, readonly number[]> = new Map([
  [18, [10, 10, 15, 20, 20, 25, 25]],
  [16, [15, 15, 20, 25, 25, 30, 35]],
  [14, [20, 20, 25, 30, 35, 40, 45]],
  [12, [25, 25, 35, 40, 45, 50, 55]],
  [10, [40, 40, 50, 55, 60, 70, 70]],
  [8, [55, 65, 70, 70, 80, 90, 100]],
  [6, [80, 95, 100, 100, 120, 125, 135]],
  [4, [105, 125, 130, 135, 160, 170, 180]],
  [3, [120, 145, 150, 155, 180, 195, 210]],
  [2, [140, 170, 175, 180, 210, 225, 240]],
  [1, [165, 195, 210, 210, 245, 265, 280]],
  [0, [195, 230, 245, 245, 285, 305, 325]],
  [-1, [225, 265, 285, 285, 330, 355, 370]],
  [-2, [260, 310, 330, 330, 385, 410, 430]],
  [-3, [300, 360, 385, 385, 445, 475, 510]],
]);

export const cfr183EngineSpace: TableSource = {
  title: 'Correction in engine spaces',
  citation: '33 CFR 183.425 table 5 note 1 (105 °C confirmed, the others from memory)',
  units: 'multiplier',
  status: 'confirmed',
};

/** In the order of the columns. The factor of 200 °C insulation is 1, not the square-root rule's 0.94. */
export const cfr183EngineFactors: readonly number[] = [0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1];

export const cfr183Bundles: TableSource = {
  title: 'Three or more conductors of 50 V and above in one bundle',
  citation: '33 CFR 183.425 table 5 note 2, 183.435(b)',
  units: 'multiplier by number of current-carrying conductors',
  status: 'confirmed',
};

export const cfr183BundleFactors: readonly { readonly from: number; readonly factor: number }[] = [
  { from: 3, factor: 0.7 },
  { from: 4, factor: 0.6 },
  { from: 7, factor: 0.5 },
  { from: 25, factor: 0.4 },
];

export const cfr183Device: TableSource = {
  title: 'Rating of the overcurrent device',
  citation: '33 CFR 183.455(c)(1): below 50 V at most 150 % of table 5',
  units: 'multiplier',
  status: 'confirmed',
};

export const cfr183DeviceAt50: TableSource = {
  ...cfr183Device,
  citation:
    '33 CFR 183.455(c)(2): at 50 V and above at most table 5, or the next larger standard size up to 150 % of it',
};
