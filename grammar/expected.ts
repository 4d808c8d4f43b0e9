/**
 * What may be written at a place, for completion on lines that are not finished. The statement is read again up to the word
 * that is being typed; what the vocabulary's forms would take there is what may come.
 */
import { readStatement } from './atoms.ts';
import { type CompiledSpec, compile } from './compiled.ts';
import { type Expected, openingSteps, quantityTypes } from './forms.ts';
import { expectedAfter, matchOf } from './match.ts';
import { headsOf, type ShapedTree } from './parse.ts';
import { segmentsOf } from './segments.ts';
import type { ShapedPlaced } from './shaped.ts';
import type { Atom, Dimension, Span, StatementNode } from './tree.ts';

export interface Expectation {
  /**
   * `statement`: a statement's first word; `name`: a new name; `kind`: the kind of a stock; `clause`: what `expected` says;
   * `unit`: the unit of the number before, or the `x` of so many; `text`: inside quotes; `comment`: nothing.
   */
  readonly where: 'statement' | 'name' | 'kind' | 'clause' | 'unit' | 'text' | 'comment';
  /** What is typed already of the word at the place, and where it stands in the document, up to its end. */
  readonly prefix: string;
  readonly replace: Span;
  readonly expected: readonly Expected[];
  /** For `unit`: what the number may be, and the values it may be the beginning of. */
  readonly dimensions: readonly Dimension[];
  readonly values: readonly Expected[];
  /** Whether the clause before is complete, so that a comma may come. */
  readonly complete: boolean;
  /** The statement it belongs to; undefined for a first word. */
  readonly statement: ShapedPlaced | undefined;
  /** The kind or statement whose clauses are expected. */
  readonly spec: CompiledSpec | undefined;
  /** Clauses that the statement says elsewhere, by id. */
  readonly given: ReadonlySet<string>;
}

const typed = /[^\s,="\u201c\u201d\u201e]*$/u;
const typedOn = /^[\p{L}\p{M}\p{N}_:/+-]*/u;
const numberBefore = /^[-+\u2212]?(?:\d+(?:[.,]\d+)*(?:\/0)?|\?)/u;

export function expectedAt(tree: ShapedTree, offset: number): Expectation {
  const { text, vocabulary } = tree;
  const compiled = compile(vocabulary);
  const lineStart = text.lineStart(offset);
  const line = text.slice(lineStart, offset);
  const word = typed.exec(line)?.[0] ?? '';
  // `6mm`: the number stands, its unit is typed.
  const number = numberBefore.exec(word)?.[0] ?? '';
  const prefix = word.slice(number.length);
  const end = offset + (typedOn.exec(text.slice(offset, offset + 200))?.[0].length ?? 0);
  const at: Expectation = {
    where: 'statement',
    prefix,
    replace: { start: offset - prefix.length, end },
    expected: [],
    dimensions: [],
    values: [],
    complete: false,
    statement: undefined,
    spec: undefined,
    given: new Set(),
  };
  const statement = /^\s/.test(line) ? statementBefore(tree, offset) : statementOver(tree, lineStart);
  if (statement === undefined || (line === word && number === '')) {
    return /^\s*#/.test(line) ? { ...at, where: 'comment' } : at;
  }
  const before = text.slice(statement.offset, offset - prefix.length);
  const node = readStatement(before, headsOf(vocabulary));
  // A comment that runs up to the place, or one it stands behind.
  const commented = node.comments.some(
    ({ span }) => span.end >= before.trimEnd().length && !before.slice(span.end).includes('\n'),
  );
  if (commented || word.startsWith('#')) return { ...at, where: 'comment', statement };
  if (
    node.atoms.at(-1)?.kind === 'text' &&
    node.problems.some(({ slug, span }) => slug === 'unclosed-text' && span.end >= before.trimEnd().length)
  )
    return { ...at, where: 'text', statement };
  const { keyword } = node;
  if (keyword === undefined) return { ...at, statement: undefined };
  return inStatement({ ...at, statement }, node, compiled.specs.get(keyword.value), tree);
}

function inStatement(
  at: Expectation,
  node: StatementNode,
  own: CompiledSpec | undefined,
  tree: ShapedTree,
): Expectation {
  if (own === undefined) return { ...at, where: 'clause' };
  let { body } = node;
  let spec = own;
  const said = body.some(({ kind }) => kind !== 'line');
  if (own.spec.head !== 'none' && node.names.length === 0 && !said) return { ...at, where: 'name', spec };
  const last = body.at(-1);
  if (own.spec.head === 'names' && body.length === 1 && last?.kind === 'word' && last.value === 'and')
    return { ...at, where: 'name', spec };
  const compiled = compile(tree.vocabulary);
  if (own.spec.word === 'stock') {
    const kind = body.findIndex((atom) => atom.kind !== 'line');
    const atom = body[kind];
    if (atom === undefined) return { ...at, where: 'kind', spec };
    const stocked = atom.kind === 'word' ? compiled.specs.get(atom.value) : undefined;
    if (stocked?.spec.category !== 'kind') return { ...at, where: 'clause' };
    spec = stocked;
    body = body.slice(kind + 1);
  }
  const segment = openSegment(body);
  const here = segment[0]?.span.start ?? node.text.length;
  const given = givenElsewhere(at.statement, here);
  const number = segment.at(-1);
  if (number !== undefined && (number.kind === 'number' || number.kind === 'blank')) {
    const values = expectedIn(segment.slice(0, -1), spec, given, tree).expected;
    const dimensions = dimensionsFor(values, at.prefix);
    const words = expectedIn(segment, spec, given, tree);
    const counts = at.prefix === '' && values.some((one) => one.is === 'slot' && one.types.includes('times'));
    if (dimensions.length > 0 || counts) return { ...at, where: 'unit', spec, given, dimensions, values, ...words };
  }
  return { ...at, where: 'clause', spec, given, ...expectedIn(segment, spec, given, tree) };
}

/** The atoms of the segment that is still being written: none behind a comma or a line end. */
function openSegment(body: readonly Atom[]): readonly Atom[] {
  const last = body.at(-1);
  if (last === undefined || last.kind === 'comma') return [];
  const segments = segmentsOf(body);
  const segment = segments.at(-1)?.atoms ?? [];
  const final = segment.at(-1);
  const goesOn = final?.kind === 'word' && (final.value === 'to' || final.value === 'and');
  return last.kind === 'line' && !goesOn ? [] : segment;
}

/** Clauses said outside the segment at the place, so that they are not offered again. */
function givenElsewhere(statement: ShapedPlaced | undefined, here: number): Set<string> {
  const given = new Set<string>();
  for (const { spec, span } of statement?.shaped.clauses ?? []) if (span.start !== here) given.add(spec.id);
  return given;
}

/** What may follow the atoms of a segment: the rest of a clause begun, or a clause that joins the one before. */
function expectedIn(
  atoms: readonly Atom[],
  spec: CompiledSpec,
  given: ReadonlySet<string>,
  { vocabulary }: ShapedTree,
) {
  const { words } = compile(vocabulary);
  const expected: Expected[] = [];
  const add = (more: readonly Expected[]) => {
    for (const one of more) if (!expected.includes(one)) expected.push(one);
  };
  const offered = spec.forms.filter(({ clause }) => clause.repeatable === true || !given.has(clause.id));
  let forms = offered;
  let complete = false;
  let at = 0;
  for (;;) {
    const rest = atoms.slice(at);
    // A keyword is no name, though a name's slot would take it.
    const [first] = rest;
    const keyed = first?.kind === 'word' ? forms.filter((form) => spec.byWord.get(first.value)?.includes(form)) : [];
    if (keyed.length > 0) forms = keyed;
    add(
      rest.length === 0
        ? forms.flatMap((form) => openingSteps(form).flatMap((step) => step.expected))
        : expectedAfter(forms, rest, words),
    );
    if (rest.length === 0) break;
    let end = 0;
    let joins: readonly string[] = [];
    for (const form of spec.beginningWith(rest[0] as Atom)) {
      const match = matchOf(form, rest, 0, words);
      if (match !== undefined && match.end > end) [end, joins] = [match.end, match.clause.joins ?? []];
    }
    if (end === 0) break;
    at += end;
    complete = at === atoms.length;
    forms = offered.filter(({ clause }) => joins.includes(clause.id));
  }
  return { expected, complete };
}

function dimensionsFor(expected: readonly Expected[], prefix: string): Dimension[] {
  if (prefix.includes(':')) return [];
  const types = expected.flatMap((one) => (one.is === 'slot' ? one.types : []));
  return [...new Set(types.flatMap((type) => quantityTypes.get(type) ?? []))];
}

/** The statement that the line at `lineStart` begins or belongs to. */
function statementOver(tree: ShapedTree, lineStart: number): ShapedPlaced | undefined {
  const statement = statementBefore(tree, lineStart + 1);
  return statement !== undefined && statement.offset + statement.node.text.length > lineStart ? statement : undefined;
}

/** The statement that begins last before `offset`: an indented line belongs to it, even when it is blank still. */
function statementBefore({ statements }: ShapedTree, offset: number): ShapedPlaced | undefined {
  return statements[countBefore(statements, offset) - 1];
}

/** How many statements begin before `offset`, of those of a file in their order. */
export function countBefore(statements: readonly ShapedPlaced[], offset: number): number {
  let low = 0;
  let high = statements.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((statements[middle] as ShapedPlaced).offset < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}
