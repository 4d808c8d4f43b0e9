/**
 * Atoms that fit no clause but nearly do: a word misspelt, a number without its unit, a quantity of another kind. With the
 * word or value put right the clause is read all the same, so that one mistake makes one problem.
 */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { openingTypes, quantityTypes } from './forms.ts';
import { type Failure, type Match, runForm } from './match.ts';
import { nearWords } from './near.ts';
import { article, capital, insert, list, nearFixes, problem, quoted } from './phrases.ts';
import type { Atom, Dimension, Problem, WordAtom } from './tree.ts';
import { dimensionNames, unitGap, usualSymbol } from './units.ts';
import type { ClauseSpec } from './vocabulary.ts';

export interface Repair {
  /** The clause as it was meant; with it `problems` says all that is wrong. */
  readonly match: Match | undefined;
  readonly problems: readonly Problem[];
  /** Without a match: the form that went furthest, and how many atoms belong to the mistake. */
  readonly failure: Failure | undefined;
  readonly skip: number;
}

/** How many mistakes in one clause are put right before it counts as unread. */
const mostMistakes = 3;

export function repairAt(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repair {
  const first = atoms[from] as Atom;
  const nearest = nearestFailure(atoms, from, spec, compiled);
  const step = nearest === undefined ? undefined : mend(atoms, nearest, spec, compiled);
  const mended = step === undefined ? undefined : repaired(atoms, from, [step], spec, compiled);
  if (mended !== undefined) return mended;
  const unkeyed = nearest === undefined || nearest.literals === 0;
  // A keyword of other kinds, said rightly, is misplaced, not misspelt.
  if (unkeyed && first.kind === 'word' && ownersOf(atoms, from, spec, compiled).length === 0) {
    const near = nearWords(first.value, openers(spec, compiled));
    const right = near.length === 1 ? repaired(atoms, from, [rightWord(first, near, spec)], spec, compiled) : undefined;
    if (right !== undefined) return right;
  }
  // A word alone that a name's slot would take says nothing of what was meant.
  const failure = unkeyed && first.kind === 'word' && atoms[nearest?.at ?? from] === undefined ? undefined : nearest;
  return { match: undefined, problems: [], failure, skip: skipped(atoms, from, failure) };
}

/** Words a clause may begin with: keywords, and colours where one may stand. */
export function openers({ byWord, open }: CompiledSpec, { words }: CompiledVocabulary): string[] {
  const coloured = open.some((form) => openingTypes(form).includes('colour'));
  return [...byWord.keys(), ...(coloured ? words.colours.keys() : [])];
}

interface Mended {
  readonly atom: Atom;
  readonly instead: Atom;
  readonly problem: Problem;
}

/** Matches with atoms put right, mending further on where it fails again. */
function repaired(
  atoms: readonly Atom[],
  from: number,
  mended: readonly Mended[],
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Repair | undefined {
  const instead = new Map(mended.map((one) => [one.atom, one.instead]));
  const right = atoms.map((atom) => instead.get(atom) ?? atom);
  let best: Match | undefined;
  for (const form of spec.beginningWith(right[from] as Atom)) {
    const { match } = runForm(form, right, from, compiled.words);
    if (match !== undefined && (best === undefined || match.end > best.end)) best = match;
  }
  const last = Math.max(...mended.map(({ atom }) => atoms.indexOf(atom)));
  if (best !== undefined && best.end > last)
    return { match: best, problems: mended.map((one) => one.problem), failure: undefined, skip: 0 };
  if (mended.length >= mostMistakes) return undefined;
  const failure = nearestFailure(right, from, spec, compiled);
  if (failure === undefined || failure.at <= last) return undefined;
  const next = mend(right, failure, spec, compiled);
  return next === undefined ? undefined : repaired(atoms, from, [...mended, next], spec, compiled);
}

/** The form that went furthest, by its keywords or by atoms of several kinds; undefined where none got going. */
function nearestFailure(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Failure | undefined {
  const first = atoms[from];
  // A keyword is no name, though a name's slot would take it.
  const forms = (first?.kind === 'word' ? spec.byWord.get(first.value) : undefined) ?? spec.forms;
  let nearest: Failure | undefined;
  for (const form of forms) {
    const { failure } = runForm(form, atoms, from, compiled.words);
    if (failure.at === from) continue;
    if (
      nearest === undefined ||
      failure.at > nearest.at ||
      (failure.at === nearest.at && failure.literals > nearest.literals)
    )
      nearest = failure;
  }
  return nearest;
}

/** The atom where a form stopped, put right if what was meant is plain. */
function mend(
  atoms: readonly Atom[],
  failure: Failure,
  spec: CompiledSpec,
  { words: { colours } }: CompiledVocabulary,
): Mended | undefined {
  const offender = atoms[failure.at];
  if (offender === undefined) return undefined;
  const words = failure.wanted.flatMap((one) => (one.is === 'word' && one.word !== '=' ? [one.word] : []));
  if (offender.kind === 'word') {
    const coloured = failure.wanted.some((one) => one.is === 'slot' && one.types.includes('colour'));
    const near = nearWords(offender.value, coloured ? [...words, ...colours.keys()] : words);
    return near.length === 1 ? rightWord(offender, near, spec) : undefined;
  }
  // Without a keyword before it, a value says itself what clause it is: nothing here was promised.
  if (failure.literals === 0) return undefined;
  const dimensions = wantedDimensions(failure);
  if (dimensions.length === 0) return undefined;
  const instead: Atom = { kind: 'blank', span: offender.span, text: offender.text, leading: offender.leading };
  if (offender.kind === 'quantity')
    return { atom: offender, instead, problem: wrongUnit(offender, dimensions, failure) };
  if (offender.kind === 'number')
    return {
      atom: offender,
      instead,
      problem: missingUnit(offender, unitsFor(dimensions, failure.clause), failure.clause.example),
    };
  return undefined;
}

function rightWord(word: WordAtom, near: readonly string[], spec: CompiledSpec): Mended {
  return {
    atom: word,
    instead: { ...word, value: near[0] as string },
    problem: problem(
      'unknown-clause',
      word.span,
      `${capital(article(spec.spec.word))} does not say ${quoted(word.value)}: did you mean ${list(near)}?`,
      nearFixes(near, word.span),
    ),
  };
}

export function wantedDimensions({ wanted }: Failure): Dimension[] {
  return [
    ...new Set(
      wanted.flatMap((one) => (one.is === 'slot' ? one.types.flatMap((type) => quantityTypes.get(type) ?? []) : [])),
    ),
  ];
}

export function wrongUnit(
  offender: Atom & { kind: 'quantity' },
  dimensions: readonly Dimension[],
  failure: Failure,
): Problem {
  return problem(
    'wrong-unit',
    offender.span,
    `${offender.text} is ${dimensionNames[offender.dimension]}, but here stands ${list(dimensions.map((d) => dimensionNames[d]))}: write it like ${quoted(failure.clause.example)}.`,
  );
}

/** A bare number (or `?`) where a quantity belongs; `symbols` are the units it may have. */
export function missingUnit(number: Atom, symbols: readonly string[], example: string): Problem {
  const written = symbols.map((symbol) => `${number.text}${unitGap(symbol)}${symbol}`);
  return problem(
    'missing-unit',
    number.span,
    `${number.text} has no unit: write ${list(written)}, as in ${quoted(example)}.`,
    symbols.map((symbol, i) =>
      insert(`Write ${written[i]}`, number.span.end, `${unitGap(symbol)}${symbol}`, symbols.length === 1),
    ),
  );
}

/** The unit of each dimension that a clause's example uses, at most four. */
export function unitsFor(dimensions: readonly Dimension[], { example }: ClauseSpec): string[] {
  return [...new Set(dimensions.flatMap((dimension) => usualSymbol(dimension, example) ?? []))].slice(0, 4);
}

/** Statements and kinds that have the clause these atoms begin, those that read it whole first. */
export function ownersOf(
  atoms: readonly Atom[],
  from: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): readonly CompiledSpec[] {
  const first = atoms[from];
  if (first?.kind !== 'word' || spec.byWord.has(first.value)) return [];
  const owners = compiled.openers.get(first.value) ?? [];
  const whole = owners.filter(({ byWord }) =>
    (byWord.get(first.value) ?? []).some((form) => runForm(form, atoms, from, compiled.words).match !== undefined),
  );
  return whole.length > 0 ? whole : owners;
}

/** How many atoms a mistake takes with it: to the atom that did not fit, or an unknown word with its values. */
function skipped(atoms: readonly Atom[], from: number, nearest: Failure | undefined): number {
  if (nearest !== undefined) return Math.max(1, Math.min(nearest.at + 1, atoms.length) - from);
  let end = from + 1;
  if (atoms[from]?.kind !== 'word') return 1;
  while (end < atoms.length && isValue(atoms[end] as Atom)) end += 1;
  return end - from;
}

const isValue = ({ kind }: Atom): boolean =>
  ['quantity', 'number', 'text', 'range', 'times', 'blank', 'date', 'clock'].includes(kind);
