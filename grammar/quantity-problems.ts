/** What to say of a number or a quantity that fits no clause. */
import { unitsOfSizes } from './cable-sizes.ts';
import { type Form, openingTypes, openingWords, quantityTypes } from './forms.ts';
import type { Leftover, Surroundings } from './leftover.ts';
import { matchOf } from './match.ts';
import { word } from './mend.ts';
import { apparentPower, dimensionsIn, isApparent, missingUnit, someWords, unitsFor, wrongUnit } from './mends.ts';
import { nearWords } from './near.ts';
import { article, capital, list, problem, quoted, replace } from './phrases.ts';
import { openers } from './repair.ts';
import type { Atom, Dimension, Problem, ProblemFix, WordAtom } from './tree.ts';
import { dimensionNames, spellings, unitGap } from './units.ts';
import type { ClauseSpec } from './vocabulary.ts';
export function bareNumber(number: Atom, leftover: Leftover, around: Surroundings): Problem {
  const behind = leftover.segment.atoms[leftover.from + 1];
  const { spec } = around.spec;
  const free = freeUnits(around, behind);
  const sized = unitsOfSizes(number.text, free);
  const units = sized.length > 0 ? sized : free;
  const cores = behind?.kind === 'word' ? coresApart(number, behind, around) : undefined;
  if (cores !== undefined) return cores;
  if (behind?.kind === 'word' && !openers(around.spec, around.compiled).includes(behind.value)) {
    if (counted.test(behind.value)) return miscounted(number, behind, around);
    const misread = notAUnit(number, behind, units, around);
    if (misread !== undefined) return misread;
  }
  const worded = countedBehindWord(number, around);
  if (worded !== undefined && (units.length === 0 || units.every((symbol) => symbol === 'V' || symbol === '°C')))
    return worded;
  if (units.length > 0) return missingUnit(number, units.slice(0, 3), spec.example);
  const example = around.spec.open[0]?.clause.example ?? spec.example;
  return problem(
    'unknown-clause',
    number.span,
    `${quoted(number.text)} does not fit here: ${article(spec.word)} says it like ${quoted(example)}.`,
  );
}

/** `5` for `class 5`: a digit that one clause alone, which is not said yet, says behind its word. */
function countedBehindWord(number: Atom, { spec, clauses, compiled }: Surroundings): Problem | undefined {
  const said = new Set(clauses.map((clause) => clause.spec.id));
  if (!/^\d$/.test(number.text)) return undefined;
  const found = spec.forms.flatMap((form) => {
    const [first] = form.steps;
    if (first?.is !== 'word' || said.has(form.clause.id)) return [];
    return matchOf(form, [word(first.word, [number]), number], 0, compiled.words)?.end === 2 ? [first.word] : [];
  });
  const [only, another] = found;
  if (only === undefined || another !== undefined) return undefined;
  return problem('unknown-clause', number.span, `${quoted(only)} is missing before ${quoted(number.text)}.`, [
    replace(`Write ${only} ${number.text}`, number.span, `${only} ${number.text}`, false),
  ]);
}

/** `1.5 mm², 2 wires`: how many there are is said with their size. */
function coresApart(number: Atom, behind: WordAtom, { clauses, node }: Surroundings): Problem | undefined {
  const size = clauses.find(({ spec }) => spec.id === 'size');
  const quantity = size?.values.find(({ atom }) => atom.kind === 'quantity')?.atom;
  if (!/^(?:core|wire|conductor)s?$/.test(behind.value) || size === undefined || quantity === undefined)
    return undefined;
  if (size.values.some(({ atom }) => atom.kind === 'times')) return undefined;
  const right = `${number.text} x ${quantity.text}`;
  const span = { start: number.span.start, end: behind.span.end };
  const at = node.body.indexOf(number);
  const before = node.body[at - 1];
  const { start } = quantity.span;
  const message = `How many cores a cable has stands before their size: write ${right}.`;
  if (before?.kind !== 'comma') return problem('unknown-clause', span, message);
  const edits = [
    { span: { start, end: start }, newText: `${number.text} x ` },
    { span: { start: before.span.start, end: span.end }, newText: '' },
  ];
  return problem('unknown-clause', span, message, [{ title: `Write ${right}`, safe: false, edits }]);
}

/** What other kinds have several of, told by a bare number. */
const counted = /^(?:pole|way|stud|hole|core|wire|conductor)s?$/;

/** `1 pole` of what has no poles to say. */
function miscounted(number: Atom, behind: WordAtom, { spec }: Surroundings): Problem {
  const span = { start: number.span.start, end: behind.span.end };
  return problem(
    'misplaced-clause',
    span,
    `${capital(article(spec.spec.word))} does not say ${quoted(`${number.text} ${behind.text}`)}: it says ${someWords(spec)}.`,
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
  if (isApparent(written.value) && free.includes('W'))
    return apparentPower([number, written], `${article(spec.word)} says its power`);
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
function freeUnits({ spec, clauses, compiled }: Surroundings, behind: Atom | undefined): string[] {
  const said = new Set(clauses.map((clause) => clause.spec.id));
  const free = spec.open.filter(({ clause }) => clause.repeatable === true || !said.has(clause.id));
  const urgent = ({ clause }: Form) => clause.required === true || clause.oneOf !== undefined;
  const ordered = [...free.filter(urgent), ...free.filter((form) => !urgent(form))];
  const next =
    behind === undefined
      ? []
      : spec
          .beginningWith(behind)
          .filter((form) => matchOf(form, [behind], 0, compiled.words) !== undefined)
          .map(({ clause }) => clause.id);
  const joined = ordered.filter(({ clause }) => clause.joins?.some((id) => next.includes(id)) === true);
  const units = (joined.length > 0 ? joined : ordered).flatMap((form) =>
    unitsFor(openingDimensions(form), form.clause),
  );
  const sizeless = free.some((form) => openingDimensions(form).includes('area'));
  // Nobody states a temperature before what must be said, nor what an insulation stands before a size.
  const early = sizeless || free.some(urgent);
  return [...new Set(units)].filter((symbol) => !(symbol === '°C' && early) && !(symbol === 'V' && sizeless));
}

function openingDimensions(form: Form): Dimension[] {
  return dimensionsIn(openingTypes(form));
}

export function strayQuantity(quantity: Atom & { kind: 'quantity' }, around: Surroundings): Problem {
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
  if (dimension === 'time' && bare.includes('daily-time') && (quantity.unit === 'h' || quantity.unit === 'min')) {
    const right = `${quantity.text.slice(0, quantity.numberSpan.end - quantity.numberSpan.start)} ${quantity.unit}/day`;
    return problem(
      'wrong-unit',
      quantity.span,
      `${quoted(quantity.text)} is a time: how long it is on is said as ${right}.`,
      [replace(`Write ${right}`, quantity.span, right, false)],
    );
  }
  const named = dimensionNames[dimension];
  const takes = (form: Form) =>
    form.steps.some(
      (step) => step.is === 'slot' && step.types.some((type) => quantityTypes.get(type)?.includes(dimension)),
    );
  const keywords = around.spec.forms.filter(takes).flatMap((form) => openingWords(form).words);
  const behind = [...new Set(keywords)].filter((word) => word !== '=').slice(0, 4);
  const limitsOnly = behind.length > 0 && behind.every((word) => word === 'lowest' || word === 'highest');
  const instead = limitsOnly
    ? `that follows from the circuit, and limits alone are said, behind ${list(behind)}`
    : behind.length > 0
      ? `${named} stands behind ${list(behind)}`
      : bare.length > 0
        ? `by itself it says ${list(bare.slice(0, 4).map((d) => dimensionNames[d]))}`
        : `it says ${someWords(around.spec)}`;
  return problem(
    'wrong-unit',
    quantity.span,
    `${capital(article(spec.word))} does not say ${named} such as ${quantity.text} here: ${instead}.`,
    limitsOnly ? withoutIt(quantity, around) : [],
  );
}

/** Takes a figure out with the comma behind it, or before it where it is the last; not where a comment would go too. */
function withoutIt({ span, text }: Atom, { node }: Surroundings): ProblemFix[] {
  const { body } = node;
  const at = body.findIndex((atom) => atom.span.start === span.start);
  const [before, behind, next] = [body[at - 1], body[at + 1], body[at + 2]];
  const taken =
    behind?.kind === 'comma' && next !== undefined && next.kind !== 'line'
      ? { start: span.start, end: next.span.start }
      : { start: before === undefined ? span.start : before.span.start, end: span.end };
  const isAlone = behind === undefined || behind.kind === 'comma' || behind.kind === 'line';
  const isClean = isAlone && (before === undefined || before.kind === 'comma' || taken.start === span.start);
  return isClean && !node.text.slice(taken.start, taken.end).includes('#')
    ? [replace(`Take ${text} out`, taken, '', false)]
    : [];
}
