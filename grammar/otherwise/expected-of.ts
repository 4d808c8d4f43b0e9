/** `expect drop W9 < 3 %`, `expect voltage of FRIDGE at least 11 V`: what is expected is said before of what. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
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

/** `in all cases`, `always`: what is said of no case holds in every one. */
export const inEveryCase: Rewriter = (body, at) => {
  const [before, first, second, third] = [body[at - 1], body[at], body[at + 1], body[at + 2]];
  if (before?.kind !== 'quantity' || first === undefined) return undefined;
  const isEvery = isWord(second, /^(?:all|every|each|any)$/i) && isWord(third, /^(?:cases?|times?)$/i);
  const count = isWord(first, /^(?:always|everywhere)$/i) ? 1 : isWord(first, /^(?:in|at)$/i) && isEvery ? 3 : 0;
  if (count === 0) return undefined;
  const some = body.slice(at, at + count);
  const message = `${quoted(textOf(some))} need not be said: without a case it holds in every one.`;
  const span = { start: before.span.end, end: spanOf(some).end };
  const fix = replace('Leave it out', span, '', true);
  return { count, put: [], problem: problem('unknown-clause', spanOf(some), message, [fix]) };
};

/** `in case night`. */
export const inCaseCalled: Rewriter = (body, at, ...known) => {
  const [sign, called, name] = body.slice(at, at + 3);
  if (!isWord(sign, /^in$/i) || !isWord(called, /^cases?$/i) || !isName(name, known)) return undefined;
  return rewritten([sign, called], 'in', [word('in', [sign])], true);
};

/** `expect in night FRIDGE voltage at least 11 V`. */
export const caseFirst: Rewriter = (body, at, ...known) => {
  const [sign, name, subject, what] = body;
  if (at !== 0 || !isWord(sign, /^in$/i) || !isName(name, known)) return undefined;
  if ((subject?.kind !== 'word' && subject?.kind !== 'terminal') || !isWord(what, whats)) return undefined;
  const last = body.findIndex(({ kind }) => kind === 'line');
  const rest = body.slice(2, last === -1 ? undefined : last);
  const some = body.slice(0, 2 + rest.length);
  return rewritten(some, `${textOf(rest)} in ${name.value}`, [...rest, word('in', [sign]), name], true);
};

/** `at least 11 V and at most 15 V`, `at least 11 V and LAMP current at most 2 A`: an expectation has one bound. */
export const anotherBound: Rewriter = (body, at) => {
  const [subject, what] = body;
  const and = body[at];
  if (body[at - 1]?.kind !== 'quantity' || !isWord(and, /^and$/i)) return undefined;
  const isBound = isWord(body[at + 1], /^at$/i) && isWord(body[at + 2], /^(?:least|most)$/i);
  const isOther = isWord(body[at + 2], whats) && isWord(body[at + 3], /^at$/i);
  if ((!isBound && !isOther) || subject === undefined || what === undefined) return undefined;
  const last = body.findIndex(({ kind }, i) => kind === 'line' && i > at);
  const rest = body.slice(at + 1, last === -1 ? undefined : last);
  const cases = rest.findIndex((one) => isWord(one, /^in$/i));
  const inCases = cases === -1 ? [] : rest.slice(cases);
  const own = `expect ${isBound ? `${subject.text} ${what.text} ` : ''}${textOf(rest)}`;
  const message = `An expectation has one bound: write ${quoted(own)} on a line of its own.`;
  const start = isBound ? `expect ${subject.text} ${what.text}` : 'expect';
  const newText = `${inCases.length === 0 ? '' : textOf(inCases)}\n${start}`.trimStart();
  const fixes = inCases.length === 0 ? [] : [replace('Write two expectations', and.span, newText, true)];
  const put = inCases.map((one) => one);
  return { count: rest.length + 1, put, problem: problem('unknown-clause', and.span, message, fixes) };
};

/** `voltage 11 to 15 V`, `voltage between 11 and 15 V`. */
export const twoBounds: Rewriter = (body, at) => {
  const what = body[at];
  if (at === 0 || !isWord(what, whats)) return undefined;
  const from = isWord(body[at + 1], /^(?:between|from)$/i) ? at + 2 : at + 1;
  const [low, joint, high] = body.slice(from, from + 3);
  const isLow = low?.kind === 'number' || low?.kind === 'quantity';
  if (!isLow || high?.kind !== 'quantity' || !/^(?:to|and|-|–|\.\.|…)$/i.test(joint?.text ?? '')) return undefined;
  const unit = high.text.slice(high.numberSpan.end - high.numberSpan.start);
  const least = low.kind === 'number' ? `${low.text}${unit}` : low.text;
  const some = body.slice(at, from + 3);
  const message = `An expectation has one bound: write ${what.value} at least ${least}, and another with at most ${high.text}.`;
  const put = [what, word('at', some), word('most', some), high];
  return { count: some.length, put, problem: problem('unknown-clause', spanOf(some), message) };
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
