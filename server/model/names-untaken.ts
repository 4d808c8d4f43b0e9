/**
 * Where a statement names stock, a place or a box without the word that takes it, that is what it lacks: `run W1 thin6 red` for
 * `run W1 = thin6 red`, `fuse F1 5 A, LOFT` for `at LOFT`.
 */
import type { Declaration } from './declarations.ts';
import type { PlacedProblem } from './model.ts';
import { fix, statementAt } from './place.ts';

interface Lacking {
  readonly clause: string;
  readonly word: string;
  /** What the name is. */
  readonly told: string;
}

function lacking({ as, origin }: Declaration, isRun: boolean): Lacking | undefined {
  if (as === 'stock') return { clause: 'stock', word: '=', told: 'is stock, which is taken with =' };
  if (as === 'place')
    return isRun
      ? { clause: 'along', word: 'along', told: 'is a place' }
      : { clause: 'at', word: 'at', told: 'is a place' };
  if (as === 'part' && !isRun && origin.statement.shaped.spec?.word === 'enclosure')
    return { clause: 'in', word: 'in', told: 'is a box' };
  return undefined;
}

export function tellNamesUntaken(
  problems: PlacedProblem[],
  declared: (name: string) => Declaration | 'seemingly' | undefined,
): void {
  for (const [index, one] of problems.entries()) {
    if (one.slug !== 'unknown-clause') continue;
    const statement = statementAt(one.place);
    if (statement === undefined) continue;
    const { offset, node, shaped } = statement;
    const name = node.text.slice(one.place.span.start - offset, one.place.span.end - offset);
    const declaration = declared(name);
    if (declaration === undefined || declaration === 'seemingly') continue;
    const lacks = lacking(declaration, shaped.spec?.word === 'run');
    if (lacks === undefined || shaped.clauses.some(({ spec }) => spec.id === lacks.clause)) continue;
    if (shaped.spec?.clauses.some(({ id }) => id === lacks.clause) !== true) continue;
    const right = `${lacks.word} ${name}`;
    problems[index] = {
      ...one,
      message: `“${name}” ${lacks.told}: write ${right}.`,
      fixes: [fix(`Write ${right}`, one.place, right, true)],
    };
  }
}
