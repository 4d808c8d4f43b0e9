/** Which uses of names belong together. */
import type { Analysis } from '../analysis.ts';
import type { NameUse, Place } from '../model/model.ts';
import { at, useAt } from './at.ts';
import { declarationOf, ownTerminalClauseAt, terminalsDeclaredAt } from './own-terminals.ts';

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

/** All places of what stands at an offset, its declaration with them, in order of file and place, each place once. */
export function usesAt(analysis: Analysis, offset: number): NameUse[] {
  const own = ownTerminalClauseAt(analysis, offset);
  if (own !== undefined) {
    const declared = terminalsDeclaredAt(analysis.model, own.place).flatMap(({ id }) =>
      usesOf(analysis, { name: id, target: 'terminal' }),
    );
    return eachOnce([...declared, declaring(own.place, own.word)]);
  }
  const use = named(analysis, offset);
  return use === undefined ? [] : usesOf(analysis, use);
}

/** Addresses of the files that declare what stands at an offset: no spec without one of them can name the same thing. */
export function declaringFiles(analysis: Analysis, offset: number): string[] {
  const use = named(analysis, offset);
  if (use?.target === 'file') return [use.name];
  const declared = usesAt(analysis, offset).filter(({ declaration }) => declaration);
  // What a piece of a spec leaves to whoever uses it is declared there.
  return declared.length === 0 ? [analysis.uri] : [...new Set(declared.map(({ place }) => place.uri))];
}

/** All uses of the same thing, in order of file and place, each place once. */
export function usesOf({ model }: Analysis, wanted: Pick<NameUse, 'name' | 'target'>): NameUse[] {
  const terminal = wanted.target === 'terminal' ? model.terminals.get(wanted.name) : undefined;
  // What the stock of a load declares is no use of the model.
  const declared = terminal === undefined ? undefined : declarationOf(terminal);
  return eachOnce([
    ...model.usesOf(wanted.name).filter((use) => sameThing(use, wanted)),
    ...(declared === undefined ? [] : [declaring(declared, wanted.name)]),
  ]);
}

const declaring = (place: Place, name: string): NameUse => ({ place, name, target: 'terminal', declaration: true });

function eachOnce(uses: readonly NameUse[]): NameUse[] {
  const seen = new Set<string>();
  return uses
    .filter(({ place }) => {
      const key = `${place.uri}\n${place.span.start}\n${place.span.end}`;
      return !seen.has(key) && seen.add(key) !== undefined;
    })
    .sort((a, b) =>
      a.place.uri < b.place.uri ? -1 : a.place.uri > b.place.uri ? 1 : a.place.span.start - b.place.span.start,
    );
}
