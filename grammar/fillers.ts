/**
 * Signs and words that people put into a statement out of habit, and that it reads as well without: `length: 4.2 m`,
 * `internal = 5 mΩ`, `along the GARAGE`. They are told once a statement, and left out before its clauses are read.
 */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { openingTypes } from './forms.ts';
import { takesEnds } from './further-ends.ts';
import { expectedAfter, type MatchWords, matchOf } from './match.ts';
import { word } from './mend.ts';
import { breakBeforeTo, commaBeforeAnd, isEnd } from './pauses.ts';
import { problem, quoted } from './phrases.ts';
import type { Atom, Problem, ProblemFix, StatementNode } from './tree.ts';
import { unsaidAt, unsaidTold } from './unsaid-words.ts';
import type { ClauseSpec } from './vocabulary.ts';

export interface WithoutFillers {
  readonly body: readonly Atom[];
  readonly problems: readonly Problem[];
}

/** What a filler is told as: a label, an article, a comma for “to”, a comma or a line end before “to”, a comma within a clause, brackets, a word of the trade. */
type Habit = 'label' | 'article' | 'comma' | 'pause' | 'break' | 'within' | 'equals' | 'brackets' | 'unsaid';

export interface Filler {
  readonly is: Habit;
  /** The atoms that stand there, and what stands there instead. */
  readonly count: number;
  readonly put: readonly Atom[];
  readonly edits: ProblemFix['edits'];
}

export function withoutFillers(
  body: readonly Atom[],
  node: StatementNode,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): WithoutFillers {
  let right: Atom[] | undefined;
  const found: { readonly filler: Filler; readonly atom: Atom; readonly next: Atom | undefined }[] = [];
  for (let i = 0; i < body.length; i++) {
    const atom = body[i] as Atom;
    const filler = mayFill.has(atom.kind) ? fillerAt(body, i, spec, compiled) : undefined;
    if (filler === undefined) {
      right?.push(atom);
      continue;
    }
    right ??= body.slice(0, i);
    right.push(...filler.put);
    found.push({ filler, atom, next: body[i + filler.count] });
    i += filler.count - 1;
  }
  if (right === undefined) return { body, problems: [] };
  const problems: Problem[] = [];
  for (const is of ['label', 'article', 'comma', 'pause', 'break', 'within', 'equals', 'brackets', 'unsaid'] as const) {
    const alike = found.filter(({ filler }) => filler.is === is);
    const [first] = alike;
    if (first === undefined) continue;
    const edits = alike.flatMap(({ filler }) => filler.edits);
    const last = body[body.indexOf(first.atom) + first.filler.count - 1] ?? first.atom;
    const span = is === 'unsaid' ? { start: first.atom.span.start, end: last.span.end } : first.atom.span;
    const words = unsaidTold(node.text.slice(span.start, span.end));
    const fix = { title: titles[is][alike.length === 1 ? 0 : 1], safe: is !== 'unsaid' || words.safe, edits };
    const message = is === 'unsaid' ? words.message : told(is, first.filler, first.atom, first.next, node);
    problems.push(problem('unknown-clause', span, message, [fix]));
  }
  return { body: right, problems };
}

const titles = {
  label: ['Leave the sign out', 'Leave the signs out'],
  article: ['Leave it out', 'Leave them out'],
  comma: ['Write to', 'Write to in all places'],
  break: ['Put it on the line above', 'Put them on the line above'],
  pause: ['Take the comma out', 'Take the commas out'],
  within: ['Take the comma out', 'Take the commas out'],
  equals: ['Leave it out', 'Leave them out'],
  brackets: ['Leave the brackets out', 'Leave the brackets out'],
  unsaid: ['Leave it out', 'Leave them out'],
} as const;

function told(is: Habit, { put, count }: Filler, atom: Atom, next: Atom | undefined, node: StatementNode): string {
  const behind = next === undefined ? '' : ` ${node.text.slice(next.span.start, next.span.end)}`;
  if (is === 'article')
    return `${quoted(atom.text)} need not be said: ${behind === ' to' ? 'leave it out' : `write ${behind.trim()}`}.`;
  if (is === 'comma') return `Between the two ends of a core stands “to”, not a comma: write to${behind}.`;
  if (is === 'brackets') return `A figure stands without brackets: write ${put[0]?.text}.`;
  if (is === 'equals') return `“=” takes the name of a stock: leave it out before ${quoted(behind.trim())}.`;
  if (is === 'within') return `No comma stands within a clause: take it out before ${quoted(behind.trim())}.`;
  if (is === 'break') return 'Behind the first end of a core its “to” stands on the same line: put it there.';
  if (is === 'pause') return 'No comma stands between an end and its “to”: take it out.';
  const [meant] = put;
  const sign = atom.kind === 'terminal' || count === 1 ? ':' : '=';
  return `A clause is said without ${quoted(sign)}: write ${meant?.kind === 'word' ? meant.value : ''}${behind}.`.replace(
    'write  ',
    'write ',
  );
}

const mayFill: ReadonlySet<Atom['kind']> = new Set(['terminal', 'word', 'comma', 'line', 'equals', 'junk']);

function fillerAt(
  body: readonly Atom[],
  at: number,
  spec: CompiledSpec,
  { specs: kinds, words }: CompiledVocabulary,
): Filler | undefined {
  const { colours } = words;
  const atom = body[at] as Atom;
  switch (atom.kind) {
    case 'terminal':
      if (atom.terminal !== '') return undefined;
      return label(body, at, atom.part, 1, spec, colours) ?? stateBehind(body, at, 1, spec, words);
    case 'equals':
      return equalsBefore(body, at, spec, words);
    case 'junk':
      return inBrackets(body, at);
    case 'word': {
      const unsaid = unsaidAt(body, at, spec);
      if (unsaid !== undefined)
        return { is: 'unsaid', count: unsaid.count, put: [], edits: [{ span: unsaid.span, newText: '' }] };
      const next = body[at + 1];
      if (next?.kind === 'equals' || isColon(next))
        return label(body, at, atom.value, 2, spec, colours) ?? stateBehind(body, at, 2, spec, words);
      if (next?.kind !== 'word' && next?.kind !== 'terminal') return undefined;
      return articles.has(atom.value) || isKindOfEnd(body, at, spec, kinds) ? article(body, at, spec) : undefined;
    }
    case 'comma':
      return commaForTo(body, at, spec) ?? commaWithin(body, at, spec, words) ?? commaBeforeAnd(body, at, spec, words);
    case 'line':
      return breakBeforeTo(body, at);
    default:
      return undefined;
  }
}

const isColon = (atom: Atom | undefined) => atom?.kind === 'junk' && atom.text === ':';
const values: ReadonlySet<Atom['kind']> = new Set([
  'quantity',
  'number',
  'times',
  'blank',
  'range',
  'text',
  'date',
  'clock',
]);

/** `internal: 5 mΩ`, `length = 4.2 m`: a keyword stays, what only names the clause goes. */
function label(
  body: readonly Atom[],
  at: number,
  name: string,
  count: number,
  spec: CompiledSpec,
  colours: ReadonlyMap<string, unknown>,
): Filler | undefined {
  const [atom, next] = [body[at] as Atom, body[at + count]];
  if (next === undefined || next.kind === 'comma' || next.kind === 'line') return undefined;
  const isColour = colours.has(name) && spec.open.some((form) => openingTypes(form).includes('colour'));
  // `Voc: 22.6 V`, as data sheets write it.
  const keyword = spec.byWord.has(name) || next.kind === 'word' ? name : name.toLowerCase();
  const isKeyword = spec.byWord.has(keyword) || name === 'to' || isColour;
  const value = values.has(next.kind) || isEnd(next) || next.kind === 'word';
  // `tinned = thin6` takes a stock.
  if (!value || (count === 2 && (name === 'to' || (next.kind === 'word' && body[at + 1]?.kind === 'equals'))))
    return undefined;
  if (isKeyword) {
    const end = (body[at + count - 1] as Atom).span.end;
    const from = atom.kind === 'terminal' ? atom.partSpan.end : atom.span.end;
    const newText = next.leading === '' ? ' ' : '';
    const edit =
      keyword === name
        ? { span: { start: from, end }, newText }
        : { span: { start: atom.span.start, end }, newText: `${keyword}${newText}` };
    return { is: 'label', count, put: [word(keyword, [atom])], edits: [edit] };
  }
  const names = ({ id, form }: ClauseSpec) => id === name || form.startsWith(`{${name}:`);
  const isName = name === 'from' || spec.open.some(({ clause }) => names(clause));
  if (!isName || next.kind === 'word') return undefined;
  return {
    is: 'label',
    count,
    put: [],
    edits: [{ span: { start: atom.span.start, end: next.span.start }, newText: '' }],
  };
}

/** `LAMP: on`, `LAMP = on`: a name with a sign before the word that is said of it. */
function stateBehind(
  body: readonly Atom[],
  at: number,
  count: number,
  spec: CompiledSpec,
  words: MatchWords,
): Filler | undefined {
  const [atom, next] = [body[at] as Atom, body[at + count]];
  if (next?.kind !== 'word' || spec.byWord.has(next.value)) return undefined;
  const name = word(atom.kind === 'terminal' ? atom.part : atom.text, [atom]);
  const expected = expectedAfter(spec.open, [name], words);
  if (!expected.some((one) => one.is === 'word' && one.slot !== undefined && one.word === next.value)) return undefined;
  const from = atom.kind === 'terminal' ? atom.partSpan.end : atom.span.end;
  const end = (body[at + count - 1] as Atom).span.end;
  const edits = [{ span: { start: from, end }, newText: next.leading === '' ? ' ' : '' }];
  return { is: 'label', count, put: [name], edits };
}

/** `along LOFT (2.4 m)`: a figure in brackets behind a word. */
function inBrackets(body: readonly Atom[], at: number): Filler | undefined {
  const [before, open, figure, close] = [body[at - 1], body[at], body[at + 1], body[at + 2]];
  if (before?.kind !== 'word' || open?.text !== '(' || figure?.kind !== 'quantity' || close?.text !== ')')
    return undefined;
  const edits = [open, close].map(({ span }) => ({ span, newText: '' }));
  return { is: 'brackets', count: 3, put: [figure], edits };
}

/** `= along ENGINE`: a keyword with what it takes is no stock. */
function equalsBefore(
  body: readonly Atom[],
  at: number,
  { byWord }: CompiledSpec,
  words: MatchWords,
): Filler | undefined {
  const [atom, next] = [body[at] as Atom, body[at + 1]];
  const forms = next?.kind === 'word' ? (byWord.get(next.value) ?? []) : [];
  const rest = body.slice(at + 1, at + 1 + longest);
  if (next === undefined || !forms.some((form) => (matchOf(form, rest, 0, words)?.end ?? 0) > 1)) return undefined;
  return {
    is: 'equals',
    count: 1,
    put: [],
    edits: [{ span: { start: atom.span.start, end: next.span.start }, newText: '' }],
  };
}

/** Of one clause, which is read at a sign that may stand within it. */
const longest = 12;

/** `way 3, fuse 10 A`: the clause before is not whole, and the word behind begins none. */
function commaWithin(
  body: readonly Atom[],
  at: number,
  { byWord }: CompiledSpec,
  words: MatchWords,
): Filler | undefined {
  const [keyword, value, atom, next] = [body[at - 2], body[at - 1], body[at] as Atom, body[at + 1]];
  if (keyword?.kind !== 'word' || value?.kind !== 'number' || next?.kind !== 'word' || byWord.has(next.value))
    return undefined;
  const forms = byWord.get(keyword.value) ?? [];
  const before = [keyword, value];
  if (forms.some((form) => matchOf(form, before, 0, words) !== undefined)) return undefined;
  const wanted = expectedAfter(forms, before, words);
  if (!wanted.some((one) => one.is === 'word' && one.word === next.value)) return undefined;
  return { is: 'within', count: 1, put: [], edits: [{ span: atom.span, newText: next.leading === '' ? ' ' : '' }] };
}

const articles: ReadonlySet<string> = new Set(['the', 'The']);

/** `battery B1:+ to fuse F1:in`: what a part is was said where it was declared. */
function isKindOfEnd(
  body: readonly Atom[],
  at: number,
  spec: CompiledSpec,
  kinds: ReadonlyMap<string, CompiledSpec>,
): boolean {
  const [atom, next] = [body[at], body[at + 1]];
  // `POS busbar to F1:in` too.
  const behind = next?.kind === 'word' && next.value === 'to' && body[at - 1]?.kind === 'word';
  if (!behind && !isEnd(next)) return false;
  return atom?.kind === 'word' && kinds.has(atom.value) && spec.open.some(takesEnds);
}

/** `along the GARAGE`. */
function article(body: readonly Atom[], at: number, spec: CompiledSpec): Filler | undefined {
  const [before, atom, next] = [body[at - 1], body[at] as Atom, body[at + 1]];
  const isTo = next?.kind === 'word' && next.value === 'to';
  const behindWord = (before?.kind === 'word' && (isTo || spec.byWord.has(before.value))) || next?.kind === 'terminal';
  if (!behindWord || (next?.kind !== 'word' && next?.kind !== 'terminal')) return undefined;
  return {
    is: 'article',
    count: 1,
    put: [],
    edits: [{ span: { start: atom.span.start, end: next.span.start }, newText: '' }],
  };
}

/** `F1:out, LAMP:+` for `F1:out to LAMP:+`: two ends by themselves with a comma between them. */
function commaForTo(body: readonly Atom[], at: number, spec: CompiledSpec): Filler | undefined {
  const [before, from, to, behind] = [body[at - 2], body[at - 1], body[at + 1], body[at + 2]];
  const atom = body[at] as Atom;
  if (isEnd(from) && to?.kind === 'word' && to.value === 'to' && behind !== undefined)
    return { is: 'pause', count: 1, put: [], edits: [{ span: atom.span, newText: to.leading === '' ? ' ' : '' }] };
  if (!isEnd(from) || !isEnd(to) || !spec.open.some(takesEnds)) return undefined;
  const joins = (atom: Atom | undefined) => atom?.kind === 'word' && (atom.value === 'to' || atom.value === 'and');
  if (joins(before) || joins(behind) || (behind !== undefined && behind.kind !== 'comma' && behind.kind !== 'line'))
    return undefined;
  return {
    is: 'comma',
    count: 1,
    put: [word('to', [atom])],
    edits: [{ span: atom.span, newText: to?.leading === '' ? ' to ' : ' to' }],
  };
}
