/** Finding by name: the exact name first, then names that begin so, then whatever has these letters in it. */
import type { DrawnElement } from '../../../server/reports/picture/scene.ts';

export interface Found {
  readonly id: string;
  readonly name: string;
  /** What it is, and its title: `isolator, Roof isolator`. */
  readonly detail: string;
}

export function findByName(elements: Iterable<DrawnElement>, words: string): Found[] {
  const wanted = words.trim().toLocaleLowerCase();
  if (wanted === '') return [];
  const ranked: { readonly found: Found; readonly rank: number }[] = [];
  for (const element of elements) {
    if (element.is === 'passage') continue;
    const found = told(element);
    const rank = rankOf(found, wanted);
    if (rank !== undefined) ranked.push({ found, rank });
  }
  return ranked
    .sort((a, b) => a.rank - b.rank || (a.found.name < b.found.name ? -1 : a.found.name > b.found.name ? 1 : 0))
    .map(({ found }) => found);
}

function told(element: Exclude<DrawnElement, { readonly is: 'passage' }>): Found {
  const { id } = element;
  switch (element.is) {
    case 'part':
      return { id, name: element.name, detail: [element.kindWord, element.title].filter(isSaid).join(', ') };
    case 'core':
      return {
        id,
        name: [element.run, element.colourWord].filter(isSaid).join(' '),
        detail: `${element.from} to ${element.to}`,
      };
    default:
      return { id, name: element.name, detail: [element.is, element.title].filter(isSaid).join(', ') };
  }
}

const isSaid = (words: string | undefined): words is string => words !== undefined && words !== '';

function rankOf({ name, detail }: Found, wanted: string): number | undefined {
  const [own, other] = [name.toLocaleLowerCase(), detail.toLocaleLowerCase()];
  if (own === wanted || own.split(' ')[0] === wanted) return 0;
  if (own.startsWith(wanted)) return 1;
  if (own.includes(wanted)) return 2;
  return other.includes(wanted) ? 3 : undefined;
}
