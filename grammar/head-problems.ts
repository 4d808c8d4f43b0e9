/** What is wrong with a statement's first word. What is wrong with its names stands in `name-problems.ts`. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { takesEnds } from './further-ends.ts';
import { looksLikeName } from './name-problems.ts';
import { nearWords } from './near.ts';
import { leadingMark } from './note-marks.ts';
import { article, insert, list, nearFixes, problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem, Span, StatementNode, WordAtom } from './tree.ts';
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
  const turnedRound = caseBeforeExpectation(node);
  if (turnedRound !== undefined) return turnedRound;
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

const turnedExpectation =
  /^in\s+([^\s,]+(?:\s+and\s+[^\s,]+)*),?\s+(?:expect\s+(?=\S)|(?=\S+\s+(?:voltage|current|drop|temperature|charge)\s+at\b))([^\n#]+)$/;

/** `in night expect …`: the case comes behind what is expected. */
function caseBeforeExpectation({ text }: StatementNode): Problem | undefined {
  const written = text.trimEnd();
  const [, cases, expected] = turnedExpectation.exec(written) ?? [];
  if (cases === undefined || expected === undefined) return undefined;
  const [span, right] = [{ start: 0, end: written.length }, `expect ${expected} in ${cases}`];
  const message = `The case comes behind what is expected: write expect … in ${cases}.`;
  return problem('unknown-statement', span, message, [replace(`Write ${right}`, span, right, true)]);
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

/** `switch S9 200 A, positions off 1 2`: what has positions is a selector, and is read as one. */
export function selectorMeant(
  keyword: WordAtom,
  { spec: { word } }: CompiledSpec,
  { names, body }: StatementNode,
  { specs }: CompiledVocabulary,
): { readonly spec: CompiledSpec; readonly told: Problem } | undefined {
  const spec = specs.get('selector');
  if (spec === undefined || (word !== 'switch' && word !== 'isolator')) return undefined;
  const some = body.slice(0, mostSearched);
  const isOff = (atom: Atom, i: number) =>
    atom.kind === 'word' && atom.value === 'off' && body[i + 1]?.kind === 'number';
  if (!some.some((atom, i) => (atom.kind === 'word' && atom.value === 'positions') || isOff(atom, i))) return undefined;
  const message = `A ${word} with positions is a selector: write selector${names[0] === undefined ? '' : ` ${names[0].value}`}.`;
  const fix = replace('Write selector', keyword.span, 'selector', true);
  return { spec, told: problem('unknown-statement', keyword.span, message.replace('A i', 'An i'), [fix]) };
}

/** So much of a cable's body is searched for the ends of a core. */
const mostSearched = 60;

/** `cable W13 1.5 mm² red, 2 m, F1:out to LAMP:+`: what says where it goes is a run, and is read as one. */
export function laidCable(
  keyword: WordAtom,
  { spec: { word }, open }: CompiledSpec,
  { names, body }: StatementNode,
  { specs }: CompiledVocabulary,
): { readonly spec: CompiledSpec; readonly told: Problem } | undefined {
  const spec = specs.get('run');
  if (word !== 'cable' || spec === undefined || open.some(takesEnds)) return undefined;
  const isEnd = (atom: Atom | undefined) => atom?.kind === 'terminal';
  const isLaid = body
    .slice(0, mostSearched)
    .some((atom, i) => atom.kind === 'word' && atom.value === 'to' && (isEnd(body[i - 1]) || isEnd(body[i + 1])));
  if (!isLaid) return undefined;
  const right = `run${names[0] === undefined ? '' : ` ${names[0].value}`}`;
  const message = `A cable that is laid is a run: write ${right}.`;
  return {
    spec,
    told: problem('unknown-statement', keyword.span, message, [replace('Write run', keyword.span, 'run', true)]),
  };
}
