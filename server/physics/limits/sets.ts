/** The sets of limits there are. */
import { cfr33183 } from './cfr-33-183.ts';
import { iec60364552 } from './iec-60364-5-52.ts';
import { iso13297 } from './iso-13297.ts';
import type { LimitSet } from './limit-set.ts';
import { nec310 } from './nec-310.ts';

export const limitSets: ReadonlyMap<string, LimitSet> = new Map(
  [iec60364552, cfr33183, nec310, iso13297].map((set) => [set.id, set]),
);

/** The set named, else the default for the units the cables are written in. */
export function limitSet(id: string | undefined, mostlyAwg: boolean): LimitSet {
  return (id === undefined ? undefined : limitSets.get(id)) ?? (mostlyAwg ? cfr33183 : iec60364552);
}
