/** `0.7 m long from F1:out to LAMP:+`: words between a cable's length and its first end. */
import { spanOf, textOf } from '../mend.ts';
import { isEnd } from '../pauses.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom } from '../tree.ts';
import { commaAt, isQuantity, isWord, type Rewriter } from './rewriting.ts';

export const wordsBehindLength: Rewriter = (body, at) => {
  const length = body[at - 1];
  if (!isQuantity(length, 'length') || body[at]?.kind !== 'word') return undefined;
  let end = at;
  if (isWord(body[end], /^long$/i)) end += 1;
  if (end > at && body[end]?.kind === 'comma') end += 1;
  if (isWord(body[end], /^from$/i)) end += 1;
  const [words, next] = [body.slice(at, end), body[end]];
  const isBusbar = next?.kind === 'word' && isWord(body[end + 1], /^to$/);
  if (words.length === 0 || next === undefined || !(isEnd(next) || isBusbar)) return undefined;
  const message = `${quoted(textOf(words.filter(({ kind }) => kind !== 'comma')))} need not be said before ${quoted(next.text)}: a comma is enough.`;
  const between = { start: length.span.end, end: next.span.start };
  const told = problem('unknown-clause', spanOf(words), message, [replace('Put a comma instead', between, ', ', true)]);
  const put: readonly Atom[] = [commaAt(words)];
  return { count: words.length, put, problem: told };
};
