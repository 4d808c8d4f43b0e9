/** Every table says what it is and whether it was checked against a copy of its publication. */
export interface TableSource {
  readonly title: string;
  /** Publication, number, edition and table or clause, as a message or page cites it. */
  readonly citation: string;
  readonly units: string;
  readonly status: 'confirmed' | 'from memory' | 'common practice, no source';
}

/** How a message names a table: the citation, and that it comes from memory where it does. */
export function cite(source: TableSource): string {
  return source.status === 'confirmed' ? source.citation : `${source.citation} (${source.status})`;
}
