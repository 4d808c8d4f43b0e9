/**
 * Shaping: from a statement's flat run of atoms to clauses, by the forms of its kind. Whatever fits no clause becomes one
 * problem with the nearest that was meant; the rest of the statement keeps its clauses.
 */
import { compile, type CompiledSpec, type CompiledVocabulary } from './compiled.ts';
import { type Failure, type Match, matchForm } from './forms.ts';
import { nearWords } from './near.ts';
import type { ClauseNode, ShapedStatement, UnknownSegment } from './shaped.ts';
import { shapeProblem } from './shape-problems.ts';
import type { Atom, Problem, Span, StatementNode } from './tree.ts';
import type { Vocabulary } from './vocabulary.ts';

interface Segment {
  readonly atoms: Atom[];
  readonly line: number;
}

export function shapeStatement(node: StatementNode, vocabulary: Vocabulary): ShapedStatement {
  const compiled = compile(vocabulary);
  const problems: Problem[] = [...node.problems];
  const { keyword } = node;
  const nothing = { node, clauses: [], unknown: [] };
  if (keyword === undefined) {
    const first = node.atoms.find(({ kind }) => kind !== 'line');
    if (first !== undefined)
      problems.push({
        slug: 'unknown-statement',
        span: restOfLine(node, first.span.start),
        message: `A statement begins with a word such as run, fuse or load, not with “${first.text}”.`,
      });
    return { ...nothing, spec: undefined, wrapper: undefined, problems };
  }
  const indented = /^[^\S\n]/.test(node.text);
  if (indented)
    problems.push({
      slug: 'indented-statement',
      span: keyword.span,
      message: `This ${keyword.value} is a statement of its own: begin it at the margin, or it reads as part of the line above.`,
      fixes: [{ title: 'Move it to the margin', safe: true, edits: [{ span: { start: 0, end: keyword.span.start }, newText: '' }] }],
    });
  const own = compiled.specs.get(keyword.value);
  if (own === undefined) {
    problems.push(unknownStatement(keyword.value, keyword.span, compiled));
    return { ...nothing, spec: undefined, wrapper: undefined, problems: inOrder(problems) };
  }
  const stocked = own.spec.word === 'stock';
  let body = node.body;
  let spec = own;
  if (stocked) {
    const kind = body.find(({ kind: k }) => k !== 'line');
    const kindSpec = kind?.kind === 'word' ? compiled.specs.get(kind.value) : undefined;
    if (kind?.kind !== 'word' || kindSpec?.spec.category !== 'kind') {
      problems.push(unknownStock(kind, node, compiled));
      return { ...nothing, spec: undefined, wrapper: own.spec, problems: inOrder(problems) };
    }
    spec = kindSpec;
    body = body.slice(body.indexOf(kind) + 1);
  }
  checkNames(node, own, vocabulary, problems);
  const hash = hashGauge(node, own);
  const clauses: ClauseNode[] = [];
  const unknown: UnknownSegment[] = [];
  segmentsOf(body).forEach((segment, index) => {
    shapeSegment(segment, index, spec, compiled, clauses, unknown, problems, stocked ? own.spec.word : undefined);
  });
  if (hash !== undefined && !clauses.some(({ spec: { id } }) => id === 'size' || id === 'stock')) problems.push(hash);
  twice(clauses, problems);
  return {
    node,
    spec: spec.spec,
    wrapper: stocked ? own.spec : undefined,
    clauses,
    unknown,
    problems: inOrder(problems),
  };
}

function inOrder(problems: Problem[]): Problem[] {
  return problems.sort((a, b) => a.span.start - b.span.start);
}

function restOfLine(node: StatementNode, start: number): Span {
  const newline = node.text.indexOf('\n', start);
  return { start, end: start + node.text.slice(start, newline === -1 ? undefined : newline).trimEnd().length };
}

/** Segments end at commas and line ends, except behind a final `to` or `and`. */
function segmentsOf(body: readonly Atom[]): Segment[] {
  const segments: Segment[] = [];
  let atoms: Atom[] = [];
  let line = 0;
  let begunAt = 0;
  const close = () => {
    while (atoms.at(-1)?.kind === 'line') atoms.pop();
    if (atoms.length > 0) segments.push({ atoms, line: begunAt });
    atoms = [];
  };
  for (const atom of body) {
    if (atom.kind === 'comma') close();
    else if (atom.kind === 'line') {
      line += 1;
      const last = atoms.at(-1);
      if (last?.kind === 'word' && (last.value === 'to' || last.value === 'and')) atoms.push(atom);
      else close();
    } else {
      if (atoms.length === 0) begunAt = line;
      atoms.push(atom);
    }
  }
  close();
  return segments;
}

function shapeSegment(
  segment: Segment,
  index: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  clauses: ClauseNode[],
  unknown: UnknownSegment[],
  problems: Problem[],
  wrapper: string | undefined,
): void {
  const { atoms } = segment;
  let at = 0;
  let previous: ClauseNode | undefined;
  while (at < atoms.length) {
    const { match, failures } = bestMatch(spec, atoms, at, compiled);
    const first = atoms[at] as Atom;
    if (match === undefined) {
      const rest = atoms.slice(at);
      const span = { start: first.span.start, end: (rest.at(-1) as Atom).span.end };
      const nearest = nearestOf(failures, at);
      unknown.push({ span, atoms: rest, nearest: nearest?.clause });
      // A quantity that the lexer already complained of is not complained of again.
      const told = problems.some((p) => p.span.start >= span.start && p.span.end <= span.end);
      if (!told) problems.push(shapeProblem(rest, span, spec, compiled, nearest, at, wrapper));
      return;
    }
    const last = atoms[match.end - 1] as Atom;
    const clause: ClauseNode = {
      spec: match.clause,
      span: { start: first.span.start, end: last.span.end },
      values: match.values,
      segment: index,
      line: segment.line,
    };
    if (previous !== undefined && !previous.spec.joins?.includes(match.clause.id)) {
      const gap = (atoms[at - 1] as Atom).span.end;
      problems.push({
        slug: 'missing-separator',
        span: { start: (atoms[at - 1] as Atom).span.start, end: first.span.end },
        message: `A comma is missing before “${first.text}”: clauses are separated by a comma or a new line.`,
        fixes: [{ title: 'Put a comma between them', safe: true, edits: [{ span: { start: gap, end: gap }, newText: ',' }] }],
      });
    }
    clauses.push(clause);
    previous = clause;
    at = match.end;
  }
}

/** The longest match of all forms; keywords decide between equals. */
function bestMatch(spec: CompiledSpec, atoms: readonly Atom[], at: number, compiled: CompiledVocabulary) {
  const first = atoms[at];
  const word = first?.kind === 'word' ? first.value : first?.kind === 'equals' ? '=' : undefined;
  const forms = [...new Set([...(word === undefined ? [] : (spec.byWord.get(word) ?? [])), ...spec.open])];
  let match: Match | undefined;
  const failures: Failure[] = [];
  for (const form of forms) {
    const { matches, failure } = matchForm(form, atoms, at, compiled.words);
    const best = matches[0];
    if (best !== undefined && best.end > at) {
      if (match === undefined || best.end > match.end || (best.end === match.end && best.literals > match.literals)) match = best;
    }
    failures.push(failure);
  }
  return { match, failures };
}

function nearestOf(failures: readonly Failure[], at: number): Failure | undefined {
  return failures
    .filter((failure) => failure.at > at || failure.literals > 0)
    .sort((a, b) => b.at - a.at || b.literals - a.literals)[0];
}

function twice(clauses: readonly ClauseNode[], problems: Problem[]): void {
  const seen = new Map<string, ClauseNode>();
  for (const clause of clauses) {
    if (clause.spec.repeatable) continue;
    const first = seen.get(clause.spec.id);
    if (first === undefined) seen.set(clause.spec.id, clause);
    else
      problems.push({
        slug: 'clause-twice',
        span: clause.span,
        message: `This statement says “${clause.spec.form.split(' ').find((w) => !/[{[(=]/.test(w)) ?? clause.spec.id}” twice; only the first counts: keep one.`,
      });
  }
}

function unknownStatement(word: string, span: Span, compiled: CompiledVocabulary): Problem {
  const near = nearWords(word, compiled.specs.keys());
  const [first] = near;
  return {
    slug: 'unknown-statement',
    span,
    message:
      first === undefined
        ? `“${word}” is no statement and no kind of part: a line at the margin begins with one, such as run, fuse or load.`
        : `“${word}” is no statement and no kind of part: did you mean ${near.join(' or ')}?`,
    fixes: near.map((name) => ({
      title: `Write ${name}`,
      safe: near.length === 1,
      edits: [{ span, newText: name }],
    })),
  };
}

function unknownStock(kind: Atom | undefined, node: StatementNode, compiled: CompiledVocabulary): Problem {
  const span = kind?.span ?? node.names.at(-1)?.span ?? (node.keyword as { span: Span }).span;
  const kinds = [...compiled.specs.values()].filter(({ spec }) => spec.category === 'kind').map(({ spec }) => spec.word);
  const near = kind?.kind === 'word' ? nearWords(kind.value, kinds) : [];
  return {
    slug: 'unknown-statement',
    span,
    message:
      near.length > 0
        ? `“${kind?.text}” is no kind of part: did you mean ${near.join(' or ')}?`
        : 'A stock says its name, then what kind of thing it is: stock thin6 cable 6 mm².',
    fixes: near.map((name) => ({ title: `Write ${name}`, safe: near.length === 1, edits: [{ span, newText: name }] })),
  };
}

function checkNames(node: StatementNode, own: CompiledSpec, vocabulary: Vocabulary, problems: Problem[]): void {
  if (own.spec.head === 'none' || node.keyword === undefined) return;
  if (node.names.length === 0) {
    problems.push({
      slug: 'missing-name',
      span: node.keyword.span,
      message: `This ${own.spec.word} has no name: give it one of letters and digits, such as ${own.spec.example.split(/\s+/)[1] ?? 'X1'}.`,
    });
    return;
  }
  for (const name of node.names) {
    if (vocabulary.reserved.has(name.value))
      problems.push({
        slug: 'reserved-name',
        span: name.span,
        message: `“${name.value}” is a word of the notation and cannot be a name: choose another, such as ${name.value.toUpperCase()}1.`,
      });
    else if (name.value.includes('/'))
      problems.push({
        slug: 'bad-name',
        span: name.span,
        message: `“${name.value}” cannot be a name: names have letters, digits, _ and -, so write ${name.value.replaceAll('/', '-')}.`,
        fixes: [{ title: `Write ${name.value.replaceAll('/', '-')}`, safe: false, edits: [{ span: name.span, newText: name.value.replaceAll('/', '-') }] }],
      });
  }
}

/** `#10` where a size is expected reads as a comment; only a run or stock without a size can mean it so. */
function hashGauge(node: StatementNode, own: CompiledSpec): Problem | undefined {
  if (own.spec.word !== 'run' && own.spec.word !== 'stock') return undefined;
  for (const comment of node.comments) {
    const match = /^#\s?([1-4]\/0|\d{1,2})(?=[\s,]|$)/.exec(comment.text);
    const lineStart = node.text.lastIndexOf('\n', comment.span.start - 1) + 1;
    if (!match?.[1] || node.text.slice(lineStart, comment.span.start).trim() === '') continue;
    const span = { start: comment.span.start, end: comment.span.start + match[0].length };
    return {
      slug: 'hash-gauge',
      span,
      message: `“${match[0]}” begins a comment here, so the size is not read: write ${match[1]} AWG.`,
      fixes: [{ title: `Write ${match[1]} AWG`, safe: true, edits: [{ span, newText: `${match[1]} AWG` }] }],
    };
  }
  return undefined;
}
