/** Capacities of insulated conductors by gauge with their corrections, as the NEC has them. */
import type { TableSource } from './table.ts';

export const nec31016: TableSource = {
  title: 'Allowable ampacities, not more than three current-carrying conductors',
  citation: 'NEC (NFPA 70, 2020 and 2023) table 310.16',
  units: 'AWG and kcmil, A; ambient 30 °C',
  status: 'confirmed',
};

export const necColumns = [60, 75, 90] as const;

/** A gauge (0 is 1/0, -1 is 2/0 …), or the size in thousands of circular mils. */
export type NecSize = { readonly gauge: number } | { readonly kcmil: number };

export interface NecRow {
  readonly size: NecSize;
  /** In the order of the columns. */
  readonly copper: readonly [number, number, number];
  readonly aluminium: readonly [number, number, number] | undefined;
}

/** One thousand circular mils in mm²: a circle of 1 mil = 0.0254 mm across, a thousand times. */
export const kcmilMm2 = (1000 * Math.PI * 0.0254 ** 2) / 4;

const row = (size: NecSize, copper: NecRow['copper'], aluminium?: NecRow['copper']): NecRow => ({
  size,
  copper,
  aluminium,
});

export const necRows: readonly NecRow[] = [
  row({ gauge: 14 }, [15, 20, 25]),
  row({ gauge: 12 }, [20, 25, 30], [15, 20, 25]),
  row({ gauge: 10 }, [30, 35, 40], [25, 30, 35]),
  row({ gauge: 8 }, [40, 50, 55], [35, 40, 45]),
  row({ gauge: 6 }, [55, 65, 75], [40, 50, 55]),
  row({ gauge: 4 }, [70, 85, 95], [55, 65, 75]),
  row({ gauge: 3 }, [85, 100, 115], [65, 75, 85]),
  row({ gauge: 2 }, [95, 115, 130], [75, 90, 100]),
  row({ gauge: 1 }, [110, 130, 145], [85, 100, 115]),
  row({ gauge: 0 }, [125, 150, 170], [100, 120, 135]),
  row({ gauge: -1 }, [145, 175, 195], [115, 135, 150]),
  row({ gauge: -2 }, [165, 200, 225], [130, 155, 175]),
  row({ gauge: -3 }, [195, 230, 260], [150, 180, 205]),
  row({ kcmil: 250 }, [215, 255, 290], [170, 205, 230]),
  row({ kcmil: 300 }, [240, 285, 320], [195, 230, 260]),
  row({ kcmil: 350 }, [260, 310, 350], [210, 250, 280]),
  row({ kcmil: 400 }, [280, 335, 380], [225, 270, 305]),
  row({ kcmil: 500 }, [320, 380, 430], [260, 310, 350]),
  row({ kcmil: 600 }, [350, 420, 475], [285, 340, 385]),
  row({ kcmil: 750 }, [400, 475, 535], [320, 385, 435]),
  row({ kcmil: 1000 }, [455, 545, 615], [375, 445, 500]),
];

export const necAmbient: TableSource = {
  title: 'Ambient temperature correction, based on 30 °C',
  citation: 'NEC (NFPA 70, 2020 and 2023) table 310.15(B)(1)',
  units: 'multiplier, by bands of 5 °C',
  status: 'confirmed',
};

/** By the warmest ambient of each band, °C; undefined where the table has no value. In the order of the columns. */
export const necAmbientFactors: readonly {
  readonly upTo: number;
  readonly factors: readonly (number | undefined)[];
}[] = [
  { upTo: 10, factors: [1.29, 1.2, 1.15] },
  { upTo: 15, factors: [1.22, 1.15, 1.12] },
  { upTo: 20, factors: [1.15, 1.11, 1.08] },
  { upTo: 25, factors: [1.08, 1.05, 1.04] },
  { upTo: 30, factors: [1, 1, 1] },
  { upTo: 35, factors: [0.91, 0.94, 0.96] },
  { upTo: 40, factors: [0.82, 0.88, 0.91] },
  { upTo: 45, factors: [0.71, 0.82, 0.87] },
  { upTo: 50, factors: [0.58, 0.75, 0.82] },
  { upTo: 55, factors: [0.41, 0.67, 0.76] },
  { upTo: 60, factors: [undefined, 0.58, 0.71] },
  { upTo: 65, factors: [undefined, 0.47, 0.65] },
  { upTo: 70, factors: [undefined, 0.33, 0.58] },
  { upTo: 75, factors: [undefined, undefined, 0.5] },
  { upTo: 80, factors: [undefined, undefined, 0.41] },
  { upTo: 85, factors: [undefined, undefined, 0.29] },
];

export const necAdjustment: TableSource = {
  title: 'Adjustment for more than three current-carrying conductors',
  citation: 'NEC (NFPA 70, 2020 and 2023) table 310.15(C)(1)',
  units: 'multiplier by number of current-carrying conductors',
  status: 'confirmed',
};

export const necAdjustmentFactors: readonly { readonly from: number; readonly factor: number }[] = [
  { from: 1, factor: 1 },
  { from: 4, factor: 0.8 },
  { from: 7, factor: 0.7 },
  { from: 10, factor: 0.5 },
  { from: 21, factor: 0.45 },
  { from: 31, factor: 0.4 },
  { from: 41, factor: 0.35 },
];

export const necSmallConductors: TableSource = {
  title: 'Overcurrent protection of small conductors',
  citation: 'NEC (NFPA 70) 240.4(D)',
  units: 'AWG, A',
  status: 'confirmed',
};

export const necSmallAluminium: TableSource = { ...necSmallConductors, status: 'from memory' };

/** The largest device, whatever the capacity, by gauge. */
export const necSmallCopperAmps: ReadonlyMap<number, number> = new Map([
  [14, 15],
  [12, 20],
  [10, 30],
]);
export const necSmallAluminiumAmps: ReadonlyMap<number, number> = new Map([
  [12, 15],
  [10, 25],
]);
