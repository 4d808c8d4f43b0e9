/** Where a statement names a stock without taking it, that is what it lacks: `run W1 thin6 red` for `run W1 = thin6 red`. */
import type { Declaration } from './declarations.ts';
import type { PlacedProblem } from './model.ts';
import { fix, statementAt } from './place.ts';

export function tellStockUntaken(
  problems: PlacedProblem[],
  declared: (name: string) => Declaration | 'seemingly' | undefined,
): void {
  for (const [index, one] of problems.entries()) {
    if (one.slug !== 'unknown-clause') continue;
    const statement = statementAt(one.place);
    if (statement === undefined || statement.shaped.clauses.some(({ spec }) => spec.id === 'stock')) continue;
    const { offset, node } = statement;
    const word = node.text.slice(one.place.span.start - offset, one.place.span.end - offset);
    const declaration = declared(word);
    if (declaration === undefined || declaration === 'seemingly' || declaration.as !== 'stock') continue;
    problems[index] = {
      ...one,
      message: `“${word}” is stock, which is taken with =: write = ${word}.`,
      fixes: [fix(`Write = ${word}`, one.place, `= ${word}`, true)],
    };
  }
}
