/** Which units a spec writes, so that it can be offered its own first. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import { lazily } from './lazily.ts';

/** How often each unit stands in the spec's own file, by its symbol. */
export type UnitsWritten = ReadonlyMap<string, number>;

/** Counted when first asked for; statements that are counted `elsewhere` are left out. */
export function unitsIn(statements: readonly ShapedPlaced[], elsewhere: ReadonlySet<ShapedPlaced>): () => UnitsWritten {
  return lazily(() => {
    const counts = new Map<string, number>();
    for (const statement of statements) {
      if (elsewhere.has(statement)) continue;
      for (const atom of statement.node.body)
        if (atom.kind === 'quantity') counts.set(atom.unit, (counts.get(atom.unit) ?? 0) + 1);
    }
    return counts;
  });
}

export function joinedUnits(pieces: readonly UnitsWritten[]): UnitsWritten {
  const counts = new Map<string, number>();
  for (const piece of pieces)
    for (const [symbol, count] of piece) counts.set(symbol, (counts.get(symbol) ?? 0) + count);
  return counts;
}
