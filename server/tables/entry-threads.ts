/** Metric threads of cable glands: the hole each needs, and the cables it usually takes. */
import type { TableSource } from './table.ts';

export const threadSource: TableSource = {
  title: 'Metric entry threads for cable glands and conduits',
  citation: 'EN/IEC 60423, thread sizes; clearance holes of EN 62444 glands',
  units: 'mm',
  status: 'from memory',
};

/** EN 62444 does not fix cable diameters per thread: the maker’s range counts. */
export const clampSource: TableSource = {
  title: 'Outside diameters that a gland of one hole usually clamps',
  citation: 'typical figures of gland makers, which differ',
  units: 'mm',
  status: 'common practice, no source',
};

export interface EntryThread {
  readonly thread: string;
  readonly holeMm: number;
  readonly clampsMm: readonly [least: number, most: number];
}

export const entryThreads: readonly EntryThread[] = [
  { thread: 'M12', holeMm: 12.5, clampsMm: [3, 6] },
  { thread: 'M16', holeMm: 16.5, clampsMm: [4.5, 10] },
  { thread: 'M20', holeMm: 20.5, clampsMm: [6, 12] },
  { thread: 'M25', holeMm: 25.5, clampsMm: [11, 17] },
  { thread: 'M32', holeMm: 32.5, clampsMm: [15, 21] },
  { thread: 'M40', holeMm: 40.5, clampsMm: [19, 28] },
  { thread: 'M50', holeMm: 50.5, clampsMm: [27, 35] },
  { thread: 'M63', holeMm: 63.5, clampsMm: [34, 45] },
];

export function entryThread(thread: string | undefined): EntryThread | undefined {
  return entryThreads.find((one) => one.thread === thread);
}

/** Outer diameter of a thread in mm, from its name; 0 for what is no metric thread. */
export function threadMm(thread: string | undefined): number {
  return Number(/^M(\d+(?:\.\d+)?)$/.exec(thread ?? '')?.[1] ?? 0);
}
