/** What to say of atoms that fit no clause: the one problem that was most likely made. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { type Expected, type Form, openingTypes, openingWords, quantityTypes } from './forms.ts';
import { expectedAfter, type Failure, runForm } from './match.ts';
import {
  dimensionsIn,
  isSure,
  missingUnit,
  nearKeywords,
  spanOf,
  textOf,
  unitsFor,
  wantedBy,
  wrongUnit,
} from './mends.ts';
import { nearWords } from './near.ts';
import { article, capital, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import { openers, ownersOf } from './repair.ts';
import type { Segment } from './segments.ts';
import type { ClauseNode } from './shaped.ts';
import type { Atom, Dimension, Problem, StatementNode, WordAtom } from './tree.ts';
import { dimensionNames, spellings, unitGap } from './units.ts';
import type { ClauseSpec } from './vocabulary.ts';

export { article, capital, list } from './phrases.ts';

/** Atoms that no clause took. */
export interface Leftover {
  readonly atoms: readonly Atom[];
  /** Index of the first in its segment. */
  readonly from: number;
  /** Its places count from there. */
  readonly failure: Failure | undefined;
  readonly segment: Segment;
  /** The clause before them in the statement. */
  readonly previous: ClauseNode | undefined;
}

export interface Surroundings {
  readonly spec: CompiledSpec;
  readonly wrapper: CompiledSpec | undefined;
  readonly compiled: CompiledVocabulary;
  readonly clauses: readonly ClauseNode[];
  readonly node: StatementNode;
}

export function leftoverProblem(leftover: Leftover, around: Surroundings): Problem {
  const first = leftover.atoms[0] as Atom;
  return (
    unquoted(first, leftover, around) ??
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
    case 'junk':
      return problem('unknown-clause', first.span, `${quoted(first.text)} means nothing here: take it out.`, [
        replace('Take it out', first.span, '', false),
      ]);
    default:
      return problem(
        'unknown-clause',
        first.span,
        `${quoted(first.text)} does not fit here: ${article(around.spec.spec.word)} says ${someWords(around.spec)}.`,
      );
  }
}

/** A file or a title without quotes. */
function unquoted(
  first: Atom,
  { segment, from, previous }: Leftover,
  { spec, node, clauses }: Surroundings,
): Problem | undefined {
  const onlyText = spec.forms.length === 1 && spec.open.some((form) => openingTypes(form).includes('text'));
  if (onlyText && first.kind !== 'text' && clauses.length === 0) {
    const span = { start: first.span.start, end: spanOf(segment.atoms).end };
    const right = `${spec.spec.word} "${node.text.slice(span.start, span.end)}"`;
    return problem('unknown-clause', span, `${capital(spec.spec.word)} takes a text in quotes: write ${right}.`, [
      {
        title: 'Put it in quotes',
        safe: true,
        edits: [
          { span: { start: span.start, end: span.start }, newText: '"' },
          { span: { start: span.end, end: span.end }, newText: '"' },
        ],
      },
    ]);
  }
  const titled = spec.spec.word === 'system' && node.title === undefined && first === node.body[0];
  if (!titled || first.kind !== 'word' || from > 0 || previous !== undefined || spec.byWord.has(first.value))
    return undefined;
  const text = `"${first.text}"`;
  return problem('unknown-clause', first.span, `A title stands in quotes: ${text}.`, [
    replace(`Write ${text}`, first.span, text, true),
  ]);
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
    return problem('unknown-clause', spanOf(atoms), `This is not finished: it reads like ${example}.`);
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
  const reserved = offender.kind === 'word' && compiled.words.reserved.has(offender.value);
  if (reserved && [...types].some((type) => type.startsWith('name<') || type === 'end'))
    return problem(
      'unknown-clause',
      offender.span,
      `${quoted(offender.text)} is a word of the notation, where a name belongs: write it like ${example}.`,
    );
  const instead = words.length > 0 && words.length <= 6 && types.size === 0 ? `here stands ${list(words)}` : 'write it';
  return problem(
    'unknown-clause',
    offender.span,
    `${quoted(offender.text)} does not fit here: ${instead} like ${example}.`,
  );
}

/** `18-04-2026` where a date stands. */
function wrongDate({ atoms, from }: Leftover, { spec, node }: Surroundings): Problem | undefined {
  const wantsDate = spec.open.some((form) => openingTypes(form)[0] === 'date');
  const first = atoms[0] as Atom;
  if (!wantsDate || from > 0 || first !== node.body[0]) return undefined;
  const line = /^[^\s,]+/.exec(node.text.slice(first.span.start))?.[0] ?? '';
  const span = { start: first.span.start, end: first.span.start + line.length };
  const [, day = '', month = '', year = ''] = /^(\d{1,2})[-./](\d{1,2})[-./](\d{4})$/.exec(line) ?? [];
  const date = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const possible = year !== '' && Number(month) <= 12 && Number(day) <= 31;
  return problem(
    'unknown-clause',
    span,
    `${capital(article(spec.spec.word))} begins with its date, year first: ${possible ? date : '2026-04-18'}.`,
    possible ? [replace(`Write ${date}`, span, date, false)] : [],
  );
}

/** What a comma parts from the clause it belongs to, or does not go on as that clause may. */
function partedFromClause(first: Atom, leftover: Leftover, around: Surroundings): Problem | undefined {
  const { segment, from, previous } = leftover;
  const { words, types } = wantedBy(continuing(previous, around));
  if (from > 0) {
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

function bareNumber(number: Atom, leftover: Leftover, around: Surroundings): Problem {
  const behind = leftover.segment.atoms[leftover.from + 1];
  const { spec } = around.spec;
  const units = freeUnits(around, number, behind);
  if (behind?.kind === 'word' && !openers(around.spec, around.compiled).includes(behind.value)) {
    const misread = notAUnit(number, behind, units, around);
    if (misread !== undefined) return misread;
  }
  if (units.length > 0) return missingUnit(number, units.slice(0, 3), spec.example);
  const example = around.spec.open[0]?.clause.example ?? spec.example;
  return problem(
    'unknown-clause',
    number.span,
    `${quoted(number.text)} does not fit here: ${article(spec.word)} says it like ${quoted(example)}.`,
  );
}

/** A number and a word that was meant for its unit: `6 in`, `6 milimetres`, `2 kVA`, `55 degrees`. */
function notAUnit(
  number: Atom,
  written: WordAtom,
  free: readonly string[],
  { spec: { spec } }: Surroundings,
): Problem | undefined {
  const span = { start: number.span.start, end: written.span.end };
  const text = `${number.text}${written.leading === '' ? '' : ' '}${written.text}`;
  // Volt-ampere are no watt, so nothing is offered for them.
  if (/^k?va$/i.test(written.value) && free.includes('W'))
    return problem(
      'unit-spelling',
      span,
      `${quoted(text)} is apparent power: ${article(spec.word)} says its power in W, as its rating plate or data sheet gives it.`,
    );
  const known = spellings.filter(({ spelling }) => /^[\p{L}²]+$/u.test(spelling) && spelling.length > 2);
  const near = nearWords(
    written.value,
    known.map(({ spelling }) => spelling),
    1,
  );
  const meant = known.find(({ spelling }) => spelling === near[0])?.unit.symbol;
  // `in` is a word of the notation, and degrees may be of several kinds.
  const inches = /^ins?$/.test(written.value) ? ['inch'] : undefined;
  const degrees = /^deg(?:ree)?s?$/i.test(written.value) ? free.filter((symbol) => symbol.startsWith('°')) : undefined;
  const symbols = inches ?? degrees ?? (meant === undefined ? undefined : [meant]);
  if (symbols === undefined || symbols.length === 0)
    return free.length === 0
      ? undefined
      : problem(
          'unit-spelling',
          span,
          `${quoted(written.text)} is no unit here: write this in ${list(free.slice(0, 4))}.`,
        );
  const right = symbols.map((symbol) => `${number.text}${unitGap(symbol)}${symbol}`);
  return problem(
    'unit-spelling',
    span,
    `${quoted(text)} is no quantity here: did you mean ${list(right)}?`,
    right.map((one) => replace(`Write ${one}`, span, one, false)),
  );
}

/**
 * Units of what may stand by itself (`80 A`) and is not said yet: what must be said first, then the table's order. Before an
 * atom that goes on a clause, as a colour goes on a size, only that clause's.
 */
function freeUnits({ spec, clauses, compiled }: Surroundings, number: Atom, behind: Atom | undefined): string[] {
  const said = new Set(clauses.map((clause) => clause.spec.id));
  const free = spec.open.filter(({ clause }) => clause.repeatable === true || !said.has(clause.id));
  const urgent = ({ clause }: Form) => clause.required === true || clause.oneOf !== undefined;
  const ordered = [...free.filter(urgent), ...free.filter((form) => !urgent(form))];
  const next =
    behind === undefined
      ? []
      : spec
          .beginningWith(behind)
          .filter((form) => runForm(form, [behind], 0, compiled.words).match !== undefined)
          .map(({ clause }) => clause.id);
  const joined = ordered.filter(({ clause }) => clause.joins?.some((id) => next.includes(id)) === true);
  const units = (joined.length > 0 ? joined : ordered).flatMap((form) =>
    unitsFor(openingDimensions(form), form.clause),
  );
  const gauge = /^\d+$/.test(number.text);
  const temperature = !free.some(urgent);
  // There is no gauge of 2.5, and nobody states a temperature before what must be said.
  return [...new Set(units)].filter((symbol) => (symbol === 'AWG' ? gauge : symbol !== '°C' || temperature));
}

function openingDimensions(form: Form): Dimension[] {
  return dimensionsIn(openingTypes(form));
}

function strayQuantity(quantity: Atom & { kind: 'quantity' }, around: Surroundings): Problem {
  const { spec } = around.spec;
  const { dimension } = quantity;
  // What must be said and is not comes first.
  const said = new Set(around.clauses.map((clause) => clause.spec.id));
  const isWanting = ({ clause }: Form) => clause.required === true && !said.has(clause.id);
  const { open } = around.spec;
  const bare = [
    ...new Set([...open.filter(isWanting), ...open.filter((form) => !isWanting(form))].flatMap(openingDimensions)),
  ];
  if (dimension === 'angle' && bare.includes('temperature'))
    return wrongUnit(quantity, ['temperature'], around.spec.open[0]?.clause as ClauseSpec);
  const named = dimensionNames[dimension];
  const takes = (form: Form) =>
    form.steps.some(
      (step) => step.is === 'slot' && step.types.some((type) => quantityTypes.get(type)?.includes(dimension)),
    );
  const keywords = around.spec.forms.filter(takes).flatMap((form) => openingWords(form).words);
  const behind = [...new Set(keywords)].filter((word) => word !== '=').slice(0, 4);
  const instead =
    behind.length > 0
      ? `${named} stands behind ${list(behind)}`
      : bare.length > 0
        ? `by itself it says ${list(bare.slice(0, 4).map((d) => dimensionNames[d]))}`
        : `it says ${someWords(around.spec)}`;
  return problem(
    'wrong-unit',
    quantity.span,
    `${capital(article(spec.word))} does not say ${named} such as ${quantity.text} here: ${instead}.`,
  );
}

function strayWord(first: WordAtom, leftover: Leftover, around: Surroundings): Problem {
  const { atoms, segment, from } = leftover;
  const { spec, wrapper, compiled } = around;
  const [pole, to] = [segment.atoms[from + 1], segment.atoms[from + 2]];
  // `F1 out to LAMP:+`.
  if (pole?.kind === 'word' && to?.kind === 'word' && to.value === 'to' && spec.open.some(takesEnds)) {
    const right = `${first.text}:${pole.text}`;
    const span = { start: first.span.start, end: pole.span.end };
    return problem('unknown-clause', span, `A colon is missing between a part and its terminal: write ${right}.`, [
      replace(`Write ${right}`, span, right, false),
    ]);
  }
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
  const near = nearKeywords(first.value, openers(spec, compiled));
  if (near.length > 0)
    return problem(
      'unknown-clause',
      first.span,
      `${capital(what)} does not say ${quoted(first.value)}: did you mean ${list(near)}?`,
      nearFixes(near, first.span),
    );
  return (
    listed(first, leftover, around) ??
    problem(
      'unknown-clause',
      first.span,
      `${capital(what)} does not say ${quoted(textOf([first]))}: it says ${someWords(spec)}.`,
    )
  );
}

const takesEnds = (form: Form): boolean => openingTypes(form).includes('end');

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
    return problem('unknown-clause', first.span, message, [replace('Join them with and', between, ' and ', false)]);
  }
  if (atoms.length > 1 || !wantsAnd(expectedAfter(spec.open, [first], compiled.words))) return undefined;
  const next = node.body[node.body.indexOf(first) + 1];
  if (next?.kind !== 'comma') return undefined;
  const gap = node.body[node.body.indexOf(next) + 1]?.leading === '' ? ' ' : '';
  const fixes = [replace('Join them with and', next.span, ` and${gap}`, false)];
  return problem('unknown-clause', first.span, message, fixes);
}

function someWords(spec: CompiledSpec): string {
  const words = [...spec.byWord.keys()].filter((word) => word !== '=').slice(0, 6);
  return words.length === 0 ? `things like ${quoted(spec.spec.example)}` : `${list(words)} and the like`;
}
