/** A limit’s source: short in the sentence, and whole beside it where there is more to tell of it. */
import type { Place } from '../model/model.ts';
import { citeWithin, isSure, type TableSource, tellStatus } from '../tables/table.ts';
import type { Related } from './rule.ts';

/** `IEC 60364-5-52 table G.52.1, not checked against the printed standard`, without what the table says. */
export function citedBriefly(source: TableSource): string {
  return citeWithin({ ...source, citation: brief(source) });
}

/** What the table says, for beside the finding; nothing where the sentence has all of it. */
export function saidWhole(source: TableSource, place: Place): Related[] {
  return brief(source) === source.citation ? [] : [{ message: `The limit is from ${citeWithin(source)}`, place }];
}

/** Several in one pair of brackets: those that were checked, then the others with what is to be said of them all. */
export function citedTogether(sources: readonly TableSource[]): string {
  const sure = sources.filter(isSure).map(({ citation }) => citation);
  const byStatus = new Map<string, string[]>();
  for (const { citation, status } of sources.filter((one) => !isSure(one)))
    byStatus.set(status, [...(byStatus.get(status) ?? []), citation]);
  const unsure = [...byStatus].map(([status, citations]) => tellStatus(`${citations.join(' and ')}, ${status}`));
  return [...sure, ...unsure].join('; ');
}

/** Sets of the spec’s own are cited as their author wrote it. */
function brief({ citation, status }: TableSource): string {
  const colon = status === 'stated in the spec' ? -1 : citation.indexOf(': ');
  return colon === -1 ? citation : citation.slice(0, colon);
}
