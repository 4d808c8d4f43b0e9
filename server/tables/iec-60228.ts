/** Greatest resistance of copper conductors at 20 °C, ohm per kilometre, by cross-section and class. */
import type { TableSource } from './table.ts';

export const iec60228: TableSource = {
  title: 'Conductors of insulated cables: maximum d.c. resistance at 20 °C',
  citation: 'IEC 60228 (2004 and 2023), tables 1, 2 and 3',
  units: 'mm², Ω/km',
  status: 'confirmed',
};

export interface ConductorRow {
  readonly areaMm2: number;
  /** Solid (class 1), stranded (class 2), flexible (class 5; class 6 has the same figures); undefined where the standard has none. */
  readonly solidPlain: number | undefined;
  readonly solidCoated: number | undefined;
  readonly strandedPlain: number | undefined;
  readonly strandedCoated: number | undefined;
  readonly flexiblePlain: number | undefined;
  readonly flexibleCoated: number | undefined;
}

const row = (
  areaMm2: number,
  solidPlain: number | undefined,
  solidCoated: number | undefined,
  strandedPlain: number | undefined,
  strandedCoated: number | undefined,
  flexiblePlain: number | undefined,
  flexibleCoated: number | undefined,
): ConductorRow => ({ areaMm2, solidPlain, solidCoated, strandedPlain, strandedCoated, flexiblePlain, flexibleCoated });

/** Class 5 at 50 mm² is slightly below class 2: so it stands in the standard. */
export const conductorRows: readonly ConductorRow[] = [
  row(0.5, 36, 36.7, 36, 36.7, 39, 40.1),
  row(0.75, 24.5, 24.8, 24.5, 24.8, 26, 26.7),
  row(1, 18.1, 18.2, 18.1, 18.2, 19.5, 20),
  row(1.5, 12.1, 12.2, 12.1, 12.2, 13.3, 13.7),
  row(2.5, 7.41, 7.56, 7.41, 7.56, 7.98, 8.21),
  row(4, 4.61, 4.7, 4.61, 4.7, 4.95, 5.09),
  row(6, 3.08, 3.11, 3.08, 3.11, 3.3, 3.39),
  row(10, 1.83, 1.84, 1.83, 1.84, 1.91, 1.95),
  row(16, 1.15, 1.16, 1.15, 1.16, 1.21, 1.24),
  row(25, 0.727, undefined, 0.727, 0.734, 0.78, 0.795),
  row(35, 0.524, undefined, 0.524, 0.529, 0.554, 0.565),
  row(50, 0.387, undefined, 0.387, 0.391, 0.386, 0.393),
  row(70, 0.268, undefined, 0.268, 0.27, 0.272, 0.277),
  row(95, 0.193, undefined, 0.193, 0.195, 0.206, 0.21),
  row(120, 0.153, undefined, 0.153, 0.154, 0.161, 0.164),
  row(150, 0.124, undefined, 0.124, 0.126, 0.129, 0.132),
  row(185, 0.101, undefined, 0.0991, 0.1, 0.106, 0.108),
  row(240, 0.0775, undefined, 0.0754, 0.0762, 0.0801, 0.0817),
];
