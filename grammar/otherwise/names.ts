/** `load LEFT 9 W and RIGHT 9 W`, `load LAMP 9 W with a fuse of 5 A`: a name or a part more behind what is said. */
import { spanOf, word } from '../mend.ts';
import { looksLikeName } from '../name-problems.ts';
import { problem } from '../phrases.ts';
import type { Atom } from '../tree.ts';
import { isName, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

/** A name behind a clause, and what is said once more of it. */
export const nameBehindClause: Rewriter = (body, at, spec, compiled) => {
  const [and, name] = [body[at], body[at + 1]];
  // Directly behind the names, with a comma or without, it is one of them.
  const behindClause = at > 1 || (at === 1 && body[0]?.kind !== 'comma');
  if (spec.spec.head !== 'names' || !behindClause || !isWord(and, /^and$/)) return undefined;
  if (!isName(name, [spec, compiled]) || !looksLikeName.test(name.value)) return undefined;
  let end = at + 2;
  while (end < body.length && body[end]?.kind !== 'comma' && body[end]?.kind !== 'line') end += 1;
  const message = `Names that belong together stand before what is said of them: write “and ${name.value}” behind the first name, or give ${name.value} a ${spec.spec.word} of its own.`;
  return { count: end - at, put: [], problem: problem('unknown-clause', spanOf([and, name]), message) };
};

/** Kinds that are fuses, or say what fuse they have. */
const haveFuses: ReadonlySet<string> = new Set(['fuse', 'breaker', 'fusebox']);

/** So many words stand between `with` and the figure. */
const mostWords = 5;

/** `load LAMP 9 W with a fuse of 5 A`, `fused at 5 A`: a fuse said as a part of another. */
export const fuseOfPart: Rewriter = (body, at, { spec, byWord }) => {
  if (haveFuses.has(spec.word) || byWord.has('fuse')) return undefined;
  if (!isWord(body[at], /^(?:with|fuse|fused|via|behind|over)$/i) || isWord(body[at - 1], /^(?:most|series|max)$/i))
    return undefined;
  let end = at;
  let says = false;
  let rating: Atom | undefined;
  while (end < at + mostWords + 1) {
    const atom = body[end];
    if (isQuantity(atom, 'current')) rating = rating ?? atom;
    else if (isWord(atom, /^fused?$/i)) says = true;
    else if (!isWord(atom, /^(?:with|a|an|its|own|of|at|by|via|behind|over|rated)$/i)) break;
    end += 1;
  }
  if (!says || rating === undefined) return undefined;
  const message = `A fuse is a part of its own: write fuse F2 ${rating.text} … on a line, and lead a core through it.`;
  const some = body.slice(at, end);
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};

/** `socket USB 10 A, 24 W plugged in`, `plugged in PHONE`. */
export const pluggedIn: Rewriter = (body, at, { spec }) => {
  if (spec.word !== 'socket') return undefined;
  const [first, second, third] = body.slice(at, at + 3);
  if (isQuantity(first, 'power', 'current') && isWord(second, /^plugged$/i)) {
    const some = body.slice(at, isWord(third, /^in$/i) ? at + 3 : at + 2);
    const put = [word('plugged', some), word('in', some), first];
    return rewritten(some, `plugged in ${first.text}`, put, true);
  }
  if (!isWord(first, /^plugged$/i) || !isWord(second, /^in$/i) || third?.kind !== 'word') return undefined;
  const some = [first, second, third];
  const message = 'What is plugged in is said by its power or its current: write it like “plugged in 36 W”.';
  return { count: 3, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};
