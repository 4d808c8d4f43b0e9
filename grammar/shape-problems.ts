/** What to say of atoms that fit no clause: the one problem that was most likely made. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { type Form, openingTypes, openingWords, quantityTypes } from './forms.ts';
import { expectedAfter, type Failure } from './match.ts';
import { nearWords } from './near.ts';
import { article, capital, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import { missingUnit, openers, ownersOf, unitsFor, wantedDimensions, wrongUnit } from './repair.ts';
import type { Segment } from './segments.ts';
import type { ClauseNode } from './shaped.ts';
import type { Atom, Dimension, Problem, StatementNode } from './tree.ts';
import { dimensionNames, spellings, unitGap } from './units.ts';
import type { ClauseSpec } from './vocabulary.ts';

export { article, capital, list } from './phrases.ts';

/** Atoms that no clause took. */
export interface Leftover {
  readonly atoms: readonly Atom[];
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
  const inside = leftover.failure === undefined ? undefined : failedInside(leftover, leftover.failure, around);
  if (inside !== undefined) return inside;
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

/** The right beginning, then something else than what belongs there. */
function failedInside(leftover: Leftover, failure: Failure, { spec, compiled }: Surroundings): Problem | undefined {
  const { segment } = leftover;
  const { clause, literals } = failure;
  const offender = segment.atoms[failure.at];
  const example = quoted(clause.example);
  const first = leftover.atoms[0] as Atom;
  const span = { start: first.span.start, end: (leftover.atoms.at(-1) as Atom).span.end };
  if (offender === undefined) {
    // A number by itself may begin many things; a unit is what it most likely lacks.
    if (literals === 0 && (first.kind === 'number' || first.kind === 'blank')) return undefined;
    return problem('unknown-clause', span, `This is not finished: it reads like ${example}.`);
  }
  const dimensions = wantedDimensions(failure);
  if (literals > 0 && dimensions.length > 0) {
    if (offender.kind === 'quantity') return wrongUnit(offender, dimensions, failure);
    if (offender.kind === 'number') return missingUnit(offender, unitsFor(dimensions, clause), clause.example);
  }
  const words = failure.wanted.flatMap((one) => (one.is === 'word' ? [one.word] : []));
  const near = offender.kind === 'word' ? nearWords(offender.value, words) : [];
  if (near.length > 0)
    return problem(
      'unknown-clause',
      offender.span,
      `${quoted(offender.text)} does not fit here: did you mean ${list(near)}?`,
      nearFixes(near, offender.span),
    );
  if (literals === 0) return undefined;
  if (offender.kind === 'word' && compiled.words.reserved.has(offender.value) && failure.wanted.some(wantsName))
    return problem(
      'unknown-clause',
      offender.span,
      `${quoted(offender.text)} is a word of the notation, but here stands a name: write it like ${example}.`,
    );
  return problem(
    'unknown-clause',
    offender.span,
    `${quoted(offender.text)} does not fit here: ${article(spec.spec.word)} says it like ${example}.`,
  );
}

const wantsName = (one: Failure['wanted'][number]): boolean =>
  one.is === 'slot' && one.types.some((type) => type.startsWith('name<') || type === 'end');

function bareNumber(number: Atom, leftover: Leftover, around: Surroundings): Problem {
  const behind = leftover.segment.atoms[leftover.segment.atoms.indexOf(number) + 1];
  const { spec } = around.spec;
  if (behind?.kind === 'word') {
    // `6 in` for inches: `in` is a word of the notation.
    const inch = behind.value === 'in' || behind.value === 'ins';
    const known = spellings.filter(({ spelling }) => /^[\p{L}²]+$/u.test(spelling) && spelling.length > 2);
    const near = inch
      ? ['inch']
      : nearWords(
          behind.value,
          known.map(({ spelling }) => spelling),
          1,
        );
    const symbol = known.find(({ spelling }) => spelling === near[0])?.unit.symbol;
    if (symbol !== undefined) {
      const span = { start: number.span.start, end: behind.span.end };
      const right = `${number.text}${unitGap(symbol)}${symbol}`;
      return problem('unit-spelling', span, `${quoted(behind.text)} is no unit here: did you mean ${right}?`, [
        replace(`Write ${right}`, span, right, false),
      ]);
    }
  }
  const symbols = freeUnits(around);
  if (symbols.length === 0)
    return problem(
      'unknown-clause',
      number.span,
      `${quoted(number.text)} means nothing here: say in front of it what it is, or take it out.`,
    );
  return missingUnit(number, symbols.slice(0, 3), spec.example);
}

/** Units of what may stand by itself (`80 A`) and is not said yet: what must be said first, then the table's order. */
function freeUnits({ spec, clauses }: Surroundings): string[] {
  const said = new Set(clauses.map((clause) => clause.spec.id));
  const free = spec.open.filter(({ clause }) => clause.repeatable === true || !said.has(clause.id));
  const urgent = ({ required, oneOf }: ClauseSpec) => (required === true || oneOf !== undefined ? 0 : 1);
  const ordered = [...free].sort((a, b) => urgent(a.clause) - urgent(b.clause));
  return [...new Set(ordered.flatMap((form) => unitsFor(openingDimensions(form), form.clause)))];
}

function openingDimensions(form: Form): Dimension[] {
  return openingTypes(form).flatMap((type) => quantityTypes.get(type) ?? []);
}

function strayQuantity(quantity: Atom & { kind: 'quantity' }, around: Surroundings): Problem {
  const { spec } = around.spec;
  const named = dimensionNames[quantity.dimension];
  const keywords = around.spec.forms
    .filter((form) =>
      form.steps.some(
        (step) =>
          step.is === 'slot' && step.types.some((type) => quantityTypes.get(type)?.includes(quantity.dimension)),
      ),
    )
    .flatMap((form) => openingWords(form).words)
    .filter((word) => word !== '=');
  const bare = [...new Set(around.spec.open.flatMap(openingDimensions))];
  const instead =
    keywords.length > 0
      ? `${named} stands behind ${list([...new Set(keywords)].slice(0, 4))}`
      : bare.length > 0
        ? `by itself it says ${list(bare.slice(0, 4).map((d) => dimensionNames[d]))}`
        : `it says ${someWords(around.spec)}`;
  return problem(
    'wrong-unit',
    quantity.span,
    `${capital(article(spec.word))} does not say ${named} such as ${quantity.text} here: ${instead}.`,
  );
}

function strayWord(first: Atom & { kind: 'word' }, leftover: Leftover, around: Surroundings): Problem {
  const { atoms, segment, previous } = leftover;
  const { spec, wrapper, compiled } = around;
  const what = wrapper === undefined ? article(spec.spec.word) : `${article(wrapper.spec.word)} of ${spec.spec.word}`;
  const span = { start: first.span.start, end: (atoms.at(-1) as Atom).span.end };
  const owners = ownersOf(segment.atoms, segment.atoms.indexOf(first), spec, compiled);
  if (owners.length > 0)
    return problem(
      'misplaced-clause',
      span,
      `${capital(what)} does not say ${quoted(first.value)}: that belongs to ${list(owners.slice(0, 4).map((owner) => article(owner.spec.word)))}.`,
    );
  const near = nearWords(first.value, openers(spec, compiled));
  if (near.length > 0)
    return problem(
      'unknown-clause',
      first.span,
      `${capital(what)} does not say ${quoted(first.value)}: did you mean ${list(near)}?`,
      nearFixes(near, first.span),
    );
  const comma = segment.comma;
  if (comma !== undefined && segment.atoms[0] === first && wantsAnother(previous, around)) {
    const between = { start: comma.span.start, end: first.span.start };
    return problem(
      'unknown-clause',
      first.span,
      `${quoted(first.value)} stands by itself behind the comma: names that belong together are joined with “and”.`,
      [replace('Join them with and', between, ' and ', false)],
    );
  }
  return problem(
    'unknown-clause',
    first.span,
    `${capital(what)} does not say ${quoted(first.text)}: it says ${someWords(spec)}.`,
  );
}

/** Whether the head, or the clause before, could go on with `and` and another name. */
function wantsAnother(previous: ClauseNode | undefined, { spec, wrapper, compiled, node }: Surroundings): boolean {
  if (previous === undefined) return wrapper === undefined && spec.spec.head === 'names';
  const form = spec.forms.find(({ clause }) => clause === previous.spec);
  if (form === undefined) return false;
  const atoms = node.body.filter(
    ({ span, kind }) => kind !== 'line' && span.start >= previous.span.start && span.end <= previous.span.end,
  );
  return expectedAfter([form], atoms, compiled.words).some((one) => one.is === 'word' && one.word === 'and');
}

function someWords(spec: CompiledSpec): string {
  const words = [...spec.byWord.keys()].filter((word) => word !== '=').slice(0, 6);
  return words.length === 0 ? `things like ${quoted(spec.spec.example)}` : `${list(words)} and the like`;
}
