/** What is wrong with a statement's head: its first word, its names. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { takesEnds } from './further-ends.ts';
import { type MatchWords, matchOf } from './match.ts';
import { nearWords } from './near.ts';
import { leadingMark } from './note-marks.ts';
import { article, insert, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem, Span, StatementNode, WordAtom } from './tree.ts';
import { unitOf } from './units.ts';
import type { StatementSpec } from './vocabulary.ts';

/** The statement begins with no word at all. */
export function noKeyword(node: StatementNode, { specs }: CompiledVocabulary): Problem | undefined {
  const first = node.atoms.find(({ kind }) => kind !== 'line');
  if (first === undefined) return undefined;
  const span = restOfLine(node, first.span.start);
  const note = leadingMark(node.text, first.span.start);
  if (note !== undefined) return note;
  if (first.kind === 'terminal' && first.terminal === '' && specs.has(first.part)) {
    const { part } = first;
    return problem(
      'unknown-statement',
      first.span,
      `No colon stands behind the first word: write ${quoted(part)} alone.`,
      [replace(`Write ${part}`, first.span, part, true)],
    );
  }
  let to = node.atoms.indexOf(first) + 1;
  // `18.` and `18)` of a list, and `[ ]` of one of tasks.
  while (
    node.atoms[to]?.kind === 'junk' &&
    (node.atoms[to]?.leading === '' || /^[\])]$/.test(node.atoms[to]?.text ?? ''))
  )
    to += 1;
  const next = node.atoms[to];
  if (next?.kind === 'word' && specs.has(next.value) && first.kind !== 'text' && !next.leading.includes('#')) {
    return strayBefore(node, { start: first.span.start, end: node.atoms[to - 1]?.span.end ?? first.span.end }, next);
  }
  const indent =
    first.kind === 'comma' || first.kind === 'junk'
      ? []
      : [insert('Indent it, as part of the statement above', node.atoms[0]?.span.start ?? 0, '    ', false)];
  return problem(
    'unknown-statement',
    span,
    `A statement begins with a word such as run, fuse or load, not with ${quoted(first.text)}; a line that belongs to the statement above is indented.`,
    node.text.startsWith(first.text) ? indent : [],
  );
}

function restOfLine({ text }: StatementNode, start: number): Span {
  const newline = text.indexOf('\n', start);
  const line = text.slice(start, newline === -1 ? undefined : newline);
  const comment = /\s#/.exec(line)?.index ?? line.length;
  return { start, end: start + line.slice(0, comment).trimEnd().length };
}

/** Something before the word that the statement is about. */
function strayBefore(node: StatementNode, stray: Span, { text, span }: Atom): Problem {
  const written = node.text.slice(stray.start, stray.end);
  // `**fuse** F1`: the mark stands again behind.
  const more = node.atoms.filter(
    (atom) => atom.kind === 'junk' && atom.text === written && atom.span.start > span.start,
  );
  return problem('unknown-statement', stray, `${quoted(written)} before ${quoted(text)} means nothing: take it out.`, [
    {
      title: 'Take it out',
      safe: false,
      edits: [
        { span: { start: stray.start, end: span.start }, newText: '' },
        ...more.map((atom) => ({ span: atom.span, newText: '' })),
      ],
    },
  ]);
}

export function unknownStatement(keyword: WordAtom, node: StatementNode, compiled: CompiledVocabulary): Problem {
  const { span, value } = keyword;
  const specs = (word: string) => (compiled.specs.get(word)?.spec.head ?? 'none') !== 'none';
  const turned = nameBeforeWord(keyword, node, compiled);
  if (turned !== undefined) return turned;
  const next = node.names[0] ?? node.body[0];
  if (next?.kind === 'word' && specs(next.value) && !next.leading.includes('#')) return strayBefore(node, span, next);
  const everyday = [...compiled.specs.values()].filter(({ spec }) => spec.alsoCalled?.includes(value.toLowerCase()));
  const near = everyday.length > 0 ? everyday.map(({ spec }) => spec.word) : nearWords(value, compiled.specs.keys());
  const owners = compiled.openers.get(value) ?? [];
  if (owners.length > 0 || compiled.words.colours.has(value) || value === 'to' || value === 'and') {
    const whose = list(owners.slice(0, 3).map(({ spec }) => article(spec.word)));
    return problem(
      'unknown-statement',
      span,
      `${quoted(value)} is no statement${whose === '' ? '' : `; it belongs to ${whose}`}: indent the line so that it continues the statement above.`,
      leadsLine(keyword) ? [insert('Indent it, as part of the statement above', span.start, '    ', false)] : [],
    );
  }
  const glued = near.length === 0 ? gluedName(value, compiled) : undefined;
  if (glued !== undefined)
    return problem('unknown-statement', span, `A space is missing in ${quoted(value)}: did you mean ${glued}?`, [
      replace(`Write ${glued}`, span, glued, true),
    ]);
  if (near.length === 0 && looksLikeName.test(value))
    return problem(
      'unknown-statement',
      span,
      `Before ${quoted(value)} the word is missing that says what it is, such as run, fuse or load.`,
    );
  return problem(
    'unknown-statement',
    span,
    near.length === 0
      ? `${quoted(value)} is no statement and no kind of part: a line at the margin begins with one, such as run, fuse or load.`
      : `${quoted(value)} is no statement and no kind of part: did you mean ${list(near)}?`,
    nearFixes(near, span),
  );
}

/** A line that begins with a word of the notation in capitals and goes on like prose. */
export function statementOrNote({ value, span }: WordAtom, { word }: StatementSpec): Problem {
  return problem(
    'unknown-statement',
    span,
    `${quoted(value)} begins no statement: write ${word} in small letters, or # before the line to keep it as a note.`,
    [insert('Make a note of it', span.start, '# ', false), replace(`Write ${word}`, span, word, false)],
  );
}

/** `run W18` for `runW18`: a name of capitals and digits directly behind a first word. */
function gluedName(value: string, { specs }: CompiledVocabulary): string | undefined {
  const [, word = '', name = ''] = /^(\p{Ll}+)(\p{Lu}[\p{Lu}\p{N}_-]*)$/u.exec(value) ?? [];
  const head = specs.get(word)?.spec.head ?? 'none';
  return head === 'none' ? undefined : `${word} ${name}`;
}

/** Names are mostly capitals and digits. */
const looksLikeName = /^\p{Lu}[\p{Lu}\p{N}_-]*$/u;

/** `F2 fuse`. */
function nameBeforeWord(
  { value, span }: WordAtom,
  { names, body }: StatementNode,
  { specs }: CompiledVocabulary,
): Problem | undefined {
  const next = names[0] ?? body[0];
  if (!looksLikeName.test(value) || next?.kind !== 'word' || next.leading.includes('#')) return undefined;
  if ((specs.get(next.value)?.spec.head ?? 'none') === 'none') return undefined;
  const right = `${next.value} ${value}`;
  const whole = { start: span.start, end: next.span.end };
  return problem('unknown-statement', whole, `The name comes behind the first word: write ${right}.`, [
    replace(`Write ${right}`, whole, right, true),
  ]);
}

const leadsLine = ({ leading }: Atom): boolean => leading === '';

/** A stock that does not say of which kind it is. */
export function unknownStock(kind: Atom | undefined, node: StatementNode, compiled: CompiledVocabulary): Problem {
  const span = kind?.span ?? node.names.at(-1)?.span ?? node.keyword?.span ?? { start: 0, end: 0 };
  const kinds = [...compiled.specs.values()]
    .filter(({ spec }) => spec.category === 'kind')
    .map(({ spec }) => spec.word);
  const near = kind?.kind === 'word' ? nearWords(kind.value, kinds) : [];
  return problem(
    'unknown-statement',
    span,
    near.length > 0
      ? `${quoted(kind?.text ?? '')} is no kind of part: did you mean ${list(near)}?`
      : 'A stock says its name, then what kind of thing it is: stock thin6 cable 6 mm².',
    nearFixes(near, span),
  );
}

/** `bus bar POS` and `fuse box FB`: a first word in two. */
function wordInTwo({ value, span }: WordAtom, node: StatementNode, { specs }: CompiledVocabulary): Problem | undefined {
  const [name, more] = node.names;
  const right = `${value}${name?.value ?? ''}`.toLowerCase();
  if (name === undefined || more !== undefined || node.body[0]?.kind !== 'word' || !specs.has(right)) return undefined;
  const whole = { start: span.start, end: name.span.end };
  const written = node.text.slice(whole.start, whole.end);
  return problem('unknown-statement', whole, `${quoted(written)} is written ${right} here.`, [
    replace(`Write ${right}`, whole, right, !/[#\n]/.test(written)),
  ]);
}

/** `battery switch Q2 …`: what it is for stands before what it is. */
function kindBefore(keyword: WordAtom, node: StatementNode, { specs }: CompiledVocabulary): Problem | undefined {
  const [name, more] = node.names;
  const [next] = node.body;
  if (name === undefined || more !== undefined || next?.kind !== 'word' || !looksLikeName.test(next.value))
    return undefined;
  return (specs.get(name.value)?.spec.head ?? 'none') === 'none' ? undefined : strayBefore(node, keyword.span, name);
}

/** What stands for a first word is two of them. */
export function firstWordOfTwo(
  keyword: WordAtom,
  node: StatementNode,
  compiled: CompiledVocabulary,
): Problem | undefined {
  return (
    wordInTwo(keyword, node, compiled) ??
    (compiled.specs.has(keyword.value) ? kindBefore(keyword, node, compiled) : undefined)
  );
}

export interface NameProblems {
  readonly problems: readonly Problem[];
  /** How many atoms of the body belong to a head gone wrong. */
  readonly taken: number;
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
    const bad = badName(body);
    // A title may stand behind it as behind a name.
    const titled = body[bad.length]?.kind === 'text' ? 1 : 0;
    if (bad.length > 0) return { problems: [notAName(bad)], taken: bad.length + titled };
    return { problems: [nameInQuotes(node) ?? noName(keyword, spec)], taken: 0 };
  }
  // `run POS to F1:in`: what seems its name is its first end.
  if (body[0]?.kind === 'word' && body[0].value === 'to' && own.open.some(takesEnds))
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
  const parted = nameInTwo(node);
  if (parted !== undefined)
    return { problems: [...problems, notAName(parted)], taken: body[1]?.kind === 'text' ? 2 : 1 };
  // `panel P1 and 120 W`: the second name is missing.
  const first = body[0];
  if (first?.kind === 'word' && first.value === 'and' && spec.head === 'names') {
    const bad = badName(body.slice(1));
    if (bad.length > 0) return { problems: [...problems, notAName(bad)], taken: 1 + bad.length };
    problems.push(
      problem('missing-name', first.span, `Another name is missing behind “and”, such as ${sampleName(spec)}.`),
    );
    return { problems, taken: 1 };
  }
  return { problems, taken: 0 };
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
  const instead = `${value.toUpperCase()}1`;
  return problem(
    'reserved-name',
    span,
    `${quoted(value)} is a word of the notation and cannot be a name: choose another, such as ${instead}.`,
    [replace(`Write ${instead}`, span, instead, false)],
  );
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

const joined = ({ kind, leading }: Atom): boolean => leading === '' && kind !== 'comma' && kind !== 'line';

function notAName(atoms: readonly Atom[]): Problem {
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
  return problem(
    'bad-name',
    span,
    `${quoted(text)} cannot be a name: names begin with a letter and have letters, digits, _ and -${instead === '' ? '' : `, such as ${instead}`}.`,
    instead === '' ? [] : [replace(`Write ${instead}`, span, instead, false)],
  );
}
