/** What is wrong with a statement's names. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { takesEnds } from './further-ends.ts';
import { type MatchWords, matchOf } from './match.ts';
import { problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem, StatementNode, WordAtom } from './tree.ts';
import { unitOf } from './units.ts';
import type { StatementSpec } from './vocabulary.ts';

/** Names are mostly capitals and digits. */
export const looksLikeName = /^\p{Lu}[\p{Lu}\p{N}_-]*$/u;

export interface NameProblems {
  readonly problems: readonly Problem[];
  /** How many atoms of the body belong to a head gone wrong. */
  readonly taken: number;
  /** An atom of the body that is its name, and stands among the clauses. */
  readonly apart?: Atom;
}

export function nameProblems(
  node: StatementNode,
  keyword: WordAtom,
  own: CompiledSpec,
  { words }: CompiledVocabulary,
): NameProblems {
  const { spec } = own;
  if (spec.head === 'none') return { problems: [], taken: 0 };
  const { names, body } = node;
  if (names.length === 0) {
    const reserved = body[0];
    if (reserved?.kind === 'word' && isForName(body, own, words)) return { problems: [notFree(reserved)], taken: 1 };
    // `run F1:out to LAMP:+`: it begins with its ends.
    if (body[0]?.kind === 'terminal' && isTo(body[1]) && own.open.some(takesEnds))
      return { problems: [noName(keyword, spec)], taken: 0 };
    const bad = badName(body);
    // A title may stand behind it as behind a name.
    const titled = body[bad.length]?.kind === 'text' ? 1 : 0;
    if (bad.length > 0) return { problems: [notAName(bad)], taken: bad.length + titled };
    const behind = nameBehind(node, own, words);
    if (behind !== undefined) return { problems: [movedForward(keyword, behind, node)], taken: 0, apart: behind };
    return { problems: [nameInQuotes(node) ?? noName(keyword, spec)], taken: 0 };
  }
  // `run POS to F1:in`: what seems its name is its first end.
  if (
    own.open.some(takesEnds) &&
    (isTo(body[0]) || (/^(?:from|between)$/i.test(names[0]?.value ?? '') && isEnd(body[0])))
  )
    return { problems: [noName(keyword, spec)], taken: 0 };
  const problems = names.flatMap((name) => {
    if (joinsNames.has(name.value)) return [noName(keyword, spec)];
    if (words.reserved.has(name.value)) return [notFree(name)];
    if (!name.value.includes('/')) return [];
    const both = name.value.split('/');
    return [
      spec.head === 'names' && both.every((one) => looksLikeName.test(one))
        ? joinedNames(name, both)
        : notAName([name]),
    ];
  });
  problems.push(...textBeforeName(node));
  const quantity = quantityAtName(node);
  if (quantity !== undefined) return { problems: [...problems, quantity], taken: 1 };
  const pointed = pointedNames(node);
  if (pointed.taken > 0) return { problems: [...problems, ...pointed.problems], taken: pointed.taken };
  const parted = nameInTwo(node);
  if (parted !== undefined)
    return { problems: [...problems, notAName(parted)], taken: body[1]?.kind === 'text' ? 2 : 1 };
  // `panel P1 and 120 W`: the second name is missing.
  const first = body[0];
  if (first?.kind === 'word' && first.value === 'and' && spec.head === 'names') {
    const behindTitle = nameBehindTitle(node);
    if (behindTitle !== undefined) {
      problems.push(joinedBeforeTitle(node, behindTitle));
      return { problems, taken: body[2]?.kind === 'text' ? 3 : 2 };
    }
    const bad = badName(body.slice(1));
    if (bad.length > 0) return { problems: [...problems, notAName(bad)], taken: 1 + bad.length };
    problems.push(
      problem('missing-name', first.span, `Another name is missing behind “and”, such as ${sampleName(spec)}.`),
    );
    return { problems, taken: 1 };
  }
  return { problems, taken: 0 };
}

const isTo = (atom: Atom | undefined): boolean => atom?.kind === 'word' && atom.value === 'to';

const isEnd = (atom: Atom | undefined): boolean => atom?.kind === 'terminal' || atom?.kind === 'word';

/** So many atoms of a statement without its name are searched for it. */
const mostBefore = 40;

/** The name of `fuse 5 A F1` and of `load 9 W, LAMP`: by itself among the clauses, and no word of one. */
function nameBehind(
  { names, body }: StatementNode,
  { byWord, spec }: CompiledSpec,
  words: MatchWords,
): Atom | undefined {
  if (names.length > 0 || spec.category !== 'kind') return undefined;
  const at = body.slice(0, mostBefore).findIndex(({ kind }) => kind === 'word');
  const [before, name, after] = [body[at - 1], body[at], body[at + 1]];
  const byItself =
    (before?.kind === 'quantity' || before?.kind === 'comma') &&
    (after === undefined || ['comma', 'line', 'text'].includes(after.kind));
  if (name?.kind !== 'word' || !byItself || !looksLikeName.test(name.value)) return undefined;
  return byWord.has(name.value) || words.reserved.has(name.value) || /^(?:M|IP)\d/.test(name.value) ? undefined : name;
}

function movedForward(keyword: WordAtom, name: Atom, { text, body }: StatementNode): Problem {
  const right = `${keyword.value} ${name.text}`;
  const before = body[body.indexOf(name) - 1];
  const from = before?.kind === 'comma' ? before.span.start : (before?.span.end ?? name.span.start);
  const isPlain = !/[#\n]/.test(text.slice(keyword.span.end, name.span.end));
  const fix = {
    title: `Write ${right}`,
    safe: isPlain,
    edits: [
      { span: { start: keyword.span.end, end: keyword.span.end }, newText: ` ${name.text}` },
      { span: { start: from, end: name.span.end }, newText: '' },
    ],
  };
  return problem('missing-name', name.span, `The name comes behind the first word: write ${right}.`, [fix]);
}

/** `RIGHT` of `load LEFT "a" and RIGHT "b"`. */
export function nameBehindTitle({ names, title, body }: StatementNode): Atom | undefined {
  const [and, name] = body;
  const isAnd = names.length > 0 && title !== undefined && and?.kind === 'word' && and.value === 'and';
  return isAnd && name?.kind === 'word' && looksLikeName.test(name.value) ? name : undefined;
}

function joinedBeforeTitle({ names, title, body }: StatementNode, name: Atom): Problem {
  const right = `${names.map(({ value }) => value).join(' and ')} and ${name.text}`;
  const [and] = body;
  const message = `Names that belong together are joined with “and”, and a text stands behind the last: write ${right}.`;
  const span = { start: and?.span.start ?? name.span.start, end: name.span.end };
  const whole = { start: names[0]?.span.start ?? span.start, end: span.end };
  // Of two texts the one to keep is for the writer to say.
  const fixes =
    body[2]?.kind === 'text' ? [] : [replace(`Write ${right}`, whole, `${right} ${title?.text ?? ''}`, false)];
  return problem('bad-name', span, message, fixes);
}

/** `panel P1/P2`. */
function joinedNames({ span }: WordAtom, names: readonly string[]): Problem {
  const right = names.join(' and ');
  return problem('bad-name', span, `Names that belong together are joined with “and”: write ${right}.`, [
    replace(`Write ${right}`, span, right, false),
  ]);
}

/** Words that something stands before: `busbar to F1:in` has no name, and none is called “to”. */
const joinsNames: ReadonlySet<string> = new Set(['to', 'and', 'with']);

const noName = ({ span }: WordAtom, spec: StatementSpec): Problem =>
  problem(
    'missing-name',
    span,
    `This ${spec.word} has no name: give it one of letters and digits, such as ${sampleName(spec)}.`,
  );

/** `fuse "F2"`: a text that could be a name, and no other name. */
function nameInQuotes({ title }: StatementNode): Problem | undefined {
  if (title === undefined || !looksLikeName.test(title.value)) return undefined;
  const { value, span } = title;
  return problem('missing-name', span, `A name stands without quotes: write ${value}.`, [
    replace(`Write ${value}`, span, value, true),
  ]);
}

function notFree({ value, span }: WordAtom): Problem {
  const instead = insteadOf(value);
  return problem('reserved-name', span, whyReserved(value), [replace(`Write ${instead}`, span, instead, false)]);
}

const insteadOf = (word: string): string => `${word.toUpperCase()}1`;

/** Told of a word that is kept for the notation, where it stands for a name. */
export function whyReserved(word: string): string {
  return `${quoted(word)} is a word of the notation and cannot be a name: choose another, such as ${insteadOf(word)}.`;
}

/** `case all sun 100 %`: a word that begins no clause here, though it may, and one begins behind it. */
function isForName(body: readonly Atom[], spec: CompiledSpec, words: MatchWords): boolean {
  const begins = (at: number) => {
    const atom = body[at];
    return atom !== undefined && spec.beginningWith(atom).some((form) => matchOf(form, body, at, words) !== undefined);
  };
  return !begins(0) && begins(1);
}

/** `fuse "Main fuse" F1`. */
function textBeforeName({ title, names, text }: StatementNode): Problem[] {
  const [first, last] = [names[0], names.at(-1)];
  if (title === undefined || first === undefined || last === undefined || title.span.start > first.span.start)
    return [];
  const name = text.slice(first.span.start, last.span.end);
  const right = `${name} ${title.text}`;
  const whole = { start: title.span.start, end: last.span.end };
  const fixes = text.slice(title.span.end, first.span.start).includes('#')
    ? []
    : [replace(`Write ${right}`, whole, right, true)];
  return [problem('missing-name', whole, `The name comes before its text: write ${right}.`, fixes)];
}

function sampleName({ example, word }: StatementSpec): string {
  const words = example.split(/\s+/);
  return words[words.indexOf(word) + 1] ?? 'X1';
}

/** Atoms at the body's beginning that were meant for a name: `F:1`, `1F`, `_X`, `12 10 A`. Empty when they are a clause. */
function badName(body: readonly Atom[]): Atom[] {
  const [first] = body;
  if (first === undefined || first.kind === 'comma' || first.kind === 'line' || first.kind === 'equals') return [];
  let end = 1;
  for (let next = body[end]; next !== undefined && joined(next); next = body[end]) end += 1;
  const chunk = body.slice(0, end);
  const behind = body[end];
  const value =
    behind !== undefined && ['quantity', 'number', 'text', 'equals', 'times', 'blank'].includes(behind.kind);
  switch (first.kind) {
    case 'terminal':
    case 'junk':
      return chunk;
    case 'number':
      // `12V-FUSE`; or a bare number where a clause begins behind it (`4 poles` does not).
      return chunk.some(({ kind }) => kind === 'word') || (end === 1 && value) ? chunk : [];
    case 'quantity': {
      const glued = !/\s/.test(first.text) && first.value !== undefined;
      const unit = first.text.slice(first.unitSpan.start - first.span.start);
      const misspelt = unitOf(first.unit)?.misspelt.includes(unit) === true;
      return glued &&
        (end > 1 || (value && (misspelt || behind.kind !== 'quantity' || behind.dimension === first.dimension)))
        ? chunk
        : [];
    }
    default:
      return [];
  }
}

/** `P2` of `panel P1, P2` and of `panel P1 & P2`: what stands for “and” there hides a name. */
export function nameBehindMark({ names, body }: StatementNode): Atom | undefined {
  const [mark, name] = body;
  const isAnd = mark?.kind === 'word' && mark.value !== 'and' && /^(?:and|und|et)$/i.test(mark.value);
  const parts = isAnd || mark?.kind === 'comma' || (mark?.kind === 'junk' && /^[&+/;]$/.test(mark.text));
  return names.length > 0 && parts && name?.kind === 'word' && looksLikeName.test(name.value) ? name : undefined;
}

/** The second name of `panel P1, and P2`. */
export function nameBehindComma({ names, body }: StatementNode): Atom | undefined {
  const [comma, and, name] = body;
  const parts = comma?.kind === 'comma' && and?.kind === 'word' && and.value === 'and';
  return names.length > 0 && parts && name?.kind === 'word' && looksLikeName.test(name.value) ? name : undefined;
}

/** `F 2` for `F2`: a short name, and its number where no clause begins with one. */
export function nameInTwo({ names, body }: StatementNode): readonly [Atom, Atom] | undefined {
  const [name, more] = names;
  const [number, behind] = body;
  if (name === undefined || more !== undefined || number?.kind !== 'number' || number.leading === '') return undefined;
  const isPart = /^\p{Lu}{1,2}$/u.test(name.value) && /^\d+$/.test(number.text) && !/[#\n]/.test(number.leading);
  return isPart && (behind?.kind === 'text' || behind?.kind === 'equals' || behind?.kind === 'quantity')
    ? [name, number]
    : undefined;
}

/** `F1.1`, `P1.1 and P1.2`, `V2.0 "Pump"`: names that go on behind a point. */
function pointedNames({ names, body }: StatementNode): NameProblems {
  const problems: Problem[] = [];
  let taken = 0;
  for (let name: Atom | undefined = names.at(-1); name?.kind === 'word'; ) {
    const behind = behindPoint(body, taken);
    if (behind.length > 0) problems.push(notAName([name, ...behind]));
    else if (taken === 0) break;
    taken += behind.length;
    name = body[taken]?.text === 'and' ? body[taken + 1] : undefined;
    if (name?.kind === 'word') taken += 2;
  }
  return { problems, taken: taken > 0 && body[taken]?.kind === 'text' ? taken + 1 : taken };
}

/** What touches the word before `at` and begins with a point: `.1`, or `.` and `A`. A unit behind it says that it is a quantity. */
export function behindPoint(atoms: readonly Atom[], at: number): readonly Atom[] {
  const first = atoms[at];
  if (first === undefined || first.leading !== '' || !first.text.startsWith('.') || first.kind === 'quantity')
    return [];
  let end = at + 1;
  for (let next = atoms[end]; next !== undefined && joined(next); next = atoms[end]) end += 1;
  return atoms.slice(at, end);
}

/** `= cable-2.5` and `F1.1:in`: a name with a point, where a name is used; `at` is the name's place or the one behind it. */
export function pointedName(atoms: readonly Atom[], at: number, { reserved }: MatchWords): Problem | undefined {
  for (const from of [at, at - 1]) {
    const name = atoms[from];
    if (name?.kind !== 'word' || reserved.has(name.value) || (from === at && !looksLikeName.test(name.value))) continue;
    const behind = behindPoint(atoms, from + 1);
    // Its terminal is no part of the name.
    const colon = behind.findIndex(({ text }) => text.startsWith(':'));
    const own = colon === -1 ? behind : behind.slice(0, colon);
    if (own.some(({ text }) => /\p{N}/u.test(text))) return notAName([name, ...own]);
  }
  return undefined;
}

/** `F1.5 A`: a quantity that touches a name. */
function quantityAtName({ names, body }: StatementNode): Problem | undefined {
  const [name, quantity] = [names.at(-1), body[0]];
  if (name === undefined || quantity?.kind !== 'quantity' || quantity.leading !== '' || !quantity.text.startsWith('.'))
    return undefined;
  const span = { start: name.span.start, end: quantity.span.end };
  const right = `${name.text} 0${quantity.text}`;
  return problem('bad-name', span, `A name takes no point: write ${right}, with a space between, or - for the point.`, [
    replace(`Write ${right}`, span, right, false),
  ]);
}

const joined = ({ kind, leading }: Atom): boolean => leading === '' && kind !== 'comma' && kind !== 'line';

export function notAName(atoms: readonly Atom[]): Problem {
  const text = atoms.map((atom, i) => (i === 0 || atom.leading === '' ? '' : ' ') + atom.text).join('');
  const span = { start: atoms[0]?.span.start ?? 0, end: atoms.at(-1)?.span.end ?? 0 };
  const plain = text
    .replace(/ /g, '')
    .replace(/[^\p{L}\p{M}\p{N}_-]+/gu, '-')
    .replace(/^[-_]+|-+$/g, '');
  const instead = /^\p{L}/u.test(plain) ? plain : /\p{N}/u.test(plain) ? `N${plain}` : '';
  if (text === `${instead}:`)
    return problem('bad-name', span, `No colon stands behind a name: write ${instead}.`, [
      replace(`Write ${instead}`, span, instead, true),
    ]);
  const write = [replace(`Write ${instead}`, span, instead, false)];
  if (/^\p{L}[\p{L}\p{M}\p{N}_.-]*$/u.test(text))
    return problem('bad-name', span, `A name takes no point: write ${instead} for ${quoted(text)}.`, write);
  return problem(
    'bad-name',
    span,
    `${quoted(text)} cannot be a name: names begin with a letter and have letters, digits, _ and -${instead === '' ? '' : `, such as ${instead}`}.`,
    instead === '' ? [] : write,
  );
}
