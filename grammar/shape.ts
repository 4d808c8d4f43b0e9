/**
 * Shaping: from a statement's head and flat run of atoms to its kind, its names and its clauses, and to what is wrong with it.
 * Whatever is wrong, the rest of the statement is kept.
 */
import { type CompiledSpec, compile } from './compiled.ts';
import { withoutFillers } from './fillers.ts';
import {
  firstWordOfTwo,
  laidCable,
  noKeyword,
  selectorMeant,
  statementOrNote,
  unknownStatement,
  unknownStock,
} from './head-problems.ts';
import { nameProblems } from './name-problems.ts';
import { trailingNotes } from './note-marks.ts';
import { problem, replace } from './phrases.ts';
import { type SaidOtherwise, saidOtherwise } from './said-otherwise.ts';
import type { ShapedStatement } from './shaped.ts';
import { Shaping } from './shaping.ts';
import { spaceBehindComma } from './space-behind-comma.ts';
import { colonsOnce } from './terminal-mends.ts';
import type { Atom, Problem, Span, StatementNode } from './tree.ts';
import { trimmed } from './trimmed.ts';
import type { Vocabulary } from './vocabulary.ts';

export function shapeStatement(node: StatementNode, vocabulary: Vocabulary): ShapedStatement {
  const compiled = compile(vocabulary);
  const { keyword } = node;
  const unread = (found: readonly Problem[], wrapper?: CompiledSpec): ShapedStatement => ({
    node,
    spec: undefined,
    wrapper: wrapper?.spec,
    clauses: [],
    unknown: [],
    problems: inOrder([...node.problems, ...found]),
  });
  if (keyword === undefined) {
    const found = noKeyword(node, compiled);
    return unread(found === undefined ? [] : [found]);
  }
  // What cannot be seen indents nothing.
  const isIndented = /\s/.test(node.text.slice(0, keyword.span.start));
  const indentation = isIndented ? [indented(node, keyword.value, keyword.span.start)] : [];
  const twoWords = firstWordOfTwo(keyword, node, compiled);
  if (twoWords !== undefined) return unread([twoWords]);
  const known = compiled.specs.get(keyword.value);
  // Only in capitals: it is read as it was meant.
  const laid =
    known === undefined
      ? undefined
      : (laidCable(keyword, known, node, compiled) ?? selectorMeant(keyword, known, node, compiled));
  const own = laid?.spec ?? known ?? compiled.specs.get(keyword.value.toLowerCase());
  const unknown = known === undefined ? [unknownStatement(keyword, node, compiled)] : [];
  if (own === undefined) return unread(unknown);
  const names = nameProblems(node, keyword, own, compiled);
  const found = [...indentation, ...unknown, ...(laid === undefined ? [] : [laid.told]), ...names.problems];
  let body = names.taken === 0 ? node.body : node.body.slice(names.taken);
  if (names.apart !== undefined) body = without(body, names.apart);
  let spec = own;
  let wrapper: CompiledSpec | undefined;
  if (own.spec.word === 'stock') {
    const at = body.findIndex(({ kind }) => kind !== 'line');
    const kind = body[at];
    const kindSpec = kind?.kind === 'word' ? compiled.specs.get(kind.value) : undefined;
    if (kindSpec?.spec.category !== 'kind') {
      // A name that is missing or wrong says enough.
      if (names.problems.length === 0) found.push(unknownStock(kind, node, compiled));
      return unread(found, own);
    }
    wrapper = own;
    spec = kindSpec;
    body = body.slice(at + 1);
  }
  const nameless = names.problems.some(({ slug }) => slug === 'reserved-name' || slug === 'missing-name');
  const read = (atoms: readonly Atom[]) => {
    const shaping = new Shaping(spec, wrapper, compiled, node, nameless);
    shaping.read(atoms);
    return { shaping, problems: shaping.problems() };
  };
  const { body: plain, problems: habits } = withoutFillers(body, node, spec, compiled);
  const asItStands = read(plain);
  // What is read without a complaint is not looked at again, but for `everything on`, where a name may stand.
  const mayMean = asItStands.problems.length > 0 || spec.spec.word === 'case';
  const otherwise =
    mayMean || node.problems.length > 0 ? saidOtherwise(plain, spec, compiled, !mayMean) : nothingOtherwise;
  const asMeant = otherwise.problems.length === 0 ? asItStands : read(otherwise.body);
  const most = otherwise.sure ? asItStands.problems.length : Math.max(asItStands.problems.length, 1) - 1;
  const isMeant = asMeant !== asItStands && asMeant.problems.length <= most;
  const { shaping, problems } = isMeant ? asMeant : asItStands;
  // In a note behind the wrong mark people write what they like, and a phrase that is told as a whole has its signs with it.
  const apart = habits.length === 0 ? [] : [...trailingNotes(node), ...(isMeant ? otherwise.problems : [])];
  const fillers = habits.filter(({ span }) => !apart.some((one) => contains(one.span, span)));
  // Prose begins with a capital too: `Fuse holders and lamps, as fitted.`
  if (unknown.length > 0 && shaping.unknown.length > shaping.clauses.length)
    return unread([statementOrNote(keyword, own.spec)]);
  // A quantity taken for a name complains as a name only.
  const taken = names.taken === 0 ? -1 : (node.body[names.taken - 1]?.span.end ?? -1);
  const lexical = node.problems
    .filter(
      ({ span }) => span.start >= taken && !(isMeant && otherwise.problems.some((one) => contains(one.span, span))),
    )
    .map((one) => spaceBehindComma(one, node, spec, compiled.words));
  return {
    node,
    spec: spec.spec,
    wrapper: wrapper?.spec,
    clauses: trimmed(shaping.clauses),
    unknown: shaping.unknown,
    problems: inOrder([
      ...lexical,
      ...found,
      ...fillers,
      ...(isMeant ? otherwise.problems : []),
      ...colonsOnce(inOrder(problems), node.text),
    ]),
  };
}

const contains = (outer: Span, inner: Span) => outer.start <= inner.start && inner.end <= outer.end;

const nothingOtherwise: SaidOtherwise = { body: [], problems: [], sure: false };
/** Without one atom, and without the comma before it. */
function without(body: readonly Atom[], apart: Atom): readonly Atom[] {
  const at = body.indexOf(apart);
  const from = body[at - 1]?.kind === 'comma' ? at - 1 : at;
  return [...body.slice(0, from), ...body.slice(at + 1)];
}

function inOrder(problems: Problem[]): Problem[] {
  return problems.length < 2 ? problems : problems.sort((a, b) => a.span.start - b.span.start);
}

function indented(node: StatementNode, word: string, start: number): Problem {
  return problem(
    'indented-statement',
    { start, end: start + word.length },
    `This ${word} is a statement of its own: begin it at the margin, or it reads as part of the line above.`,
    [replace('Move it to the margin', { start: 0, end: start }, '', node.text.slice(0, start).trim() === '')],
  );
}
