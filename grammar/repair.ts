/**
 * Atoms that fit no clause but nearly do. With what is wrong put right the clause is read all the same, so that one mistake
 * makes one problem, and the rest of the statement keeps its meaning.
 */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { type Form, openingSteps, openingTypes } from './forms.ts';
import { expectedAfter, type Failure, failureOf, type Match, matchOf } from './match.ts';
import { type Mend, word, writtenAs } from './mend.ts';
import { isSure, leftOut, mendsAt, nearKeywords, nearOpener, squareMillimetres } from './mends.ts';
import { otherWords } from './missing-word.ts';
import { insert, list, problem, quoted } from './phrases.ts';
import { hyphensApart } from './sign-mends.ts';
import { joinedTerminal } from './terminal-mends.ts';
import { meantByTrade } from './trade-words.ts';
import type { Atom, Problem } from './tree.ts';
import { turnsOfPhrase } from './turns-of-phrase.ts';

/** A clause as it was meant. */
export interface Repaired {
  /** Its end counts the atoms as they stand. */
  readonly match: Match;
  readonly problems: readonly Problem[];
}

export interface Repair {
  readonly repaired: Repaired | undefined;
  /** Without it: the form that went furthest, and how many atoms belong to the mistake. */
  readonly failure: Failure | undefined;
  readonly skip: number;
}

/** How many mistakes in one clause are put right before it counts as unread. */
const mostMistakes = 3;
/** Atoms a clause is looked for in: no clause is longer, and lines of noise may be. */
const window = 200;

/** Tries to read a clause at `from`, where none matches. Places in `failure` count from there. */
export function repairAt(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  /** They begin a line below the first. */
  beginsLine: boolean,
): Repair {
  const here = atoms.slice(from, from + window);
  const first = here[0] as Atom;
  const nearest = nearestFailure(here, spec, compiled);
  const unkeyed = nearest === undefined || nearest.literals === 0;
  const proposals = [
    ...turnsOfPhrase(here, spec),
    ...(nearest === undefined ? [] : mendsFor(here, nearest, compiled)),
    ...(beginsLine ? coreNumbered(here, spec) : []),
    ...(unkeyed ? openingMends(here, spec, compiled) : []),
    ...(first.kind === 'equals'
      ? leftOut(here, (next) =>
          next === '='
            ? 'One = is enough before the name of a stock: leave the other out.'
            : `“=” takes the name of a stock: leave it out before ${quoted(next)}.`,
        )
      : []),
  ];
  for (const proposal of proposals) {
    const repaired = readWith(here, [proposal], spec, compiled);
    if (repaired !== undefined) {
      const whole = withUnitBehind(here, repaired, spec, compiled);
      return { repaired: counted(whole, from), failure: undefined, skip: 0 };
    }
  }
  // A word alone that a name's slot would take says nothing of what was meant.
  const failure = unkeyed && first.kind === 'word' && here[nearest?.at ?? 0] === undefined ? undefined : nearest;
  return { repaired: undefined, failure, skip: skipped(here, failure) };
}

/**
 * Tries to read on in the clause that begins at `start` and matched up to `at`: `enters BOX by gland 20 mm`. `doubted` when
 * what follows would otherwise say something twice.
 */
export function extendAt(
  atoms: readonly Atom[],
  start: number,
  at: number,
  form: Form,
  doubted: boolean,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired | undefined {
  const here = atoms.slice(start, start + window);
  const expected = expectedAfter([form], here.slice(0, at - start), compiled.words);
  // A clause that is whole with a name may still end in a terminal written otherwise: `to F1.in`.
  const mends =
    expected.length === 0
      ? joinedTerminal(here, at - start)
      : mendsAt(here, at - start, expected, undefined, doubted, compiled.words);
  for (const mend of mends) {
    const match = matchOf(form, applied(here, [mend]), 0, compiled.words);
    const end = match === undefined ? 0 : match.end - mend.put.length + mend.remove;
    if (match !== undefined && end > at - start) {
      const read = { match: { ...match, end }, problems: [mend.problem] };
      return counted(withUnitBehind(here, read, spec, compiled), start);
    }
  }
  return undefined;
}

/** `2.5 mm red, 2 m`: a length at `from` that a size was meant by, read as one. */
export function sizeAt(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired | undefined {
  const here = atoms.slice(from, from + window);
  const mends = spec.open.flatMap((form) => squareMillimetres(here, 0, new Set(openingTypes(form))));
  return firstRead(here, mends, from, spec, compiled);
}

/** `700 W peak` at `from`, with its keyword behind it, as the trade says it. */
export function turnedAt(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired | undefined {
  const here = atoms.slice(from, from + window);
  return firstRead(here, keywordBehind(here, spec, compiled), from, spec, compiled);
}

/** The first of some mends of the atoms at `from` with which they are read. */
function firstRead(
  here: readonly Atom[],
  mends: readonly Mend[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired | undefined {
  for (const mend of mends) {
    const repaired = readWith(here, [mend], spec, compiled);
    if (repaired !== undefined) return counted(repaired, from);
  }
  return undefined;
}

/** `torque 8 wedges`: a word behind a number that lacks its unit was meant for one, so that none may be put before it. */
function withUnitBehind(
  atoms: readonly Atom[],
  { match, problems }: Repaired,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired {
  const [number, written] = atoms.slice(match.end - 1, match.end + 1);
  const told = problems.at(-1);
  if (told?.slug !== 'missing-unit' || number?.kind !== 'number' || written?.kind !== 'word')
    return { match, problems };
  const isKnown = openers(spec, compiled).includes(written.value) || compiled.words.reserved.has(written.value);
  if (told.span.start !== number.span.start || isKnown) return { match, problems };
  const units = (told.fixes ?? []).flatMap(({ edits }) => edits.map(({ newText }) => newText.trim()));
  const span = { start: number.span.start, end: written.span.end };
  const instead = units.length === 0 ? 'write its unit as the notation has it' : `write this in ${list(units)}`;
  const problem_ = problem('unit-spelling', span, `${quoted(written.text)} is no unit here: ${instead}.`);
  return { match: { ...match, end: match.end + 1 }, problems: [...problems.slice(0, -1), problem_] };
}

function counted({ match, problems }: Repaired, from: number): Repaired {
  return { match: { ...match, end: match.end + from }, problems };
}

function mendsFor(atoms: readonly Atom[], failure: Failure, { words }: CompiledVocabulary): Mend[] {
  return mendsAt(atoms, failure.at, failure.wanted, failure.clause, isSure(atoms[0], failure), words);
}

/** Proposals for the first atom where no form gets going. */
function openingMends(atoms: readonly Atom[], spec: CompiledSpec, compiled: CompiledVocabulary): Mend[] {
  const first = atoms[0] as Atom;
  const expected = spec.forms.flatMap((form) => openingSteps(form).flatMap((step) => step.expected));
  const mends = mendsAt(atoms, 0, expected, undefined, false, compiled.words).filter(({ remove }) => remove > 1);
  if (first.kind === 'quantity') {
    const turned = keywordBehind(atoms, spec, compiled);
    if (turned.length > 0) return turned;
    const sizes = spec.open.map((form) => new Set(openingTypes(form)));
    return [...mends, ...sizes.flatMap((types) => squareMillimetres(atoms, 0, types))];
  }
  if (first.kind !== 'word') return mends;
  // A keyword of other kinds, said rightly, is misplaced, not misspelt.
  if (ownersOf(atoms, 0, spec, compiled).length > 0) return mends;
  return [
    ...mends,
    ...(isUpTo(atoms)
      ? leftOut(atoms, (text) => `“up to” need not be said before ${quoted(text)}: leave it out.`, 2)
      : []),
    ...(roughly.has(first.value.toLowerCase()) ? namedValue(atoms, spec, compiled) : []),
    ...hyphensApart(first, spec.forms),
    ...nearOpener(first, openers(spec, compiled), spec.spec.word),
    ...mendsAt(
      atoms,
      0,
      expected.filter(({ is }) => is === 'slot'),
      undefined,
      false,
      compiled.words,
    ),
    ...namedValue(atoms, spec, compiled),
    ...otherWords(atoms, spec, compiled),
  ];
}

/** `up to 30 W`. */
function isUpTo([first, second]: readonly Atom[]): boolean {
  return first?.text.toLowerCase() === 'up' && second?.text === 'to';
}

/** `1 red FB:2 to LAMP:+` for `core 1 red …`. */
function coreNumbered(atoms: readonly Atom[], { byWord }: CompiledSpec): Mend[] {
  const [number, next] = atoms;
  if (number?.kind !== 'number' || !/^\d+$/.test(number.text) || !byWord.has('core')) return [];
  if (next?.kind !== 'terminal' && next?.kind !== 'word') return [];
  const { start } = number.span;
  const put = { ...word('core', []), span: { start, end: start } };
  const told = problem('unknown-clause', number.span, `“core” is missing before ${quoted(number.text)}.`, [
    insert(`Write core ${number.text}`, start, 'core ', true),
  ]);
  return [{ at: 0, remove: 0, put: [put], problem: told }];
}

/** `60 % charge` for `charge 60 %`. */
function keywordBehind(atoms: readonly Atom[], spec: CompiledSpec, { words }: CompiledVocabulary): Mend[] {
  const [quantity, written] = atoms;
  if (quantity === undefined || written?.kind !== 'word') return [];
  const both = [quantity, written];
  // `30 A contacts`: of several, where the word is that of one.
  const meant = [
    ...meantByTrade(written.value, new Set(spec.byWord.keys())),
    written.value,
    written.value.replace(/s$/, ''),
  ];
  for (const value of meant) {
    const put = [{ ...written, value, text: value }, quantity];
    const forms = spec.byWord.get(value) ?? [];
    if (forms.some((form) => (matchOf(form, [...put, ...atoms.slice(2)], 0, words)?.end ?? 0) >= 2))
      return [writtenAs(both, 0, `${value} ${quantity.text}`, put)];
  }
  return [];
}

/** Words for a figure that is not known to the last digit, or that is the most there is. */
const roughly: ReadonlySet<string> = new Set([
  'approx',
  'about',
  'ca',
  'circa',
  'etwa',
  'environ',
  'max',
  'maximum',
  'nominal',
  'rated',
  'total',
  'draws',
  'uses',
  'takes',
  'needs',
  'typ',
  'typical',
]);

/** `length 4.2 m`: the value says itself what it is, and the word before it only names the clause. */
function namedValue(atoms: readonly Atom[], spec: CompiledSpec, compiled: CompiledVocabulary): Mend[] {
  const [first, behind] = atoms;
  if (first?.kind !== 'word') return [];
  // `ca. 4 m`: the point of an abbreviation goes with it.
  const point = behind?.kind === 'junk' && behind.text === '.' && behind.leading === '' ? 1 : 0;
  const next = atoms[1 + point];
  const isColour = next?.kind === 'word' && compiled.words.colours.has(next.value);
  if (next === undefined || (next.kind === 'word' && !isColour)) return [];
  const named = spec.beginningWith(next).filter((form) => {
    const names = [
      form.clause.id,
      ...form.elements.flatMap((element) => (element.is === 'slot' ? [element.slot] : [])),
    ];
    const alike =
      names.includes(first.value.toLowerCase()) ||
      roughly.has(first.value.toLowerCase()) ||
      nearKeywords(first.value, names).length > 0;
    return alike && matchOf(form, atoms, 1 + point, compiled.words) !== undefined;
  });
  return named.length === 0
    ? []
    : leftOut(
        atoms,
        (text) => `${quoted(first.text)} need not be said before ${quoted(text)}: leave it out.`,
        1 + point,
      );
}

/** Words a clause may begin with: keywords, and colours where one may stand. */
export function openers({ byWord, open }: CompiledSpec, { words }: CompiledVocabulary): string[] {
  const coloured = open.some((form) => openingTypes(form).includes('colour'));
  return [...byWord.keys(), ...(coloured ? words.colours.keys() : [])];
}

function applied(atoms: readonly Atom[], mends: readonly Mend[]): Atom[] {
  const right = [...atoms];
  for (const { at, remove, put } of mends) right.splice(at, remove, ...put);
  return right;
}

/** Matches with atoms put right, mending further on where it fails again. Each mend counts atoms as those before left them. */
function readWith(
  atoms: readonly Atom[],
  mends: readonly Mend[],
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repaired | undefined {
  const right = applied(atoms, mends);
  const last = mends.at(-1) as Mend;
  const done = last.at + last.put.length;
  const [first] = right;
  if (first === undefined) return undefined;
  let best: Match | undefined;
  for (const form of spec.beginningWith(first)) {
    const match = matchOf(form, right, 0, compiled.words);
    if (match !== undefined && (best === undefined || match.end > best.end)) best = match;
  }
  const problems = mends.map(({ problem }) => problem);
  // What is only left out must make what follows fit, and so must what is only put in.
  if (best !== undefined && best.end >= done + (last.put.length === 0 || last.remove === 0 ? 1 : 0)) {
    // Both ends of a run are likely written alike: `B1+ to F1.in`.
    const next = mends.length < mostMistakes ? joinedTerminal(right, best.end)[0] : undefined;
    const further =
      next === undefined || next.at < done ? undefined : readWith(atoms, [...mends, next], spec, compiled);
    if (further !== undefined) return further;
    const shift = mends.reduce((sum, { remove, put }) => sum + remove - put.length, 0);
    return { match: { ...best, end: best.end + shift }, problems };
  }
  if (mends.length >= mostMistakes) return undefined;
  const failure = nearestFailure(right, spec, compiled);
  if (failure === undefined || failure.at < done) return undefined;
  for (const next of mendsFor(right, failure, compiled)) {
    const repaired = readWith(atoms, [...mends, next], spec, compiled);
    if (repaired !== undefined) return repaired;
  }
  return undefined;
}

/** The form that went furthest, by its keywords or by atoms of several kinds; undefined where none got going. */
function nearestFailure(
  atoms: readonly Atom[],
  spec: CompiledSpec,
  { words }: CompiledVocabulary,
): Failure | undefined {
  const [first] = atoms;
  // A keyword is no name, though a name's slot would take it.
  const forms = (first?.kind === 'word' ? spec.byWord.get(first.value) : undefined) ?? spec.forms;
  let nearest: Failure | undefined;
  for (const form of forms) {
    const failure = failureOf(form, atoms, 0, words);
    if (failure.at === 0) continue;
    if (
      nearest === undefined ||
      failure.at > nearest.at ||
      (failure.at === nearest.at && failure.literals > nearest.literals)
    )
      nearest = failure;
  }
  return nearest;
}

/** Statements and kinds that have the clause these atoms begin, those that read it whole before others. */
export function ownersOf(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): readonly CompiledSpec[] {
  const first = atoms[from];
  if (first?.kind !== 'word' || spec.byWord.has(first.value)) return [];
  const here = atoms.slice(from, from + window);
  const owners = (compiled.openers.get(first.value) ?? []).map((owner) => {
    const forms = owner.byWord.get(first.value) ?? [];
    const whole = forms.some((form) => matchOf(form, here, 0, compiled.words) !== undefined);
    // `from P1:+` is not meant for a form that goes on with another word.
    return { owner, whole, begun: forms.some(({ elements: [, second] }) => second?.is !== 'word') };
  });
  const wholly = owners.filter(({ whole }) => whole);
  return (wholly.length > 0 ? wholly : owners.filter(({ begun }) => begun)).map(({ owner }) => owner);
}

/** How many atoms a mistake takes with it: to the atom that did not fit, or an unknown word with its values. */
function skipped(atoms: readonly Atom[], nearest: Failure | undefined): number {
  if (nearest !== undefined) return Math.max(1, Math.min(nearest.at + 1, atoms.length));
  let end = 1;
  if (atoms[0]?.kind === 'word') while (end < atoms.length && isValue(atoms[end] as Atom)) end += 1;
  return end;
}

const isValue = ({ kind }: Atom): boolean =>
  ['quantity', 'number', 'text', 'range', 'times', 'blank', 'date', 'clock'].includes(kind);
