/** Degrees of protection of enclosures: what the two digits of an IP code say. */
import type { TableSource } from './table.ts';

export const ipSource: TableSource = {
  title: 'Degrees of protection provided by enclosures (IP code)',
  citation: 'IEC 60529, first and second characteristic numerals',
  units: 'none',
  status: 'confirmed',
};

const solids = [
  'not protected against touch',
  'keeps out the back of a hand',
  'keeps out fingers',
  'keeps out tools',
  'keeps out wires',
  'protected from dust',
  'dust-tight',
];

const water = [
  'not protected against water',
  'dripping water',
  'dripping water when tilted by 15°',
  'spraying water',
  'splashing water',
  'jets of water',
  'powerful jets of water',
  'a short time under water',
  'lasting immersion',
  // From memory, as the only one here.
  'jets of hot water under high pressure',
];

/** Codes that boxes and glands of vehicles usually have (common practice, no source). */
export const usualIpCodes = ['IP20', 'IP40', 'IP44', 'IP54', 'IP55', 'IP65', 'IP66', 'IP67', 'IP68'] as const;

/** `dust-tight; holds against jets of water`. Undefined for what is no code of two digits. */
export function ipMeaning(code: string): string | undefined {
  const [, first, second] = /^IP(\d)(\d)/u.exec(code) ?? [];
  const [solid, wet] = [solids[Number(first)], water[Number(second)]];
  if (solid === undefined || wet === undefined) return undefined;
  return `${solid}; ${second === '0' ? wet : `holds against ${wet}`}`;
}

export interface IpDigits {
  /** Undefined for a digit written as X, or none. */
  readonly solids: number | undefined;
  readonly water: number | undefined;
}

/** The two characteristic numerals of a code such as `IP65`, `IPX4`; undefined for what is no code. */
export function ipDigits(code: string | undefined): IpDigits | undefined {
  const [, first, second] = /^IP([\dX])([\dX])/iu.exec(code ?? '') ?? [];
  if (first === undefined || second === undefined) return undefined;
  const digit = (text: string) => (/\d/.test(text) ? Number(text) : undefined);
  return { solids: digit(first), water: digit(second) };
}

/** Second numeral that a box in the open needs at least: water may splash on it from all sides. */
export const leastOutdoors = {
  water: 4,
  source: {
    title: 'Protection against water out of doors',
    citation: 'IEC 60364-5-51 table 51A, AD4 (splashes): IPX4',
    units: 'none',
    status: 'from memory',
  } satisfies TableSource,
};
