/** What follows only from a statement that is being written, or from a name that is not known, is not told. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Model, PlacedProblem } from '../model/model.ts';
import { statementAt } from '../model/place.ts';
import type { Finding, Rule } from './rule.ts';

/** Problems behind which a name may stand that could not be read. */
const hidesNames: ReadonlySet<string> = new Set([
  'unknown-name',
  'unknown-terminal',
  'unknown-statement',
  'missing-name',
]);

/** A run of which an end is not said yet, or a core. */
function isUnfinishedRun({ slug, place, figures }: PlacedProblem): boolean {
  if (slug === 'end-missing') return true;
  if (slug === 'cores-miscounted') return Number(figures.coresSaid) > Number(figures.coresWritten);
  const shaped = statementAt(place)?.shaped;
  const isRun = shaped?.spec?.word === 'run' && shaped.wrapper === undefined;
  return isRun && !shaped.clauses.some(({ spec }) => spec.id === 'ends' || spec.id === 'spare');
}

/** What one more word of the same statement mends: `frost cut-off`, `insulated case`, `breaks 2 kA`. */
const mendedByAWord: ReadonlySet<string> = new Set([
  'case-not-bonded',
  'fuse-breaking-capacity',
  'lithium-charged-in-frost',
]);

/** A statement that lacks what it must say is still being written: it may yet say that word. */
function withoutUnfinished({ problems }: Model, found: readonly Finding[]): readonly Finding[] {
  if (!found.some(({ slug }) => mendedByAWord.has(slug))) return found;
  const unfinished = new Set<ShapedPlaced>();
  for (const { slug, place } of problems) {
    const statement = slug === 'missing-required-clause' ? statementAt(place) : undefined;
    if (statement !== undefined) unfinished.add(statement);
  }
  return found.filter(({ slug, place }) => {
    const statement = mendedByAWord.has(slug) ? statementAt(place) : undefined;
    return statement === undefined || !unfinished.has(statement);
  });
}

/** A way of a fusebox that is not finished, or stands as a statement of its own, says a fuse that could not be read. */
function withoutWays({ problems }: Model, found: readonly Finding[]): readonly Finding[] {
  const isOfWays = ({ slug, figures }: Finding) => slug === 'supply-unfused' && figures.ways !== undefined;
  if (!found.some(isOfWays)) return found;
  const unread = new Set(problems.map(({ place }) => statementAt(place)));
  const isParted = [...unread].some((statement) => statement?.shaped.node.keyword?.value === 'way');
  return found.filter((one) => !isOfWays(one) || !(isParted || unread.has(statementAt(one.place))));
}

/** A name that could not be read, or is not written yet, may well mean the part that seems to lack something. */
export function withoutGuesses(model: Model, all: readonly Finding[], rules: readonly Rule[]): readonly Finding[] {
  const { problems } = model;
  const found = withoutWays(model, withoutUnfinished(model, all));
  const guesses = new Set(rules.filter(({ restsOnAllNames }) => restsOnAllNames === true).map(({ slug }) => slug));
  if (!found.some(({ slug }) => guesses.has(slug))) return found;
  const isUnsure = problems.some((one) => hidesNames.has(one.slug) || isUnfinishedRun(one));
  return isUnsure ? found.filter(({ slug }) => !guesses.has(slug)) : found;
}
