/** Every table says what it is and whether it was checked against a copy of its publication. */
export interface TableSource {
  readonly title: string;
  /** Publication, number, edition and table or clause, as a message or page cites it. */
  readonly citation: string;
  readonly units: string;
  readonly status: 'confirmed' | 'from memory' | 'common practice, no source' | 'stated in the spec';
}

/**
 * The code's status word as people are told it: what is `from memory` was not checked against the printed standard. For
 * citations, pages and titles that are shown.
 */
export function tellStatus(text: string): string {
  return text.replaceAll('from memory', 'not checked against the printed standard');
}

/** Of what was checked, and of what the spec says itself, nothing more is to be told. */
export function isSure({ status }: TableSource): boolean {
  return status === 'confirmed' || status === 'stated in the spec';
}

/** How a message names a table: the citation, and whether it was checked where it was not. */
export function cite(source: TableSource): string {
  return tellStatus(isSure(source) ? source.citation : `${source.citation} (${source.status})`);
}

/** The same inside brackets, which stand once. */
export function citeWithin(source: TableSource): string {
  const citation = source.citation.replace(/ \(([^()]+)\)$/u, ', $1');
  return tellStatus(isSure(source) ? citation : `${citation}, ${source.status}`);
}
