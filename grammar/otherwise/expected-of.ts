/** `expect drop W9 < 3 %`, `expect voltage of FRIDGE at least 11 V`: what is expected is said before of what. */
import { word } from '../mend.ts';
import { isName, isWord, type Rewriter, rewritten } from './rewriting.ts';

/** `at least 11.4 V at night`: in which case. */
export const inCase: Rewriter = (body, at, ...known) => {
  const [before, sign, name, behind] = [body[at - 1], body[at], body[at + 1], body[at + 2]];
  if (before?.kind !== 'quantity' || !isWord(sign, /^(?:at|during|while|when|for|on|by)$/i)) return undefined;
  const isLast = behind === undefined || behind.kind === 'line';
  return !isName(name, known) || !isLast
    ? undefined
    : rewritten([sign, name], `in ${name.value}`, [word('in', [sign]), name], true);
};

const whats = /^(?:voltage|current|drop|temperature|charge)$/;

const bounds: ReadonlyMap<string, string> = new Map([
  ['<', 'most'],
  ['<=', 'most'],
  ['≤', 'most'],
  ['>', 'least'],
  ['>=', 'least'],
  ['≥', 'least'],
]);

export const whatBeforeSubject: Rewriter = (body, at) => {
  const [what] = body;
  if (at !== 0 || !isWord(what, whats)) return undefined;
  const from = isWord(body[1], /^(?:of|at|on|in|for|across|through)$/i) ? 2 : 1;
  const subject = body[from];
  if ((subject?.kind !== 'word' && subject?.kind !== 'terminal') || whats.test(subject.text)) return undefined;
  let end = from + 1;
  let sign = '';
  for (; body[end]?.kind === 'junk' || body[end]?.kind === 'equals'; end++) sign += body[end]?.text;
  const bound = bounds.get(sign);
  if (sign !== '' && bound === undefined) return undefined;
  const some = body.slice(0, end);
  const behind = bound === undefined ? [] : ['at', bound];
  const put = [subject, what, ...behind.map((one) => word(one, some))];
  return rewritten(some, [subject.text, what.value, ...behind].join(' '), put, true);
};
