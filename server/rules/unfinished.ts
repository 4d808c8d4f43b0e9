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

/** A statement on the line of another, of which nothing is read. */
function hidesStatement({ slug, fixes }: PlacedProblem): boolean {
  return slug === 'missing-separator' && fixes.some(({ edits }) => edits.some(({ newText }) => newText.includes('\n')));
}

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
  'ratings-unstated',
]);

/** Behind a comma more is to come, as on lines that are not indented yet. */
const goesOn = /,\s*$/u;

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
    return statement === undefined || !(unfinished.has(statement) || goesOn.test(statement.node.text));
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

/** How a wall is passed, in the words of a run or an entry that could not be read. */
const ofWalls = /\b(?:enter|gland|grommet|conduit|knockout|blank|hole)/iu;

/** A hole that stands open, or a wall of which nothing is said, where a cable or an entry says something that could not be read. */
function withoutWalls({ problems }: Model, found: readonly Finding[]): readonly Finding[] {
  const isOfWalls = ({ slug }: Finding) => slug === 'knockout-left-open' || slug === 'entry-unstated';
  if (!found.some(isOfWalls)) return found;
  const unread = new Set(
    problems.flatMap(({ slug, place }) => {
      const statement = statementAt(place);
      const word = statement?.shaped.spec?.word;
      return statement !== undefined && (word === 'run' || word === 'entry' || slug === 'unknown-statement')
        ? [statement.node.text]
        : [];
    }),
  );
  const names = (text: string, name: string | undefined) =>
    name !== undefined && text.split(/[^\p{L}\p{N}_-]+/u).includes(name);
  return found.filter(
    (one) => !isOfWalls(one) || ![...unread].some((text) => ofWalls.test(text) || names(text, one.subject)),
  );
}

/** The spares of a board of which a way could not be read. */
function withoutSpares({ problems }: Model, found: readonly Finding[]): readonly Finding[] {
  if (!found.some(({ slug }) => slug === 'spare-fuse-mismatch')) return found;
  const unread = new Set(problems.map(({ place }) => statementAt(place)));
  return found.filter(({ slug, place }) => slug !== 'spare-fuse-mismatch' || !unread.has(statementAt(place)));
}

/** First words that join nothing and name no part: one written wrong hides no conductor. */
const joinsNothing: ReadonlySet<string> = new Set(['place', 'system', 'case', 'expect']);

/** A first word for which one of those was meant for certain. */
function hidesNothing({ slug, fixes }: PlacedProblem): boolean {
  const [only, ...others] = fixes;
  const [edit, ...more] = only?.edits ?? [];
  return slug === 'unknown-statement' && others.length + more.length === 0 && joinsNothing.has(edit?.newText ?? '');
}

/** A name that could not be read, or is not written yet, may well mean the part that seems to lack something. */
export function withoutGuesses(model: Model, all: readonly Finding[], rules: readonly Rule[]): readonly Finding[] {
  const { problems } = model;
  const found = withoutSpares(model, withoutWalls(model, withoutWays(model, withoutUnfinished(model, all))));
  const guesses = new Set(rules.filter(({ restsOnAllNames }) => restsOnAllNames === true).map(({ slug }) => slug));
  if (!found.some(({ slug }) => guesses.has(slug))) return found;
  const isUnsure = problems.some(
    (one) => (hidesNames.has(one.slug) && !hidesNothing(one)) || hidesStatement(one) || isUnfinishedRun(one),
  );
  return isUnsure ? found.filter(({ slug }) => !guesses.has(slug)) : found;
}
