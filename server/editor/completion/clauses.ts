/** Clauses: what the forms of a statement would take at a place, as keywords, names, terminals and values. */
import { type Expected, openingSteps } from '../../../grammar/forms.ts';
import { isColour } from '../../../grammar/match.ts';
import type { ClauseNode } from '../../../grammar/shaped.ts';
import type { ClauseSpec, StatementSpec } from '../../../grammar/vocabulary.ts';
import { standardRatings } from '../../answers/devices.ts';
import { expectableOf } from '../../answers/expectable.ts';
import { colours } from '../../kinds/colours.ts';
import { clauseHover } from '../hover/words.ts';
import type { Block } from '../markup.ts';
import type { Context } from './context.ts';
import { declareOffers } from './declare.ts';
import { endOffers, partBefore, terminalOffers } from './ends.ts';
import { choiceRank, clauseRank, saidNear, usualFirst } from './habits.ts';
import { likely } from './likely.ts';
import { isNamed, nameOffers } from './names.ts';
import { kinds, type Offer } from './offers.ts';
import { phraseFrom } from './phrases.ts';
import { positionsBehind } from './positions.ts';
import { valueOffers } from './values.ts';

export function clauseOffers(context: Context): Offer[] {
  const { at } = context;
  // Behind `Q1:` nothing but its terminals fits.
  if (at.prefix.includes(':')) {
    const ends = at.expected.filter(
      (one): one is Expected & { is: 'slot' } =>
        one.is === 'slot' && one.types.some((type) => type === 'end' || type === 'terminal'),
    );
    if (ends.length === 0) return [];
    return partBefore(context) === undefined
      ? ends.flatMap((one) => declareOffers(context, one))
      : terminalOffers(context);
  }
  return [
    ...offersFor(context, wanted(context, at.expected)),
    ...(at.complete ? nextClauses(context).map((offer) => ({ ...offer, comma: true })) : []),
  ];
}

export function offersFor(context: Context, expected: readonly Expected[]): Offer[] {
  return expected.flatMap((one) => (one.is === 'word' ? wordOffers(context, one) : slotOffers(context, one)));
}

const perCore: ReadonlySet<string> = new Set(['colour', 'core', 'ends', 'spare']);

/** Clauses that may follow the complete one before the pointer, each behind a comma. */
function nextClauses(context: Context): Offer[] {
  const { at, analysis } = context;
  const { spec, statement } = at;
  const spaced = /\s/u.test(analysis.text.charAt(at.replace.start - 1));
  if (spec === undefined || statement === undefined || !spaced) return [];
  const { clauses } = statement.shaped;
  const said = new Set(clauses.map((clause) => clause.spec.id));
  const line = analysis.lines.position(at.replace.start).line;
  const isHere = ({ span }: ClauseNode) => analysis.lines.position(statement.offset + span.start).line === line;
  // What is said of one core of several stands on its line; the next has a line of its own.
  const cores = (context.run?.facts.number('size', 'cores') ?? 1) > 1;
  const told = cores && clauses.some((one) => perCore.has(one.spec.id) && isHere(one));
  const forms = spec.forms.filter(
    ({ clause }) => (clause.repeatable === true || !said.has(clause.id)) && !(told && perCore.has(clause.id)),
  );
  const expected = forms.flatMap((form) => openingSteps(form).flatMap((step) => step.expected));
  return offersFor({ ...context, segment: '' }, wanted({ ...context, segment: '' }, expected));
}

/**
 * Without what cannot be meant: a second power of a load, an end more than the cable has cores, a reason before the finding
 * it is for.
 */
export function wanted(context: Context, expected: readonly Expected[]): Expected[] {
  const { at } = context;
  const clauses = at.spec?.spec.clauses ?? [];
  const begins = context.segment.trim() === '';
  const said = new Set([...at.given, ...(begins ? elsewhere(context).map(({ spec }) => spec.id) : [])]);
  const groups = new Set(
    clauses.filter(({ id, oneOf }) => oneOf !== undefined && said.has(id)).map((one) => one.oneOf),
  );
  const out = new Set<string>();
  if (begins) {
    for (const id of fullClauses(context)) out.add(id);
    for (const { id, required, joins } of clauses)
      if (required === true && !said.has(id)) for (const joined of joins ?? []) out.add(joined);
  }
  const fitting = expected.filter(
    (one) =>
      (one.clause.oneOf === undefined || !groups.has(one.clause.oneOf)) &&
      !out.has(one.clause.id) &&
      isMeant(context, one),
  );
  return likelyFirst(context, fitting, begins);
}

/** What must still be said and what neighbours say first; what the stock says already last. */
function likelyFirst(context: Context, expected: readonly Expected[], begins: boolean): Expected[] {
  const ofClause = begins ? clauseRank(context) : () => 0;
  const ofChoice = choiceRank(context);
  const ranked = expected.map((one) => ({
    one,
    stocked: Number(begins && isStocked(context, one.clause)),
    clause: ofClause(one.clause),
    unfit: Number(isUnfit(context, one)),
    choice: ofChoice(one),
  }));
  return ranked
    .sort((a, b) => a.stocked - b.stocked || a.clause - b.clause || a.unfit - b.unfit || a.choice - b.choice)
    .map(({ one }) => one);
}

/** A body that is not made for the rating that is said: no blade fuse is of 80 A. */
function isUnfit({ part }: Context, one: Expected): boolean {
  if (one.is !== 'word' || one.clause.id !== 'style' || part?.kind.word !== 'fuse') return false;
  const amps = part.facts.number('rating');
  return amps !== undefined && !standardRatings(part.kind.word, one.word).includes(amps);
}

/** Whether the stock that the part or run takes says it already. */
export function isStocked({ part, run }: Context, { id }: ClauseSpec): boolean {
  return (part?.facts ?? run?.facts)?.fact(id)?.fromStock !== undefined;
}

/** Clauses of the statement but for the one at the pointer. */
function elsewhere({ at, offset }: Context): readonly ClauseNode[] {
  const { statement } = at;
  if (statement === undefined) return [];
  const here = offset - statement.offset;
  return statement.shaped.clauses.filter(({ span }) => here < span.start || here > span.end);
}

/** Clauses of a run that stand once for each core, and do already. */
function fullClauses(context: Context): string[] {
  const { run, at, analysis, offset } = context;
  const { statement } = at;
  if (run === undefined || statement === undefined || run.facts.slot('size', 'size') === undefined) return [];
  const cores = run.facts.number('size', 'cores') ?? 1;
  const line = (where: number) => analysis.lines.position(where).line;
  const here = line(offset);
  // A core that is being written does not count against itself: its line, where each has its own.
  const others = elsewhere(context).filter(({ span }) => cores === 1 || line(statement.offset + span.start) !== here);
  const count = (...ids: string[]) => others.filter(({ spec }) => ids.includes(spec.id)).length;
  return [
    ...(count('ends', 'spare') >= cores ? ['ends', 'spare', 'core'] : []),
    ...(count('colour') >= cores ? ['colour'] : []),
  ];
}

const isVoltsOf = ({ id }: ClauseSpec): boolean => /^(?:with-)?volts-of$/u.test(id);

/** What the words before make of a keyword: charge is that of a battery, `pole` stands behind 1. */
function isMeant({ analysis, segment }: Context, { clause, ...one }: Expected): boolean {
  const words = segment.trim().split(/\s+/u);
  // A selector stands at a position, and not at a voltage.
  if (one.is !== 'word') return !isVoltsOf(clause) || positionsBehind(words, analysis).length === 0;
  const last = words.at(-1) ?? '';
  const number = /^\d+$/u.test(last) ? Number(last) : undefined;
  if (number !== undefined && clause.form.includes(`(${one.word}|${one.word}s)`)) return number === 1;
  if (number !== undefined && clause.form.includes(`|${one.word})`) && one.word.endsWith('s')) return number !== 1;
  // One pole has nothing to be in parallel or in series with.
  if (number === 1 && (one.word === 'in' || one.word === 'parallel' || one.word === 'series')) return false;
  if (one.slot === 'position') return positionsBehind(words, analysis).some(({ name }) => name === one.word);
  if (clause.id === 'what' && one.slot === 'what') return isExpectable(last, one.word, analysis);
  const part = analysis.model.parts.get(last);
  // A core's colour is no part that it might begin at.
  if (one.word === 'to' && part === undefined && isColour(last, colours)) return false;
  if (part === undefined) return true;
  if (/(?:charge|volts)-of$/u.test(clause.id)) return part.kind.word === 'battery';
  return !/^(?:with-)?position$/u.test(clause.id) || part.kind.word === 'selector';
}

/** Of what has no name yet anything may be. */
function isExpectable(subject: string, what: string, { model }: Context['analysis']): boolean {
  const all = [model.parts, model.runs, model.terminals];
  return !all.some((named) => named.has(subject)) || expectableOf(subject, model).some((one) => one === what);
}

/** A keyword with the keywords that must follow it: `charge voltage`, `most series fuse`. */
function wordOffers(context: Context, expected: Expected & { is: 'word' }): Offer[] {
  const { clause, slot } = expected;
  const spec = context.at.spec?.spec;
  if (spec === undefined) return [];
  const { phrase, next } = phraseFrom(context, expected);
  const offer: Offer = {
    label: phrase,
    kind: slot === undefined ? kinds.Keyword : kinds.EnumMember,
    detail: clause.meaning,
    documentation: documentation(clause, spec),
  };
  const [behind] = next?.is === 'slot' ? next.expected : [];
  // `=` and `by` say nothing by themselves: they are offered with each name that may follow.
  if ((phrase === '=' || phrase === 'by') && behind?.is === 'slot')
    return slotOffers(context, behind).map((named) => ({
      ...named,
      label: `${phrase} ${named.label}`,
      filter: phrase === '=' ? `= ${named.label} ${named.label}` : `${phrase} ${named.label}`,
    }));
  return [offer];
}

function slotOffers(context: Context, expected: Expected & { is: 'slot' }): Offer[] {
  const spec = context.at.spec?.spec;
  if (spec === undefined) return [];
  const { types } = expected;
  const named = types.filter(isNamed).flatMap((type) => nameOffers(context, expected, type));
  const ends = types.includes('end') || types.includes('terminal') ? endOffers(context, expected) : [];
  const said = isInOrder(expected) || types.includes('date') ? [] : saidNear(context, expected);
  const values = valueOffers(context, expected).map((offer) => ({
    detail: expected.clause.meaning,
    documentation: documentation(expected.clause, spec),
    ...offer,
  }));
  const best = likely(context, expected.clause)?.text;
  return [...usualFirst(named, said), ...ends, ...usualFirst(values, said, best), ...declareOffers(context, expected)];
}

/** Of these the order is told by what is said here already: by findings, by colours of other cores, by the cable's diameter. */
const inOrder: ReadonlySet<string> = new Set(['finding', 'colour', 'ends', 'state', 'with-state', 'enters', 'bar']);
const isInOrder = ({ clause }: Expected): boolean => inOrder.has(clause.id);

const documented = new WeakMap<ClauseSpec, Map<string, readonly Block[]>>();

/** Clauses that kinds have in common are told for each of them. */
function documentation(clause: ClauseSpec, spec: StatementSpec): readonly Block[] {
  let bySpec = documented.get(clause);
  if (bySpec === undefined) {
    bySpec = new Map();
    documented.set(clause, bySpec);
  }
  let blocks = bySpec.get(spec.word);
  if (blocks === undefined) {
    blocks = clauseHover(clause, spec);
    bySpec.set(spec.word, blocks);
  }
  return blocks;
}
