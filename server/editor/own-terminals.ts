/** Terminals that a load has of its own: each is declared by a `terminal` clause, of the load or of the stock it takes. */
import type { Analysis } from '../analysis.ts';
import type { Model, Place, Terminal } from '../model/model.ts';
import { placeIn, samePlace } from '../model/place.ts';
import { at } from './at.ts';

/** The name behind `terminal` that stands at a place. */
export interface OwnTerminalClause {
  readonly word: string;
  readonly place: Place;
}

/** The word behind `terminal` in a load, or in the stock of one. */
export function ownTerminalClauseAt(analysis: Analysis, offset: number): OwnTerminalClause | undefined {
  const here = at(analysis, offset);
  const { clause, value, atom } = here ?? {};
  if (here === undefined || clause?.spec.id !== 'terminal' || value?.slot !== 'name' || atom?.kind !== 'word')
    return undefined;
  return { word: atom.value, place: placeIn(here.origin, atom.span) };
}

/** Where a load's own terminal is named; undefined for those that its kind has. */
export function declarationOf({ part, spec }: Terminal): Place | undefined {
  for (const { clause, origin } of part.facts.all('terminal')) {
    const value = clause.values.find(
      ({ slot, atom }) => slot === 'name' && atom.kind === 'word' && atom.value === spec.name,
    );
    if (value !== undefined) return placeIn(origin, value.span);
  }
  return undefined;
}

/** Terminals that a clause gives: one of every part that says it or takes it from stock. */
export function terminalsDeclaredAt(model: Model, declared: Place): Terminal[] {
  return [...model.parts.values()]
    .filter(({ facts }) => facts.says('terminal'))
    .flatMap(({ terminals }) => terminals)
    .filter((terminal) => {
      const place = declarationOf(terminal);
      return place !== undefined && samePlace(place, declared);
    });
}
