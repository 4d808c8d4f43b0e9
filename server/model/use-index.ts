/** Uses of names, looked up: for who asks of one name or one statement, and not of all. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import { lazily } from './lazily.ts';
import type { NameUse } from './model.ts';
import { statementAt } from './place.ts';

export interface UseIndex {
  /** Of whatever has this name, in the order of all uses; a terminal's name is its part, a colon and its marking. */
  usesOf(name: string): readonly NameUse[];
  /** Those that stand in a statement. */
  usesIn(statement: ShapedPlaced): readonly NameUse[];
}

const none: readonly NameUse[] = [];

/** Sorted out when first asked. */
export function indexOf(uses: readonly NameUse[]): UseIndex {
  const sorted = lazily(() => {
    const byName = new Map<string, NameUse[]>();
    const byStatement = new Map<ShapedPlaced | undefined, NameUse[]>();
    for (const use of uses) {
      add(byName, use.name, use);
      add(byStatement, statementAt(use.place), use);
    }
    return { byName, byStatement };
  });
  return {
    usesOf: (name) => sorted().byName.get(name) ?? none,
    usesIn: (statement) => sorted().byStatement.get(statement) ?? none,
  };
}

/** Of several pieces, each asked in turn: an edit leaves most of them sorted out. */
export function joinedIndex(pieces: readonly UseIndex[]): UseIndex {
  return {
    usesOf: (name) => pieces.flatMap((piece) => piece.usesOf(name)),
    usesIn: (statement) => pieces.flatMap((piece) => piece.usesIn(statement)),
  };
}

function add<Key>(to: Map<Key, NameUse[]>, key: Key, use: NameUse): void {
  const alike = to.get(key);
  if (alike === undefined) to.set(key, [use]);
  else alike.push(use);
}
