/** `allow drop-over-limit on W9 because it is short`, `… for W9 "short"`: what is accepted, and why. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, TextAtom } from '../tree.ts';
import { isWord, type Rewriter, rewritten } from './rewriting.ts';

const because = /^(?:because|since|reason)$/i;
const marks = /^(?:-|–|—|:|=|=>|\/\/)$/;

export const forSubject: Rewriter = (body, at) => {
  const preposition = body[1];
  const isIt = at === 1 && body[0]?.kind === 'word' && isWord(preposition, /^(?:for|of|at)$/i);
  if (!isIt || body[2]?.kind !== 'word') return undefined;
  return rewritten([preposition], 'on', [word('on', [preposition])], true);
};

export const reasonWithoutQuotes: Rewriter = (body, at) => {
  if (at === 0 || at > 3) return undefined;
  const end = body.findIndex(({ kind }) => kind === 'line');
  const line = end === -1 ? body : body.slice(0, end);
  const [finding, on, subject] = line;
  if (finding?.kind !== 'word' || line.some(({ kind }) => kind === 'text')) return undefined;
  const named = isWord(on, /^(?:on|for|of|at)$/i) && subject !== undefined;
  const before = named ? subject : finding;
  // `on W9: short` reads as a terminal that is not finished.
  const open = before.kind === 'terminal' && before.terminal === '';
  const behind = named ? 3 : 1;
  if (at !== (open ? behind - 1 : behind) || (before.kind !== 'word' && !open)) return undefined;
  let from = behind;
  while (isMark(line[from])) from += 1;
  const words = line.slice(from);
  // `on` is missing before a name that stands alone.
  const isName = !named && !open && from === behind;
  if (isName || !words.some(({ kind }) => kind === 'word')) return undefined;
  const span = spanOf(words);
  const value = textOf(words);
  const right = `"${value}"`;
  const text: TextAtom = { kind: 'text', span, leading: ' ', text: right, value, closed: true };
  const start = open ? before.partSpan.end : before.span.end;
  const told = problem('unknown-clause', span, `The reason stands in quotes: write ${right}.`, [
    replace(`Write ${right}`, { start, end: span.end }, ` ${right}`, true),
  ]);
  return { count: line.length - at, put: [...(open ? [word(before.part, [before])] : []), text], problem: told };
};

function isMark(atom: Atom | undefined): boolean {
  return isWord(atom, because) || marks.test(atom?.text ?? '') || atom?.kind === 'comma';
}
