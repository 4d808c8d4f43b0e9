/** Which uses of names belong together. */
import type { Analysis } from '../analysis.ts';
import type { NameUse } from '../model/model.ts';
import { at, useAt } from './at.ts';

/** What a place names: a use of the model, or a declared name that nothing else uses. */
export function named(analysis: Analysis, offset: number): NameUse | undefined {
  return at(analysis, offset) === undefined ? undefined : useAt(analysis, offset);
}

/** Cases have names of their own; a terminal is itself; all others share one space of names. */
export function sameThing(a: Pick<NameUse, 'name' | 'target'>, b: Pick<NameUse, 'name' | 'target'>): boolean {
  return a.name === b.name && space(a.target) === space(b.target);
}

function space(target: NameUse['target']): string {
  return target === 'case' || target === 'terminal' || target === 'file' ? target : 'name';
}

/** All uses of the same thing, in order of file and place, each place once. */
export function usesOf(analysis: Analysis, wanted: Pick<NameUse, 'name' | 'target'>): NameUse[] {
  const seen = new Set<string>();
  return analysis.model.uses
    .filter((use) => sameThing(use, wanted))
    .filter(({ place }) => {
      const key = `${place.uri}\n${place.span.start}\n${place.span.end}`;
      return !seen.has(key) && seen.add(key) !== undefined;
    })
    .sort((a, b) =>
      a.place.uri < b.place.uri ? -1 : a.place.uri > b.place.uri ? 1 : a.place.span.start - b.place.span.start,
    );
}
