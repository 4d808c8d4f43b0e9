/** References: every use of a name, in this spec and in the other specs that share a file with it. */
import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { NameUse } from '../model/model.ts';
import { samePlace } from '../model/place.ts';
import { ownTerminalClauseAt, terminalsDeclaredAt } from './own-terminals.ts';
import { locationOf } from './ranges.ts';
import { named, usesAt, usesOf } from './uses.ts';

/** `others` are analyses of specs that share a file with this one, so that a stock knows who takes it. */
export function references(
  analysis: Analysis,
  offset: number,
  options: { readonly declaration: boolean },
  others: readonly Analysis[] = [],
): Location[] {
  const own = usesAt(analysis, offset);
  const found = new Map<string, Location>();
  const add = (one: Analysis, uses: readonly NameUse[]) => {
    for (const { place, declaration } of uses) {
      if (declaration && !options.declaration) continue;
      const location = locationOf(one, place);
      found.set(`${location.uri}\n${place.span.start}\n${place.span.end}`, location);
    }
  };
  add(analysis, own);
  for (const other of others) add(other, elsewhere(analysis, offset, own, other));
  return [...found.values()];
}

/** Uses of the same thing in another spec: one that is declared at the same place, not one that has the name by chance. */
function elsewhere(analysis: Analysis, offset: number, own: readonly NameUse[], other: Analysis): NameUse[] {
  const declared = own.filter(({ declaration }) => declaration).map(({ place }) => place);
  if (ownTerminalClauseAt(analysis, offset) !== undefined)
    return declared.flatMap((place) =>
      terminalsDeclaredAt(other.model, place).flatMap(({ id }) => usesOf(other, { name: id, target: 'terminal' })),
    );
  const use = named(analysis, offset);
  if (use === undefined) return [];
  const uses = usesOf(other, use);
  if (use.target === 'file') return uses;
  // What a piece of a spec names and does not declare is declared by whoever uses the piece.
  const isSame =
    declared.length === 0
      ? other.model.files.some(({ uri }) => uri === analysis.uri)
      : uses.some(({ declaration, place }) => declaration && declared.some((one) => samePlace(one, place)));
  return isSame ? uses : [];
}
