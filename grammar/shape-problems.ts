import type { CompiledVocabulary } from './compiled.ts';
import { type Expected, openingTypes } from './forms.ts';
import { furtherEnd, takesEnds } from './further-ends.ts';
import type { Leftover, Surroundings } from './leftover.ts';
import { expectedAfter, type Failure, matchOf } from './match.ts';
import { spanOf, textOf, word } from './mend.ts';
import { dimensionsIn, isSure, missingUnit, nearKeywords, someWords, unitsFor, wantedBy, wrongUnit } from './mends.ts';
import { nameBehindMark, pointedName } from './name-problems.ts';
import { nameOfWords } from './names-of-words.ts';
import { article, capital, insert, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import { bareNumber, strayQuantity } from './quantity-problems.ts';
import { openers, ownersOf } from './repair.ts';
import type { ClauseNode } from './shaped.ts';
import { signs } from './terminal-mends.ts';
import { quotedOtherwise, titleBehind, unquoted } from './text-problems.ts';
import type { Atom, Problem, WordAtom } from './tree.ts';
import { spellings, unitOf } from './units.ts';

export function leftoverProblem(leftover: Leftover, around: Surroundings): Problem {
  const first = leftover.atoms[0] as Atom;
  return (
    pointedName(leftover.segment.atoms, leftover.from, around.compiled.words) ??
    unquoted(first, leftover, around) ??
    quotedOtherwise(first, around) ??
    furtherEnd(leftover, around) ??
    failedInside(leftover, around) ??
    wrongDate(leftover, around) ??
    partedFromClause(first, leftover, around) ??
    byKind(first, leftover, around)
  );
}

function byKind(first: Atom, leftover: Leftover, around: Surroundings): Problem {
  switch (first.kind) {
    case 'number':
    case 'blank':
      return bareNumber(first, leftover, around);
    case 'quantity':
      return strayQuantity(first, around);
    case 'word':
      return strayWord(first, leftover, around);
    case 'times':
      return severalAlike(first, around) ?? unfit(first, around);
    case 'range':
      return unfit(first, around);
    case 'text':
      return titleBehind(first, around) ?? unfit(first, around);
    case 'junk':
      if (
        first === around.node.body[0] &&
        around.spec.spec.head === 'names' &&
        nameBehindMark(around.node) !== undefined
      )
        return joinedWithAnd(first);
      if (first.text === '(' && leftover.atoms.at(-1)?.text.startsWith(')') === true) return inBrackets(leftover.atoms);
      return problem('unknown-clause', first.span, `${quoted(first.text)} means nothing here: take it out.`, [
        replace(takeOut, first.span, '', false),
      ]);
    default:
      return unfit(first, around);
  }
}

const joinedWithAnd = ({ span, leading }: Atom): Problem =>
  problem('unknown-clause', span, 'Names that belong together are joined with “and”.', [
    replace('Write and', span, leading === '' ? ' and ' : 'and', false),
  ]);

/** `(about)` behind a clause. */
function inBrackets(atoms: readonly Atom[]): Problem {
  const span = spanOf(atoms);
  return problem(
    'unknown-clause',
    span,
    `${quoted(textOf(atoms))} means nothing here: take it out, or write it behind # as a note.`,
    [replace('Take the words out', span, '', false)],
  );
}

const takeOut = 'Take it out';

/** Brackets, stars and the like in one statement are one habit. */
export function marksOnce(problems: readonly Problem[]): Problem[] {
  // The bracket before a figure was left out, the one behind it is left over.
  const isBracket = ({ message }: Problem) => /^“[([]” means nothing here/.test(message);
  const marks = problems.filter(
    (one) => one.fixes?.length === 1 && (one.fixes[0]?.title === takeOut || isBracket(one)),
  );
  const [first] = marks;
  if (first === undefined || marks.length < 2) return [...problems];
  const told = problem('unknown-clause', first.span, 'Signs such as this mean nothing here: take them out.', [
    {
      title: 'Take them out',
      safe: false,
      edits: marks.flatMap(({ fixes = [] }) => fixes.flatMap(({ edits }) => edits)),
    },
  ]);
  return problems.flatMap((one) => (one === first ? [told] : marks.includes(one) ? [] : [one]));
}

function unfit({ text, span }: Atom, { spec }: Surroundings): Problem {
  const message = `${quoted(text)} does not fit here: ${article(spec.spec.word)} says ${someWords(spec)}.`;
  return problem('unknown-clause', span, message);
}

/** `load FAN 2 x 15 W`. */
function severalAlike({ span, text }: Atom, { spec, node }: Surroundings): Problem | undefined {
  const [name] = node.names;
  if (spec.spec.head !== 'names' || name === undefined) return undefined;
  const both = `${spec.spec.word} ${name.text} and ${name.text}-2`;
  return problem(
    'unknown-clause',
    span,
    `${quoted(text)} means nothing here: several that are alike have a name each, as in “${both}”.`,
  );
}

/** The right beginning, then something else than what belongs there. */
function failedInside(leftover: Leftover, { spec, compiled }: Surroundings): Problem | undefined {
  const { failure, segment, from, atoms } = leftover;
  if (failure === undefined) return undefined;
  const { clause, literals } = failure;
  const first = atoms[0] as Atom;
  const offender = segment.atoms[from + failure.at];
  const example = quoted(clause.example);
  // Where a statement says one thing only, that is what was meant.
  const sure = isSure(first, failure) || spec.forms.length <= 2;
  if (offender === undefined) {
    // A number by itself may begin many things; a unit is what it most likely lacks.
    if (literals === 0 && (first.kind === 'number' || first.kind === 'blank')) return undefined;
    const message = `This is not finished: it reads like ${example}.`;
    return problem('unknown-clause', spanOf(atoms), message, finishing(leftover, failure, compiled));
  }
  const { words, types } = wantedBy(failure.wanted);
  const dimensions = dimensionsIn(types);
  if (literals > 0 && dimensions.length > 0) {
    if (offender.kind === 'quantity') return wrongUnit(offender, dimensions, clause);
    if (offender.kind === 'number') return missingUnit(offender, unitsFor(dimensions, clause), clause.example);
  }
  const near = offender.kind === 'word' ? nearKeywords(offender.value, words) : [];
  if (near.length > 0)
    return problem(
      'unknown-clause',
      offender.span,
      `${quoted(offender.text)} does not fit here: did you mean ${list(near)}?`,
      nearFixes(near, offender.span),
    );
  if (!sure) return undefined;
  const before = segment.atoms[from + failure.at - 1];
  if (offender.kind === 'word' && before?.kind === 'word' && before.value === offender.value)
    return problem('unknown-clause', offender.span, `${quoted(offender.text)} stands here twice: keep one.`, [
      replace('Take one out', { start: before.span.end, end: offender.span.end }, '', true),
    ]);
  const reserved = offender.kind === 'word' && compiled.words.reserved.has(offender.value);
  if (reserved && [...types].some((type) => type.startsWith('name<') || type === 'end'))
    return problem(
      'unknown-clause',
      offender.span,
      `${quoted(offender.text)} is a word of the notation, where a name belongs: write it like ${example}.`,
    );
  const instead =
    words.length > 0 && words.length <= 6 && types.size === 0 ? `write ${list(words)}, as in` : 'write it like';
  return problem('unknown-clause', offender.span, `${quoted(offender.text)} does not fit here: ${instead} ${example}.`);
}

/** `all loads on` and `all loads off` for `all loads`: words that finish a clause, where it lacks nothing else. */
function finishing({ segment, from, atoms }: Leftover, { form, wanted }: Failure, { words }: CompiledVocabulary) {
  const written = segment.atoms.slice(from);
  const { end } = spanOf(atoms);
  return wanted.flatMap((one) => {
    if (one.is !== 'word') return [];
    const match = matchOf(form, [...written, word(one.word, written)], 0, words);
    return match?.end === written.length + 1
      ? [insert(`Write ${textOf(written)} ${one.word}`, end, ` ${one.word}`, false)]
      : [];
  });
}

/** `18-04-2026` where a date stands. */
function wrongDate({ atoms, from }: Leftover, { spec, node }: Surroundings): Problem | undefined {
  const wantsDate = spec.open.some((form) => openingTypes(form)[0] === 'date');
  const first = atoms[0] as Atom;
  if (!wantsDate || from > 0 || first !== node.body[0]) return undefined;
  const line = /^[^\s,]+/.exec(node.text.slice(first.span.start))?.[0] ?? '';
  const span = { start: first.span.start, end: first.span.start + line.length };
  const [, day = '', month = '', year = ''] = /^(\d{1,2})[-./](\d{1,2})[-./](\d{4})$/.exec(line) ?? yearFirst(line);
  const date = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const possible = year !== '' && Number(month) <= 12 && Number(day) <= 31;
  return problem(
    'unknown-clause',
    span,
    `${capital(article(spec.spec.word))} begins with its date, year first: ${possible ? date : 'as in 2026-04-18'}.`,
    possible ? [replace(`Write ${date}`, span, date, false)] : [],
  );
}

/** `2026-4-8` or `2026/04/08`, in the order of a match that ends in the year. */
function yearFirst(line: string): string[] {
  const [, year = '', month = '', day = ''] = /^(\d{4})[-./](\d{1,2})[-./](\d{1,2})$/.exec(line) ?? [];
  return ['', day, month, year];
}

/** What a comma parts from the clause it belongs to, or does not go on as that clause may. */
function partedFromClause(first: Atom, leftover: Leftover, around: Surroundings): Problem | undefined {
  const { segment, from, previous } = leftover;
  const { words, types } = wantedBy(continuing(previous, around));
  if (from > 0) {
    const dimensions = first.kind === 'number' ? dimensionsIn(types) : [];
    // `along LOFT 2`, `coil 12 V 150`.
    if (previous !== undefined && dimensions.length > 0)
      return missingUnit(first, unitsFor(dimensions, previous.spec), previous.spec.example);
    if (first.kind !== 'word' || words.length === 0 || previous === undefined) return undefined;
    if (words.includes(first.value) && from + 1 === segment.atoms.length)
      return problem(
        'unknown-clause',
        first.span,
        `This is not finished: it reads like ${quoted(previous.spec.example)}.`,
      );
    const before = around.node.text.slice(previous.span.start, previous.span.end);
    return problem(
      'unknown-clause',
      first.span,
      `${quoted(first.text)} does not fit here: behind ${quoted(before)} may stand ${list(words.slice(0, 4))}.`,
      words.length === 1 ? [replace(`Write ${words[0]}`, first.span, words[0] ?? '', false)] : [],
    );
  }
  const { comma } = segment;
  if (comma === undefined || previous === undefined) return undefined;
  const quantity = first.kind === 'quantity' && dimensionsIn(types).includes(first.dimension);
  if (!quantity) return undefined;
  return problem(
    'unknown-clause',
    first.span,
    `${first.text} belongs to the clause before: inside a clause there is no comma.`,
    [replace('Take the comma out', comma.span, '', false)],
  );
}

/** What the clause before would take next. */
function continuing(previous: ClauseNode | undefined, { spec, compiled, node }: Surroundings): readonly Expected[] {
  const form = previous === undefined ? undefined : spec.forms.find(({ clause }) => clause === previous.spec);
  if (previous === undefined || form === undefined) return [];
  const { start, end } = previous.span;
  const atoms = node.body.filter(({ span, kind }) => kind !== 'line' && span.start >= start && span.end <= end);
  return expectedAfter([form], atoms, compiled.words);
}

/** `link Q1 P1-P2`: a bar is said by terminals, which come in pairs, 1 and 2 those of the first pole. */
function namesPoles({ value, span }: WordAtom, { spec }: Surroundings): Problem | undefined {
  const [, one, other] = /^p(?:ole)?(\d)-p?(?:ole)?(\d)$/i.exec(value) ?? [];
  if (one === undefined || other === undefined || !spec.open.some((form) => openingTypes(form).includes('range')))
    return undefined;
  const side = (shift: number) => `${2 * Number(one) - shift}-${2 * Number(other) - shift}`;
  const right = `${side(1)}, ${side(0)}`;
  return problem(
    'unknown-clause',
    span,
    `${quoted(value)} names poles, and a bar joins terminals: write ${right} for both sides of poles ${one} and ${other}.`,
    [replace(`Write ${right}`, span, right, false)],
  );
}

function strayWord(first: WordAtom, leftover: Leftover, around: Surroundings): Problem {
  const { atoms, segment, from } = leftover;
  const { spec, wrapper, compiled, node } = around;
  const poles = namesPoles(first, around);
  if (poles !== undefined) return poles;
  const [pole, to] = [segment.atoms[from + 1], segment.atoms[from + 2]];
  // `F1 out to LAMP:+`.
  if (pole?.kind === 'word' && to?.kind === 'word' && to.value === 'to' && spec.open.some(takesEnds)) {
    const right = `${first.text}:${signs.get(pole.text) ?? pole.text}`;
    const span = { start: first.span.start, end: pole.span.end };
    return problem('unknown-clause', span, `A colon is missing between a part and its terminal: write ${right}.`, [
      replace(`Write ${right}`, span, right, false),
    ]);
  }
  const [before, after] = [segment.atoms[from - 1], segment.atoms[from + 1]];
  // `converter CV 24 V to 12 V`: of two figures the statement says one.
  if (
    first.value === 'to' &&
    before?.kind === 'quantity' &&
    after?.kind === 'quantity' &&
    leftover.previous !== undefined
  )
    return problem(
      'unknown-clause',
      { start: before.span.start, end: after.span.end },
      `${quoted(`${before.text} to ${after.text}`)} is two figures, where one is said (${leftover.previous.spec.meaning.replace(/\.$/u, '').toLowerCase()}): leave the other out.`,
      before.dimension !== after.dimension
        ? []
        : [replace(`Write ${after.text}`, { start: before.span.start, end: after.span.end }, after.text, false)],
    );
  const what = wrapper === undefined ? article(spec.spec.word) : `${article(wrapper.spec.word)} of ${spec.spec.word}`;
  const owners = ownersOf(segment.atoms, from, spec, compiled);
  if (owners.length > 0) {
    const whose = list(owners.slice(0, 4).map((owner) => article(owner.spec.word)));
    return problem(
      'misplaced-clause',
      spanOf(atoms),
      `${capital(what)} does not say ${quoted(first.value)}: that belongs to ${whose}.`,
    );
  }
  if (
    first === node.body[0] &&
    spec.spec.head === 'names' &&
    nameBehindMark(node) !== undefined &&
    first.value !== 'and'
  )
    return joinedWithAnd(first);
  const said = saidAlready(first, leftover, spec.spec.word);
  if (said !== undefined) return said;
  const near = nearKeywords(first.value, openers(spec, compiled));
  if (near.length > 0)
    return problem(
      'unknown-clause',
      first.span,
      `${capital(what)} does not say ${quoted(first.value)}: did you mean ${list(near)}?`,
      // Read so, what follows would not fit either.
      nearFixes(near, first.span).map((fix) => ({ ...fix, safe: false })),
    );
  return (
    unitAlone(first, around) ??
    listed(first, leftover, around) ??
    nameOfWords(leftover, around) ??
    problem(
      'unknown-clause',
      first.span,
      `${capital(what)} does not say ${quoted(textOf([first]))}: it says ${someWords(spec)}.`,
    )
  );
}

/** Words behind a quantity that it says by itself: `12 V DC`, `4.2 m long`. */
const saidByUnits: ReadonlySet<string> = new Set([
  'dc',
  'long',
  'nominal',
  'rated',
  'length',
  'capacity',
  'voltage',
  'max',
  'maximum',
  'running',
  'continuous',
  'typical',
  'average',
  'normal',
  'approx',
]);

function saidAlready(first: WordAtom, { segment, from, previous }: Leftover, kind: string): Problem | undefined {
  const before = segment.atoms[from - 1];
  if (before?.kind !== 'quantity' || previous?.span.end !== before.span.end) return undefined;
  const word = first.value.toLowerCase();
  if (!saidByUnits.has(word) && word !== kind) return undefined;
  return problem(
    'unknown-clause',
    first.span,
    `${quoted(first.text)} need not be said behind ${quoted(before.text)}: leave it out.`,
    [replace('Leave it out', { start: before.span.end, end: first.span.end }, '', true)],
  );
}

/** `m` for `4.2 m`: a unit of something the statement says, without its number. */
function unitAlone(first: WordAtom, { spec, clauses }: Surroundings): Problem | undefined {
  const unit = unitOf(first.value) ?? spellings.find(({ spelling }) => spelling === first.value)?.unit;
  if (unit === undefined) return undefined;
  const meant = spec.open.find(
    (form) =>
      dimensionsIn(openingTypes(form)).includes(unit.dimension) && clauses.every((one) => one.spec !== form.clause),
  );
  return meant === undefined
    ? undefined
    : problem(
        'unknown-clause',
        first.span,
        `${quoted(first.text)} has no number before it: write it like ${quoted(meant.clause.example)}.`,
      );
}

/** Names with a comma between them that belong together: with the head, the clause before, or the clause behind. */
function listed(first: WordAtom, leftover: Leftover, around: Surroundings): Problem | undefined {
  const { segment, from, previous, atoms } = leftover;
  const { spec, wrapper, node, compiled } = around;
  if (from > 0) return undefined;
  const message = `${quoted(first.value)} stands by itself: names that belong together are joined with “and”.`;
  const { comma } = segment;
  const joinsHead = previous === undefined && wrapper === undefined && spec.spec.head === 'names';
  const wantsAnd = (expected: readonly Expected[]) => expected.some((one) => one.is === 'word' && one.word === 'and');
  if (comma !== undefined && (joinsHead || wantsAnd(continuing(previous, around)))) {
    const between = { start: comma.span.start, end: first.span.start };
    if (first.value === 'and') {
      const alone = 'Names that belong together are joined with “and” alone: take the comma before it out.';
      return problem('unknown-clause', first.span, alone, [replace('Take the comma out', between, ' ', true)]);
    }
    return problem('unknown-clause', first.span, message, [replace('Join them with and', between, ' and ', false)]);
  }
  if (atoms.length > 1 || !wantsAnd(expectedAfter(spec.open, [first], compiled.words))) return undefined;
  const [next, other] = node.body.slice(node.body.indexOf(first) + 1);
  if (next?.kind !== 'comma' || (other?.kind === 'word' && compiled.words.reserved.has(other.value))) return undefined;
  const gap = node.body[node.body.indexOf(next) + 1]?.leading === '' ? ' ' : '';
  const fixes = [replace('Join them with and', next.span, ` and${gap}`, false)];
  return problem('unknown-clause', first.span, message, fixes);
}
