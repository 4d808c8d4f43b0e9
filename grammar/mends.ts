/**
 * What may have been meant where a form does not go on: a word misspelt, a unit left out, a dash for `to`. Each proposal says
 * which atoms to read otherwise, and how that is told.
 */
import { unitsOfSizes } from './cable-sizes.ts';
import type { CompiledSpec } from './compiled.ts';
import { type Expected, quantityTypes } from './forms.ts';
import type { Failure, MatchWords } from './match.ts';
import { type Mend, spanOf, textOf, word, writtenAs } from './mend.ts';
import { nearWords } from './near.ts';
import { article, capital, insert, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import { arrow, glued, inQuotes, insteadOfJunk } from './sign-mends.ts';
import { joinedTerminal } from './terminal-mends.ts';
import { meantByTrade, polesByTrade } from './trade-words.ts';
import type { Atom, Dimension, Problem, WordAtom } from './tree.ts';
import { bound } from './turns-of-phrase.ts';
import { twoFigures } from './two-figures.ts';
import { dimensionNames, plainNumber, symbolsOf, unitGap, unitOf, usualSymbol } from './units.ts';
import type { ClauseSpec } from './vocabulary.ts';

/** What a form wanted where it failed, told apart. */
export interface Wanted {
  readonly words: readonly string[];
  readonly types: ReadonlySet<string>;
}

export function wantedBy(expected: readonly Expected[]): Wanted {
  const words = expected.flatMap((one) => (one.is === 'word' && one.word !== '=' ? [one.word] : []));
  return {
    words: [...new Set(words)],
    types: new Set(expected.flatMap((one) => (one.is === 'slot' ? one.types : []))),
  };
}

export function dimensionsIn(types: Iterable<string>): Dimension[] {
  return [...new Set([...types].flatMap((type) => quantityTypes.get(type) ?? []))];
}

/** Words that may be written for what is wanted, colours among them. */
function wordsFor({ words, types }: Wanted, { colours }: MatchWords): readonly string[] {
  return types.has('colour') ? [...words, ...colours.keys()] : words;
}

/**
 * What the trade means by the word, else near words, but of one or two letters only those with the same letters: `ot` for
 * `to`, never `in` for `IP`.
 */
export function nearKeywords(written: string, known: Iterable<string>): string[] {
  const meant = meantByTrade(written, new Set(known));
  if (meant.length > 0) return meant;
  const letters = (text: string) => [...text.toLowerCase()].sort().join('');
  const near = nearWords(written, known);
  return written.length > 2 ? near : near.filter((one) => letters(one) === letters(written));
}

/** Proposals for the atom at `at`, likeliest first, by what is wanted there; `sure` when what precedes it leaves no doubt. */
export function mendsAt(
  atoms: readonly Atom[],
  at: number,
  expected: readonly Expected[],
  clause: ClauseSpec | undefined,
  sure: boolean,
  words: MatchWords,
): Mend[] {
  const offender = atoms[at];
  if (offender === undefined) return [];
  const wanted = wantedBy(expected);
  const known = wordsFor(wanted, words);
  return [
    ...joinedTerminal(atoms, at),
    ...squareMillimetres(atoms, at, wanted.types),
    ...hyphenated(atoms, at, known),
    ...inQuotes(atoms, at, wanted.types),
    ...glued(offender, at, wanted.words),
    ...arrow(atoms, at, wanted.words),
    ...bound(atoms, at, wanted.words),
    ...poleCount(atoms, at),
    ...(offender.kind === 'word' ? nearWord(offender, at, known) : []),
    ...code(atoms, at, wanted.types),
    ...(wanted.types.has('range') ? range(atoms, at) : []),
    ...(offender.kind === 'junk' ? insteadOfJunk(atoms, at, wanted.words) : []),
    ...twoFigures(atoms, at, dimensionsIn(wanted.types)),
    ...(sure && clause !== undefined ? otherQuantity(atoms, at, wanted, clause) : []),
    ...(sure ? missingWord(atoms, at, wanted.words) : []),
    ...(sure ? saidBetween(atoms, at, wanted) : []),
  ];
}

/** One word nearly a keyword. */
function nearWord(written: WordAtom, at: number, known: readonly string[]): Mend[] {
  const near = nearKeywords(written.value, known);
  if (near.length !== 1) return [];
  const message = `${quoted(written.text)} does not fit here: did you mean ${list(near)}?`;
  const told = problem('unknown-clause', written.span, message, nearFixes(near, written.span));
  return [{ at, remove: 1, put: [{ ...written, value: near[0] as string }], problem: told }];
}

/** `lead acid` for `lead-acid`. */
function hyphenated(atoms: readonly Atom[], at: number, known: readonly string[]): Mend[] {
  for (const count of [3, 2]) {
    const some = atoms.slice(at, at + count);
    if (some.length < count || some.some(({ kind }) => kind !== 'word')) continue;
    const joined = (some as WordAtom[]).map(({ value }) => value.toLowerCase()).join('-');
    if (known.includes(joined)) return [writtenAs(some, at, joined, [word(joined, some)])];
  }
  return [];
}

/** `double pole` for `2 poles`. */
function poleCount(atoms: readonly Atom[], at: number): Mend[] {
  const [first, second] = atoms.slice(at, at + 2);
  const said = first?.kind === 'word' ? polesByTrade(first.value) : undefined;
  if (first === undefined || said === undefined) return [];
  const { poles, whole } = said;
  const behind = second?.kind === 'word' && /^poles?$/i.test(second.value);
  if (!whole && !behind) return [];
  const both = whole ? [first] : atoms.slice(at, at + 2);
  const unit = poles === 1 ? 'pole' : 'poles';
  const put: Atom[] = [
    { kind: 'number', value: poles, span: first.span, text: String(poles), leading: first.leading },
    { ...word(unit, both), leading: ' ' },
  ];
  return [writtenAs(both, at, `${poles} ${unit}`, put)];
}

/** `2.5 mm` for `2.5 mm²`, as the trade says and writes it. */
export function squareMillimetres(atoms: readonly Atom[], at: number, types: ReadonlySet<string>): Mend[] {
  const length = atoms[at];
  if (length?.kind !== 'quantity' || length.unit !== 'mm' || length.value === undefined) return [];
  const areas = dimensionsIn(types);
  if (!areas.includes('area') || areas.includes('length')) return [];
  const right = `${length.text.slice(0, length.numberSpan.end - length.numberSpan.start)} mm²`;
  const put: Atom = { ...length, unit: 'mm²', dimension: 'area', si: length.value * 1e-6 };
  const message = `${quoted(length.text)} is a length, and a size is an area: did you mean ${right}?`;
  const fixes = [replace(`Write ${right}`, length.span, right, false)];
  return [{ at, remove: 1, put: [put], problem: problem('unit-spelling', length.span, message, fixes) }];
}

const codeTypes = [
  { type: 'ip', pattern: /^ip[- ]?([0-9x]{2}[a-z]*)$/i, prefix: 'IP' },
  { type: 'thread', pattern: /^m[- ]?(\d+(?:\.\d+)?)$/i, prefix: 'M' },
  { type: 'thread', pattern: /^(\d+)(?: ?mm)?$/, prefix: 'M' },
] as const;

/** `IP 65` for `IP65`, `20 mm` for `M20`. */
function code(atoms: readonly Atom[], at: number, types: ReadonlySet<string>): Mend[] {
  for (const { type, pattern, prefix } of codeTypes) {
    if (!types.has(type)) continue;
    for (const count of [2, 1]) {
      const some = atoms.slice(at, at + count);
      const rest = some.length === count ? pattern.exec(textOf(some))?.[1] : undefined;
      if (rest === undefined) continue;
      const right = prefix + rest.toUpperCase();
      return [writtenAs(some, at, right, [word(right, some)])];
    }
  }
  return [];
}

/** `1 - 3`, `1 to 3` or `1/3` for `1-3`. */
function range(atoms: readonly Atom[], at: number): Mend[] {
  const three = atoms.slice(at, at + 3);
  const [from, between, to] = three;
  if (from?.kind !== 'number' || to?.kind !== 'number' || between === undefined) return [];
  if (!/^(?:-|–|−|\/|to|\.\.\.?|…)$/.test(between.text)) return [];
  const right = `${from.text}-${to.text}`;
  const put: Atom = {
    kind: 'range',
    span: spanOf(three),
    text: right,
    leading: from.leading,
    from: from.value,
    to: to.value,
  };
  return [writtenAs(three, at, right, [put])];
}

/** A number without its unit, or a quantity of another kind: read as one that is not known yet. */
function otherQuantity(atoms: readonly Atom[], at: number, { types }: Wanted, clause: ClauseSpec): Mend[] {
  const offender = atoms[at] as Atom;
  const all = dimensionsIn(types);
  const named = all.length > 1 ? all.filter((one) => atoms.slice(0, at).some(({ text }) => text === one)) : [];
  // `voltage at least 11`: the word before tells which.
  const dimensions = named.length === 1 ? named : all;
  if (dimensions.length === 0) return [];
  // A blank is read behind a keyword only: `2 x 2.5` says by its unit alone what it is.
  const put = (written: readonly Atom[]): Atom[] =>
    atoms[at - 1]?.kind === 'times' ? [unsaid(written, dimensions)] : [blank(written)];
  if (offender.kind === 'quantity')
    return [{ at, remove: 1, put: put([offender]), problem: wrongUnit(offender, dimensions, clause) }];
  if (offender.kind !== 'number') return [];
  const symbols = unitsFor(dimensions, clause);
  const meant = meantForUnit(offender, atoms[at + 1], symbols);
  if (meant !== undefined) return [{ at, remove: 2, put: put(atoms.slice(at, at + 2)), problem: meant }];
  // `11 ?`: a unit that is not known yet.
  const doubtful = atoms[at + 1]?.kind === 'blank' ? 2 : 1;
  const told = missingUnit(offender, symbols, clause.example);
  return [{ at, remove: doubtful, put: put(atoms.slice(at, at + doubtful)), problem: told }];
}

function blank(written: readonly Atom[]): Atom {
  return { kind: 'blank', span: spanOf(written), text: textOf(written), leading: written[0]?.leading ?? '' };
}

/** What stands for a quantity of which nothing is known but its kind. */
function unsaid(written: readonly Atom[], [dimension = 'ratio']: readonly Dimension[]): Atom {
  const span = spanOf(written);
  return {
    ...blank(written),
    kind: 'quantity',
    value: undefined,
    si: undefined,
    unit: symbolsOf(dimension)[0] ?? '',
    dimension,
    numberSpan: span,
    unitSpan: { start: span.end, end: span.end },
  };
}

export const isApparent = (unit: string): boolean => /^k?va$/i.test(unit);

/** Volt-ampere are no watt, so nothing is offered for them. */
export function apparentPower(written: readonly Atom[], who: string): Problem {
  return problem(
    'unit-spelling',
    spanOf(written),
    `${quoted(textOf(written))} is apparent power: ${who} in W, as its rating plate or data sheet gives it.`,
  );
}

const degrees = /^(?:deg|degrees?|degr[ée]s?|grad)$/iu;

/** `35 degrees`, `35Grad`, `5 kiloamp`: a word behind a number that can only be its unit, where one unit is written. */
function meantForUnit(number: Atom, written: Atom | undefined, symbols: readonly string[]): Problem | undefined {
  const [symbol, another] = symbols;
  if (written?.kind === 'word' && isApparent(written.value) && symbols.includes('W'))
    return apparentPower([number, written], 'it says its power');
  if (written?.kind !== 'word' || symbol === undefined || another !== undefined) return undefined;
  const isUnit = written.leading === '' || (symbol.startsWith('°') && degrees.test(written.value));
  if (!isUnit) return undefined;
  const both = [number, written];
  const right = `${number.text}${unitGap(symbol)}${symbol}`;
  return problem('unit-spelling', spanOf(both), `${quoted(textOf(both))} is no quantity here: did you mean ${right}?`, [
    replace(`Write ${right}`, spanOf(both), right, false),
  ]);
}

export function wrongUnit(
  offender: Atom & { kind: 'quantity' },
  dimensions: readonly Dimension[],
  clause: ClauseSpec,
): Problem {
  const { text, span, numberSpan, dimension } = offender;
  if (dimension === 'angle' && dimensions.includes('temperature')) {
    const right = `${text.slice(0, numberSpan.end - numberSpan.start)} °C`;
    return problem('unit-spelling', span, `${text} is an angle: a temperature is written ${right}.`, [
      replace(`Write ${right}`, span, right, false),
    ]);
  }
  const wanted = list(dimensions.map((one) => dimensionNames[one]));
  const like = dimensions.some((one) => isShownIn(clause, one))
    ? `like ${quoted(clause.example)}`
    : `in ${list(dimensions.flatMap((one) => symbolsOf(one).slice(0, 1)))}`;
  const message = `${text} is ${dimensionNames[dimension]}, where ${wanted} belongs: write it ${like}.`;
  return problem('wrong-unit', span, message);
}

/** Of what has a quantity of several kinds the example shows one. */
function isShownIn({ example }: ClauseSpec, dimension: Dimension): boolean {
  return symbolsOf(dimension).some((symbol) => new RegExp(`[\\d?] ?${symbol}(?![\\p{L}\\d/²])`, 'u').test(example));
}

/** A bare number (or `?`) where a quantity belongs; `symbols` are the units it may have. */
export function missingUnit(number: Atom, units: readonly string[], example: string): Problem {
  const symbols = unitsOfSizes(number.text, units).flatMap((symbol) => withPlainOne(symbol, units));
  if (symbols.length === 1 && symbols[0] === '%' && isShare(number.text)) return share(number, example);
  // `14` may be a cross-section that no table has: only `2/0` is a gauge for certain.
  const sure = symbols[0] !== 'AWG' || number.text.includes('/');
  const written = symbols.map((symbol) => `${number.text}${unitGap(symbol)}${symbol}`);
  return problem(
    'missing-unit',
    number.span,
    `${number.text} has no unit: write ${written.length === 0 ? 'it with one' : list(written)}, as in ${quoted(example)}.`,
    symbols.map((symbol, i) =>
      insert(`Write ${written[i]}`, number.span.end, `${unitGap(symbol)}${symbol}`, symbols.length === 1 && sure),
    ),
  );
}

/** `breaks 5000` may be in A or kA: where a unit has a prefix, its size would be guessed. Lengths are said in mm by habit. */
function withPlainOne(symbol: string, units: readonly string[]): string[] {
  const plain = unitOf(symbol.slice(1));
  const isPrefixed = /^[mk]/.test(symbol) && plain !== undefined && plain.dimension === unitOf(symbol)?.dimension;
  if (!isPrefixed || plain.dimension === 'length' || units.includes(plain.symbol)) return [symbol];
  return [symbol, plain.symbol];
}

const isShare = (text: string): boolean => /^(?:0?\.\d+|1)$/.test(text);

/** `0.6` where a percentage stands: most likely 60 of them. */
function share(number: Atom, example: string): Problem {
  const percent = `${plainNumber(Number(number.text) * 100)} %`;
  return problem(
    'missing-unit',
    number.span,
    `${number.text} has no unit: write ${percent} or ${number.text} %, as in ${quoted(example)}.`,
    [percent, `${number.text} %`].map((right) => replace(`Write ${right}`, number.span, right, false)),
  );
}

/** The unit of each dimension that a clause's example uses, at most four. */
export function unitsFor(dimensions: readonly Dimension[], { example }: ClauseSpec): string[] {
  return [...new Set(dimensions.flatMap((dimension) => usualSymbol(dimension, example) ?? []))].slice(0, 4);
}

/** `bunched 5` for `bunched with 5`. */
function missingWord(atoms: readonly Atom[], at: number, words: readonly string[]): Mend[] {
  const [only] = words;
  const offender = atoms[at] as Atom;
  if (words.length !== 1 || only === undefined) return [];
  const { start } = offender.span;
  const put = { ...word(only, []), span: { start, end: start } };
  const told = problem('unknown-clause', offender.span, `${quoted(only)} is missing before ${quoted(offender.text)}.`, [
    insert(`Write ${only} ${offender.text}`, start, `${only} `, true),
  ]);
  return [{ at, remove: 0, put: [put], problem: told }];
}

/** `internal resistance 5 mΩ`: a word between a keyword and the quantity that belongs behind it. */
function saidBetween(atoms: readonly Atom[], at: number, { types }: Wanted): Mend[] {
  let end = at;
  while (atoms[end]?.kind === 'word' && end < at + 3) end += 1;
  const [words, next] = [atoms.slice(at, end), atoms[end]];
  if (words.length === 0 || next?.kind !== 'quantity' || at === 0) return [];
  // These turn what is said behind them.
  if (words.some(({ text }) => /^(?:minus|neg(?:ative)?|not?|without|non)$/i.test(text))) return [];
  if (!dimensionsIn(types).includes(next.dimension)) return [];
  const span = { start: spanOf(words).start, end: next.span.start };
  const told = problem(
    'unknown-clause',
    spanOf(words),
    `${quoted(textOf(words))} need not be said before ${quoted(next.text)}: leave it out.`,
    [replace('Leave it out', span, '', true)],
  );
  return [{ at, remove: words.length, put: [], problem: told }];
}

/** A word at a clause's beginning nearly a keyword; `what` is the statement or kind. */
export function nearOpener(first: WordAtom, known: readonly string[], what: string): Mend[] {
  const near = nearKeywords(first.value, known);
  if (near.length !== 1) return [];
  const message = `${capital(article(what))} does not say ${quoted(first.value)}: did you mean ${list(near)}?`;
  const told = problem('unknown-clause', first.span, message, nearFixes(near, first.span));
  return [{ at: 0, remove: 1, put: [{ ...first, value: near[0] as string }], problem: told }];
}

/** A first atom that is better left out: `length 4.2 m`, `= 80 A`. */
export function leftOut(atoms: readonly Atom[], told: (behind: string) => string, count = 1): Mend[] {
  const [first, next] = [atoms[0], atoms[count]];
  if (first === undefined || next === undefined) return [];
  const span = { start: first.span.start, end: next.span.start };
  return [
    {
      at: 0,
      remove: count,
      put: [],
      problem: problem('unknown-clause', first.span, told(next.text), [replace('Leave it out', span, '', true)]),
    },
  ];
}

/** Whether what precedes a failure tells what was meant: a keyword, or an atom that begins nothing else. */
export function isSure(first: Atom | undefined, failure: Failure): boolean {
  return failure.literals > 0 || (first !== undefined && ['terminal', 'date', 'times'].includes(first.kind));
}

/** Some of what a statement says, by its words. */
export function someWords(spec: CompiledSpec): string {
  const words = [...spec.byWord.keys()].filter((word) => word !== '=').slice(0, 6);
  return words.length === 0 ? `things like ${quoted(spec.spec.example)}` : `${list(words)} and the like`;
}
