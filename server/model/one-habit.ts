/**
 * What someone writes in one way all through a statement is one mistake, however many words it touches: capitals, as a table is
 * kept in or a stuck key gives; units in words; commas for points.
 */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { PlacedProblem } from './model.ts';
import { statementAt } from './place.ts';

/** How many words a message repeats. */
const mostTold = 8;

export function capitalsOnce(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const alike = new Map<ShapedPlaced, Meant[]>();
  for (const one of problems) {
    const found = meantOtherwise(one);
    if (found === undefined) continue;
    const all = alike.get(found.statement);
    if (all === undefined) alike.set(found.statement, [found]);
    else all.push(found);
  }
  const places = new Map<string | undefined, number>();
  for (const { slug, subject } of alike.size === 0 ? [] : problems)
    if (slug === 'unknown-name') places.set(subject, (places.get(subject) ?? 0) + 1);
  const told = new Map<PlacedProblem, PlacedProblem | undefined>();
  for (const all of alike.values()) {
    // Names that are wrong elsewhere too are told with all their places.
    const often = ({ problem: { slug, subject } }: Meant) => slug === 'unknown-name' && (places.get(subject) ?? 0) > 1;
    if (all.length < 2 || all.some(often)) continue;
    for (const { problem } of all) told.set(problem, undefined);
    const inOrder = [...all].sort((a, b) => a.problem.place.span.start - b.problem.place.span.start);
    const [first] = inOrder;
    if (first !== undefined) told.set(first.problem, asOne(first.problem, inOrder));
  }
  return inPlace(problems, told);
}

/** What several figures of a statement are told with, by what is amiss in each. */
const figures: ReadonlyMap<string, string> = new Map([
  ['unit-spelling', 'Units are written as symbols'],
  ['decimal-comma', 'A point stands before decimals, and nothing between thousands'],
]);

export function figuresOnce(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const groups = new Map<ShapedPlaced, Map<string, PlacedProblem[]>>();
  for (const one of problems) {
    const [fix, another] = one.fixes;
    const statement = figures.has(one.slug) ? statementAt(one.place) : undefined;
    if (statement === undefined || fix?.safe !== true || another !== undefined) continue;
    const bySlug = groups.get(statement) ?? new Map<string, PlacedProblem[]>();
    groups.set(statement, bySlug.set(one.slug, [...(bySlug.get(one.slug) ?? []), one]));
  }
  const told = new Map<PlacedProblem, PlacedProblem | undefined>();
  for (const bySlug of groups.values())
    for (const [slug, all] of bySlug) {
      const [first, ...others] = all;
      if (first === undefined || others.length === 0) continue;
      for (const other of others) told.set(other, undefined);
      const right = all.map(({ fixes }) => fixes[0]?.title.replace(/^Write /u, '') ?? '');
      told.set(first, together(first, all, right, `${figures.get(slug)}: write`));
    }
  return inPlace(problems, told);
}

/** Each of those that are told otherwise as that, or not at all. */
function inPlace(
  problems: readonly PlacedProblem[],
  told: ReadonlyMap<PlacedProblem, PlacedProblem | undefined>,
): readonly PlacedProblem[] {
  return told.size === 0 ? problems : problems.flatMap((one) => (told.has(one) ? (told.get(one) ?? []) : [one]));
}

/** The first of several, telling of all and mending all. */
function together(
  first: PlacedProblem,
  all: readonly PlacedProblem[],
  words: readonly string[],
  what: string,
): PlacedProblem {
  const few = words.length > mostTold ? [...words.slice(0, mostTold), 'the others'] : words;
  return {
    ...first,
    message: `${what} ${few.slice(0, -1).join(', ')} and ${few.at(-1)}.`,
    fixes: [{ title: 'Write them so', safe: true, edits: all.flatMap(({ fixes }) => fixes[0]?.edits ?? []) }],
  };
}

interface Meant {
  readonly problem: PlacedProblem;
  readonly statement: ShapedPlaced;
  readonly words: readonly string[];
}

/** A problem whose one sure mend changes nothing but capitals. */
function meantOtherwise(problem: PlacedProblem): Meant | undefined {
  const [fix, another] = problem.fixes;
  if (fix === undefined || another !== undefined || !fix.safe) return undefined;
  const statement = statementAt(problem.place);
  if (statement === undefined) return undefined;
  const words: string[] = [];
  for (const { place, newText } of fix.edits) {
    const { start, end } = place.span;
    const written = statement.node.text.slice(start - statement.offset, end - statement.offset);
    const meant = newText.trim();
    if (
      statementAt(place) !== statement ||
      meant === '' ||
      written === meant ||
      written.toLowerCase() !== meant.toLowerCase()
    )
      return undefined;
    words.push(meant);
  }
  return { problem, statement, words };
}

function asOne(first: PlacedProblem, all: readonly Meant[]): PlacedProblem {
  const words = [...new Set(all.flatMap((one) => one.words))];
  return together(
    first,
    all.map((one) => one.problem),
    words,
    'Capitals count: these words are written',
  );
}
