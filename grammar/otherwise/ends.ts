/** `F1:out goes to LAMP:+`, `between F1:out and LAMP:+`: where a core leads, in other words than “to”. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom } from '../tree.ts';
import { beginsClause, isName, isWord, type Rewriter, rewritten } from './rewriting.ts';

const alone = /^(?:into|feeds|supplies|powers|towards?|reaches|goes|leads|runs|connects|joins)$/i;
const beforeTo = /^(?:goes|leads|runs|connects|connected|joined|going|leading|running|wired|on|up|over|across)$/i;
const lead = /^(?:connects|connecting|links|linking|joins|joining|feeds|feeding|goes|leads)$/i;

const isEnd = (atom: Atom | undefined, known: Parameters<typeof isName>[1]): atom is Atom =>
  (atom?.kind === 'terminal' && atom.terminal !== '') || isName(atom, known);

const endsClause = (atom: Atom | undefined): boolean =>
  atom === undefined || atom.kind === 'comma' || atom.kind === 'line';

/** `F1:out goes to LAMP:+`, `F1:out feeds LAMP:+`. */
export const goesTo: Rewriter = (body, at, ...known) => {
  const [before, first, second] = [body[at - 1], body[at], body[at + 1]];
  if (!isEnd(before, known) || isWord(body[at - 2], /^(?:to|along|enters|in|and|with|by)$/)) return undefined;
  const count = isWord(first, beforeTo) && isWord(second, /^to$/i) ? 2 : isWord(first, alone) ? 1 : 0;
  if (count === 0 || !isEnd(body[at + count], known) || !endsClause(body[at + count + 1])) return undefined;
  // Of two names alone, one may be a place or a box.
  if (before.kind !== 'terminal' && body[at + count]?.kind !== 'terminal') return undefined;
  const some = body.slice(at, at + count);
  return rewritten(some, 'to', [word('to', some)], true);
};

/** `between F1:out and LAMP:+`, `to LAMP:+ from F1:out`, `connects F1:out to LAMP:+`. */
export const betweenEnds: Rewriter = (body, at, ...known) => {
  const [first, one, joint, other] = body.slice(at, at + 4);
  if (!isEnd(one, known) || !isEnd(other, known) || isEnd(body[at - 1], known)) return undefined;
  const some = body.slice(at, at + 4);
  const put = (from: Atom, to: Atom) =>
    rewritten(some, `${from.text} to ${to.text}`, [from, word('to', some), to], true);
  if (isWord(first, /^between$/i) && isWord(joint, /^(?:and|to|&)$/i)) return put(one, other);
  if (isWord(first, /^to$/i) && isWord(joint, /^from$/i) && beginsClause(body, at)) return put(other, one);
  if (!isWord(first, lead) || !isWord(joint, /^to$/)) return undefined;
  const message = `${quoted(textOf([first]))} need not be said before ${quoted(one.text)}: leave it out.`;
  const fix = replace('Leave it out', { start: first.span.start, end: one.span.start }, '', true);
  return { count: 1, put: [], problem: problem('unknown-clause', spanOf([first]), message, [fix]) };
};
