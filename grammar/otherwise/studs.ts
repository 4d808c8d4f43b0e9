/** `4 studs M8`, `4 x M8 studs`, `M8 studs`, `8 clamps`: how many studs a bar has, and their thread. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted } from '../phrases.ts';
import type { Atom, NumberAtom } from '../tree.ts';
import { beginsClause, commaAt, isWord, type Rewriter, rewritten } from './rewriting.ts';

const stud = /^(?:studs?|posts?|bolts?)$/i;
const thread = /^M\d+$/;
/** What is counted as the studs are. */
const clamps = /^(?:clamps?|clips?|screws?|terminals?|connections?|positions?)$/i;

export const studsAndThread: Rewriter = (body, at, { open, byWord }) => {
  if (!byWord.has('stud')) return undefined;
  const first = body[at] as Atom;
  const count = first.kind === 'number' || first.kind === 'times' ? first.value : undefined;
  if (count === undefined) return beginsClause(body, at) ? threadOfStuds(body, at) : undefined;
  // What has no number of studs says their thread alone.
  if (!open.some(({ clause }) => clause.id === 'studs')) return undefined;
  let end = at + 1;
  if (isWord(body[end], clamps)) return counted(body.slice(at, at + 2), count);
  if (isWord(body[end], stud)) end += 1;
  const size = body[end];
  if (!isWord(size, thread)) return undefined;
  end += isWord(body[end + 1], stud) ? 2 : 1;
  const some = body.slice(at, end);
  const { text, put } = studsOf(some, count);
  return rewritten(some, `${text}, stud ${size.value}`, [...put, commaAt(some), word('stud', some), size], false);
};

function counted(some: readonly Atom[], count: number): ReturnType<Rewriter> {
  const { text, put } = studsOf(some, count);
  return rewritten(some, text, put, true);
}

function studsOf(some: readonly Atom[], count: number): { readonly text: string; readonly put: readonly Atom[] } {
  const many = count === 1 ? 'stud' : 'studs';
  const text = String(count);
  const number: NumberAtom = { ...word(text, some), kind: 'number', value: count };
  return { text: `${text} ${many}`, put: [number, word(many, some)] };
}

function threadOfStuds(body: readonly Atom[], at: number): ReturnType<Rewriter> {
  const [size, behind] = [body[at], body[at + 1]];
  if (!isWord(size, thread) || !isWord(behind, stud)) return undefined;
  const some = [size, behind];
  return rewritten(some, `stud ${size.value}`, [word('stud', some), size], true);
}

const inInches = /^(?:\d+ ?[- ]? ?)?\d+ ?(?:\/ ?\d+.*|"|″|inch.*|in)$/iu;
const mostPieces = 8;

/** `stud 5/16"`: the notation has metric threads alone. */
export const studInInches: Rewriter = (body, at) => {
  if (!isWord(body[at], stud)) return undefined;
  let end = at + 1;
  while (end < at + mostPieces && body[end] !== undefined && body[end]?.kind !== 'comma' && body[end]?.kind !== 'line')
    end += 1;
  const size = body.slice(at + 1, end);
  if (!inInches.test(textOf(size))) return undefined;
  const message = `${quoted(textOf(size))} is an inch thread, and studs are said in metric threads, such as stud M8: leave another thread out.`;
  return { count: end - at, put: [], problem: problem('unit-spelling', spanOf(size), message) };
};
