/**
 * What only follows from a mistake that is told of already is no second mistake: a name whose statement could not be read is
 * not unknown, a terminal that an unfinished run was to reach is not left out, and lines of pasted text are one block.
 */
import { nearWords } from '../../grammar/near.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import { slotNumber } from './facts.ts';
import type { ReadStatements } from './files.ts';
import type { PlacedProblem, Run, SaidInFile } from './model.ts';
import { capitalsOnce, figuresOnce } from './one-habit.ts';
import { placeIn, statementAt } from './place.ts';

export function withoutConsequences(
  { files }: ReadStatements,
  runs: () => ReadonlyMap<string, Run>,
  problems: readonly PlacedProblem[],
): readonly PlacedProblem[] {
  if (problems.length < 2) return problems;
  const known = withoutTwice(withoutMisread(problems));
  const broken = files.some(({ statements }) => statements.some(isBroken));
  const inOrder = inOrderOfFiles(files, known);
  const left = withUnfinishedRuns(files, runs, broken ? withStatements(files, inOrder) : inOrder);
  return oncePerName(figuresOnce(capitalsOnce(left)));
}

/** `FRIDGE 60 %` in a case, read as the charge of a battery: what is named is told alone. */
function withoutMisread(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const isInCase = ({ place }: PlacedProblem) =>
    ['case', 'system'].includes(statementAt(place)?.shaped.spec?.word ?? '');
  const named = problems.filter((one) => one.slug === 'unknown-name' && isInCase(one));
  if (named.length === 0) return problems;
  const within = (one: PlacedProblem, other: PlacedProblem) =>
    one.place.span.start >= other.place.span.start && one.place.span.end <= other.place.span.end;
  const namedIn = byStatement(named);
  const misread = problems.filter(
    (one) =>
      one.slug === 'unknown-clause' && namedIn.get(statementAt(one.place))?.some((name) => within(name, one)) === true,
  );
  if (misread.length === 0) return problems;
  const misreadIn = byStatement(misread);
  const left = new Set(misread);
  return problems.flatMap((one) => {
    if (left.has(one)) return [];
    if (one.slug !== 'unknown-name') return [one];
    // Another name would not make it right.
    const isMisread = misreadIn.get(statementAt(one.place))?.some((other) => within(one, other)) === true;
    return [isMisread ? { ...one, fixes: [] } : one];
  });
}

function byStatement(problems: readonly PlacedProblem[]): ReadonlyMap<ShapedPlaced | undefined, PlacedProblem[]> {
  const found = new Map<ShapedPlaced | undefined, PlacedProblem[]>();
  for (const one of problems) {
    const statement = statementAt(one.place);
    const list = found.get(statement);
    if (list === undefined) found.set(statement, [one]);
    else list.push(one);
  }
  return found;
}

/** More names than that which stand twice are no slip of the hand. */
const mostTwice = 8;

/** A name that stands twice was meant to be another: one near to it that is missed, and none else. */
function withoutTwice(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const twice = problems.flatMap(({ slug, subject }) =>
    slug === 'name-twice' && subject !== undefined ? [subject] : [],
  );
  const names = [...new Set(twice)];
  if (names.length === 0 || names.length > mostTwice) return problems;
  const isNear = ({ slug, subject }: PlacedProblem) =>
    slug === 'unknown-name' && subject !== undefined && nearWords(subject, names).length > 0;
  const missed = new Set(problems.filter(isNear).map(({ subject }) => subject));
  return missed.size > twice.length ? problems : problems.filter((one) => !isNear(one));
}

/** What is told once is told where it stands first, in whatever order it was found. */
function inOrderOfFiles(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const order = new Map(files.map(({ uri }, index) => [uri, index]));
  return problems.toSorted(
    ({ place: a }, { place: b }) =>
      (order.get(a.uri) ?? files.length) - (order.get(b.uri) ?? files.length) || a.span.start - b.span.start,
  );
}

/** Places told beside the first that names what is not there; a person finds the rest by its name. */
const mostPlaces = 20;

/** A name that is not there is one mistake, however many places name it. */
function oncePerName(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const places = new Map<string, PlacedProblem[]>();
  for (const one of problems) {
    if (one.slug !== 'unknown-name' || one.subject === undefined) continue;
    const all = places.get(one.subject);
    if (all === undefined) places.set(one.subject, [one]);
    else all.push(one);
  }
  return problems.flatMap((one) => {
    const all = one.slug === 'unknown-name' ? (places.get(one.subject ?? '') ?? []) : [];
    if (all.length < 2) return [one];
    return one === all[0] ? [namedOften(one, all)] : [];
  });
}

function namedOften(first: PlacedProblem, all: readonly PlacedProblem[]): PlacedProblem {
  return {
    ...first,
    message: `${first.message} ${all.length} places name it.`,
    related: [
      ...first.related,
      ...all.slice(1, mostPlaces).map(({ place }) => ({ message: 'It is named here too', place })),
    ],
    fixes: first.fixes.map((fix) => ({
      ...fix,
      // The hand slips once: what several statements call alike may be a thing of its own, not declared yet or noted out.
      safe: fix.safe && new Set(all.map(({ place }) => statementAt(place))).size === 1,
      title: `${fix.title} in ${all.length === 2 ? 'both' : `all ${all.length}`} places`,
      edits: all.flatMap(({ fixes }) => fixes.find(({ title }) => title === fix.title)?.edits ?? []),
    })),
  };
}

const isBroken = ({ shaped }: ShapedPlaced): boolean => shaped.problems.length > 0;
const has = ({ shaped }: ShapedPlaced, slug: string): boolean => shaped.problems.some((one) => one.slug === slug);

function withStatements(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const lost = namesLost(files);
  const torn = new Set(
    files.flatMap(({ statements }) => statements.filter((one, i) => goesOnText(one, statements[i - 1]))),
  );
  const above = new Set(files.flatMap(aboveStrays));
  const followsAnother = (one: PlacedProblem): boolean => {
    const statement = statementAt(one.place);
    if (statement !== undefined && torn.has(statement)) return true;
    if (one.slug === 'unknown-name' && one.subject !== undefined && lost.has(one.subject)) return true;
    return (
      statement !== undefined && (isInBadName(one, statement) || (above.has(statement) && isAtTornEnd(one, statement)))
    );
  };
  const left = problems.filter((one) => !followsAnother(one));
  return inBlocks(files, fencesOnce(files, indentsOnce(files, withNameless(files, left))));
}

/** Words of statements that could not be read, or of which two ran together: names among them are no others’ mistakes. */
function namesLost(files: readonly SaidInFile[]): ReadonlySet<string> {
  const lost = new Set<string>();
  for (const { statements } of files)
    for (const statement of statements) {
      const { node, shaped } = statement;
      const from = shaped.spec === undefined && isBroken(statement) ? 0 : secondStatement(statement);
      for (const [word] of from === undefined ? [] : node.text.slice(from).matchAll(/\p{L}[\p{L}\p{M}\p{N}_-]*/gu))
        lost.add(word);
    }
  return lost;
}

/** Where another statement begins in one: told of as a separator that is missing before its first word. */
function secondStatement({ node, shaped }: ShapedPlaced): number | undefined {
  return shaped.problems.find(({ slug, span }) => {
    const words = node.text.slice(span.start, span.end).split(' ');
    return slug === 'missing-separator' && words.length === 2 && vocabulary.statements.has(words[0] ?? '');
  })?.span.start;
}

/** A text over two lines leaves a quote open in each: the second line is the rest of the first; so with brackets. */
function goesOnText(statement: ShapedPlaced, before: ShapedPlaced | undefined): boolean {
  if (before === undefined) return false;
  // A closing bracket by itself belongs to the one that was told of above.
  if (/^[})\]][;,]?$/.test(statement.node.text.trim()) && /[{([]/.test(before.node.text) && isBroken(before))
    return true;
  return has(before, 'unclosed-text') && has(statement, 'unclosed-text');
}

/** Statements directly above a line that is none: most likely its beginning. */
function aboveStrays({ statements }: SaidInFile): ShapedPlaced[] {
  return statements.filter((one, i) => {
    const below = statements[i + 1];
    const touches = below !== undefined && one.offset + one.node.text.length === below.offset;
    return touches && has(below, 'unknown-statement');
  });
}

/** `BOX` of `in BOX.1`. */
function isInBadName({ slug, place: { span } }: PlacedProblem, { offset, shaped }: ShapedPlaced): boolean {
  if (slug !== 'unknown-name') return false;
  return shaped.problems.some(
    (one) => one.slug === 'bad-name' && offset + one.span.start <= span.start && span.end <= offset + one.span.end,
  );
}

const endsEarly: ReadonlySet<string> = new Set(['end-missing', 'missing-required-clause', 'unknown-clause']);

/** What the line below may well say: what seems missing, and the other half of a word at the line's end. */
function isAtTornEnd({ slug, place }: PlacedProblem, { node, offset }: ShapedPlaced): boolean {
  const atEnd = place.span.end === offset + node.text.trimEnd().length;
  return (endsEarly.has(slug) && (slug !== 'unknown-clause' || atEnd)) || (slug === 'unknown-name' && atEnd);
}

/** A statement without its name most likely had the one that is missed: as many names as such statements. */
function withNameless(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const isNameless = (one: ShapedPlaced) =>
    has(one, 'missing-name') || has(one, 'reserved-name') || (has(one, 'bad-name') && one.node.names.length === 0);
  const nameless = files.flatMap(({ statements }) => statements.filter(isNameless)).length;
  if (nameless === 0) return problems;
  const missed = new Set(problems.flatMap(({ slug, subject }) => (slug === 'unknown-name' ? [subject] : [])));
  return missed.size > nameless ? problems : problems.filter(({ slug }) => slug !== 'unknown-name');
}

const fence = /^(?:```|~~~)[^\n]*\n?/;

/** Lines of ``` around a piece of pasted text are one mistake. */
function fencesOnce(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const places = problems.flatMap(({ slug, place }) => {
    const statement = slug === 'unknown-statement' ? statementAt(place) : undefined;
    const file = files.find(({ uri }) => uri === place.uri);
    const [line] = fence.exec(statement?.node.text ?? '') ?? [];
    if (statement === undefined || file === undefined || line === undefined) return [];
    return [{ place, line: placeIn({ file, statement }, { start: 0, end: line.length }) }];
  });
  const [first, ...more] = places;
  if (first === undefined) return problems;
  const others = new Set(more.map(({ place }) => place));
  const edits = places.map(({ line }) => ({ place: line, newText: '' }));
  return problems.flatMap((one) => {
    if (others.has(one.place)) return [];
    if (one.place !== first.place) return [one];
    const message = 'Lines of ``` come along with pasted text and mean nothing here: take them out.';
    return [{ ...one, message, fixes: [{ title: 'Take them out', safe: false, edits }] }];
  });
}

/** The indent that makes a line part of the statement above. */
const isIndent = ({ fixes }: PlacedProblem): boolean =>
  fixes.length === 1 && fixes[0]?.edits.every(({ newText }) => newText !== '' && newText.trim() === '') === true;

/** Lines below each other that all belong to the statement above them. */
function indentsOnce(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const byStatement = new Map<ShapedPlaced, PlacedProblem>();
  for (const one of problems) {
    const statement = one.slug === 'unknown-statement' && isIndent(one) ? statementAt(one.place) : undefined;
    if (statement !== undefined) byStatement.set(statement, one);
  }
  if (byStatement.size < 2) return problems;
  const told = new Map<PlacedProblem, PlacedProblem | undefined>();
  for (const { statements } of files) {
    let row: PlacedProblem[] = [];
    for (const statement of [...statements, undefined]) {
      const one = statement === undefined ? undefined : byStatement.get(statement);
      if (one !== undefined) row.push(one);
      else {
        const [first, ...others] = row;
        for (const other of others) told.set(other, undefined);
        if (first !== undefined && others.length > 0) told.set(first, indentAll(first, row));
        row = [];
      }
    }
  }
  return problems.flatMap((one) => (told.has(one) ? (told.get(one) ?? []) : [one]));
}

function indentAll(first: PlacedProblem, row: readonly PlacedProblem[]): PlacedProblem {
  return {
    ...first,
    message: `These ${row.length} lines begin no statements: indent them so that they continue the statement above.`,
    fixes: [
      {
        title: 'Indent them, as part of the statement above',
        safe: false,
        edits: row.flatMap(({ fixes }) => fixes[0]?.edits ?? []),
      },
    ],
  };
}

/** Neighbouring lines that are no statements, such as pasted text, as one; not where each says what was meant. */
function inBlocks(files: readonly SaidInFile[], problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const blockOf = new Map<ShapedPlaced, Block>();
  for (const file of files)
    for (const block of blocksIn(file)) for (const statement of block.statements) blockOf.set(statement, block);
  if (blockOf.size === 0) return problems;
  return problems.flatMap((one) => {
    const statement = statementAt(one.place);
    const block = statement === undefined ? undefined : blockOf.get(statement);
    if (block === undefined) return [one];
    return one.slug === 'unknown-statement' && statement === block.statements[0] ? [asBlock(one, block)] : [];
  });
}

interface Block {
  readonly file: SaidInFile;
  readonly statements: readonly ShapedPlaced[];
}

function blocksIn(file: SaidInFile): Block[] {
  const blocks: ShapedPlaced[][] = [];
  let open: ShapedPlaced[] | undefined;
  for (const statement of file.statements) {
    const { spec, wrapper } = statement.shaped;
    if (!has(statement, 'unknown-statement') || spec !== undefined || wrapper !== undefined) {
      open = undefined;
      continue;
    }
    if (open === undefined) {
      open = [];
      blocks.push(open);
    }
    open.push(statement);
  }
  const isMeant = ({ shaped }: ShapedPlaced) => shaped.problems.every(({ fixes = [] }) => fixes.length > 0);
  // Where most lines say what was meant, those that do not are told one by one too.
  const isNoise = (statements: readonly ShapedPlaced[]) => 2 * statements.filter(isMeant).length <= statements.length;
  return blocks
    .filter((statements) => statements.length > 1 && isNoise(statements))
    .map((statements) => ({ file, statements }));
}

function asBlock(first: PlacedProblem, { file, statements }: Block): PlacedProblem {
  const lines = statements.flatMap((statement) => {
    const starts = [...statement.node.text.matchAll(/^[^\S\n]*\S/gm)].map(({ index }) => index);
    return starts.map((start) => placeIn({ file, statement }, { start, end: start }));
  });
  return {
    ...first,
    message: `These ${lines.length} lines are no statements: take them out, or begin each with # to keep them as notes.`,
    figures: { lines: lines.length },
    fixes: [{ title: 'Make notes of them', safe: false, edits: lines.map((place) => ({ place, newText: '# ' })) }],
  };
}

/** Terminals that seem left out, where runs without all their ends make up for as many. */
function withUnfinishedRuns(
  files: readonly SaidInFile[],
  runs: () => ReadonlyMap<string, Run>,
  problems: readonly PlacedProblem[],
): readonly PlacedProblem[] {
  const isLeftOut = ({ slug }: PlacedProblem) => slug === 'terminal-unconnected';
  const leftOut = problems.filter(isLeftOut);
  if (leftOut.length === 0) return problems;
  const terminals = leftOut.reduce((sum, { figures }) => sum + String(figures.terminals).split(' ').length, 0);
  const miscounted = new Set(problems.flatMap(({ slug, subject }) => (slug === 'cores-miscounted' ? [subject] : [])));
  let ends = 0;
  const known = new Set<ShapedPlaced>();
  for (const run of runs().values()) {
    const { statement } = run.origin;
    known.add(statement);
    if (isBroken(statement) || miscounted.has(run.name) || endless(run)) ends += endsMissing(run);
  }
  // A run without a name, or with one that was taken, joins nothing.
  for (const { statements } of files)
    for (const statement of statements) {
      const isRun = statement.shaped.spec?.word === 'run' && statement.shaped.wrapper === undefined;
      if (isRun && !known.has(statement)) ends += 2;
    }
  return terminals <= ends ? problems.filter((one) => !isLeftOut(one)) : problems;
}

const endless = ({ cores }: Run): boolean =>
  cores.length === 0 || cores.some(({ spare, from, to }) => !spare && (from ?? to) === undefined);

function endsMissing({ cores, facts }: Run): number {
  const times = facts.slot('size', 'cores');
  const said = times === undefined ? 1 : (slotNumber(times) ?? 1);
  const open = cores.reduce(
    (sum, { spare, from, to }) => sum + (spare ? 0 : (from === undefined ? 1 : 0) + (to === undefined ? 1 : 0)),
    0,
  );
  return open + 2 * Math.max(0, said - cores.length);
}
