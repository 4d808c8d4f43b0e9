/** Names that statements use and none declares yet: whoever writes the runs first declares these parts next. */
import type { StatementSpec } from '../../../grammar/vocabulary.ts';
import type { Analysis } from '../../analysis.ts';
import { allKinds } from '../../kinds/all.ts';
import type { PlacedProblem } from '../../model/model.ts';
import { statementAt } from '../../model/place.ts';

export interface Undeclared {
  readonly name: string;
  /** What names it first, as `run W3`. */
  readonly by: string;
  /** The type of the slot that takes it there. */
  readonly type: string;
  /** It stands there without a terminal. */
  readonly bare: boolean;
}

const known = new WeakMap<Analysis, readonly Undeclared[]>();

export function undeclared(analysis: Analysis): readonly Undeclared[] {
  let found = known.get(analysis);
  if (found === undefined) {
    found = analysis.model.problems.flatMap(usedBy);
    known.set(analysis, found);
  }
  return found;
}

function usedBy({ slug, subject, place }: PlacedProblem): Undeclared[] {
  const statement = slug === 'unknown-name' ? statementAt(place) : undefined;
  if (statement === undefined || subject === undefined) return [];
  const { node, shaped, offset } = statement;
  const at = place.span.start - offset;
  const value = shaped.clauses.flatMap(({ values }) => values).find(({ span }) => span.start <= at && at < span.end);
  const by = [node.keyword?.value, node.names[0]?.value].filter((word) => word !== undefined).join(' ');
  return value === undefined ? [] : [{ name: subject, by, type: value.type, bare: value.atom.kind === 'word' }];
}

const stemOf = (name: string): string | undefined => /^(.*\D)\d+$/su.exec(name)?.[1];

/** Kinds by the letters that the trade gives their names, as in the example of each; none where a name has no number. */
const byStem = new Map<string, Set<string>>();
const unnumbered = new Set<string>();
for (const { word, example } of allKinds) {
  const [first, name = ''] = example.split(' ');
  const stem = first === word ? stemOf(name) : undefined;
  if (stem === undefined) unnumbered.add(word);
  else byStem.set(stem, (byStem.get(stem) ?? new Set()).add(word));
}

/** Kinds that a name most likely is of: those of its letters, for a plain word those that are called by words. */
export function kindsOf({ name, type }: Undeclared): ReadonlySet<string> {
  const [, named] = /^name<(place|enclosure|entry|stock)>$/u.exec(type) ?? [];
  if (named !== undefined) return new Set([named]);
  if (type !== 'end' && type !== 'terminal' && !type.includes('part')) return new Set();
  return byStem.get(stemOf(name) ?? '') ?? unnumbered;
}

/** Those that a statement may declare, in the order in which they are used. */
export function undeclaredFor(analysis: Analysis, { word }: StatementSpec): readonly Undeclared[] {
  return undeclared(analysis).filter((one) => kindsOf(one).has(word));
}
