/** `2 poles in series 300 V`, `pairs 1-2, 3-4`, `positions off, 1, 2`: poles and positions of what switches. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, NumberAtom } from '../tree.ts';
import { beginsClause, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

const linked = /^(?:series|parallel)$/i;

/** `2 poles in series 300 V`, `300 V with 2 in series`, `300 V in series`. */
export const polesLinked: Rewriter = (body, at) => {
  const first = body[at];
  if (first?.kind === 'number') {
    const [poles, sign, how, figure] = body.slice(at + 1, at + 5);
    if (!isWord(poles, /^poles?$/i) || !isWord(sign, /^in$/i) || !isWord(how, linked)) return undefined;
    if (!isQuantity(figure, 'voltage', 'current')) return undefined;
    const some = body.slice(at, at + 4);
    const put = [first, word('in', some), word(how.value.toLowerCase(), some)];
    return rewritten(some, `${first.text} in ${how.value.toLowerCase()}`, put, true);
  }
  if (!isQuantity(first, 'voltage', 'current')) return undefined;
  let end = at + 1;
  if (isWord(body[end], /^(?:with|for)$/i)) end += 1;
  const number = body[end]?.kind === 'number' ? (body[end] as NumberAtom) : undefined;
  if (number !== undefined) end += 1;
  if (isWord(body[end], /^poles?$/i)) end += 1;
  const [sign, how] = [body[end], body[end + 1]];
  if (!isWord(sign, /^in$/i) || !isWord(how, linked)) return undefined;
  const some = body.slice(at, end + 2);
  const behind = `in ${how.value.toLowerCase()} ${first.text}`;
  if (number !== undefined) {
    const put = [number, word('in', some), word(how.value.toLowerCase(), some), first];
    return rewritten(some, `${number.text} ${behind}`, put, true);
  }
  const message = `How many poles are linked stands first: write it like 2 ${behind}.`;
  const fixes = [replace(`Write 2 ${behind}`, spanOf(some), `2 ${behind}`, false)];
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message, fixes) };
};

/** A comma or a word between what is listed. */
const parts = (atom: Atom | undefined): boolean => atom?.kind === 'comma' || isWord(atom, /^and$/i);

/** No switch has more; lines of noise may. */
const mostListed = 60;

/** `pairs 1-2, 3-4`, `pairs 1/2 3/4`. */
export const pairsListed: Rewriter = (body, at) => {
  if (!isWord(body[at], /^pairs$/i)) return undefined;
  const pairs: Atom[] = [];
  let end = at + 1;
  while (pairs.length < mostListed) {
    const from = pairs.length > 0 && parts(body[end]) ? end + 1 : end;
    const [one, stroke, other] = body.slice(from, from + 3);
    if (one?.kind === 'range') {
      pairs.push(one);
      end = from + 1;
    } else if (one?.kind === 'number' && stroke?.text === '/' && other?.kind === 'number') {
      const [span, text] = [spanOf([one, other]), `${one.text}-${other.text}`];
      pairs.push({ kind: 'range', span, text, leading: one.leading, from: one.value, to: other.value });
      end = from + 3;
    } else break;
  }
  return listed(body, at, end, pairs, `pairs ${textsOf(pairs)}`, [word('pairs', [body[at] as Atom]), ...pairs]);
};

/** `face 1, 3 over 2, 4`. */
export const faceListed: Rewriter = (body, at) => {
  if (!isWord(body[at], /^face$/i)) return undefined;
  const above = numbersFrom(body, at + 1);
  if (!isWord(body[above.end], /^over$/i)) return undefined;
  const below = numbersFrom(body, above.end + 1);
  const some = body.slice(at, below.end);
  const put = [word('face', some), ...above.numbers, word('over', some), ...below.numbers];
  const right = `face ${textsOf(above.numbers)} over ${textsOf(below.numbers)}`;
  return listed(body, at, below.end, below.numbers, right, put);
};

/** Numbers that a comma may part, as far as no clause begins with one: `4 poles`. */
function numbersFrom(
  body: readonly Atom[],
  at: number,
): { readonly numbers: readonly NumberAtom[]; readonly end: number } {
  const numbers: NumberAtom[] = [];
  let end = at;
  while (numbers.length < mostListed) {
    const from = numbers.length > 0 && parts(body[end]) ? end + 1 : end;
    const [number, next] = [body[from], body[from + 1]];
    const goesOn =
      next === undefined || next.kind === 'number' || next.kind === 'line' || parts(next) || isWord(next, /^over$/i);
    if (number?.kind !== 'number' || (from > end && !goesOn)) break;
    numbers.push(number);
    end = from + 1;
  }
  return { numbers, end };
}

const textsOf = (atoms: readonly Atom[]): string => atoms.map(({ text }) => text).join(' ');

/** Told where the atoms are not written so already. */
function listed(
  body: readonly Atom[],
  at: number,
  end: number,
  found: readonly Atom[],
  right: string,
  put: readonly Atom[],
): ReturnType<Rewriter> {
  const some = body.slice(at, end);
  if (found.length === 0 || textOf(some) === right || !some.some((one) => parts(one) || one.text === '/'))
    return undefined;
  const isComma = some.some(parts);
  const message = isComma ? `No comma stands within a clause: write ${right}.` : `This is written ${right} here.`;
  const fix = replace(`Write ${right}`, spanOf(some), right, true);
  return { count: some.length, put, problem: problem('unknown-clause', spanOf(some), message, [fix]) };
}

/** `positions off, 1, 2`, `positions 1 2 off`, `off 1 2`. */
export const positionsListed: Rewriter = (body, at) => {
  const says = isWord(body[at], /^positions?$/i);
  if (!says && !(isWord(body[at], /^off$/i) && body[at + 1]?.kind === 'number' && beginsClause(body, at)))
    return undefined;
  const found: Atom[] = [];
  let end = says ? at + 1 : at;
  while (found.length < mostListed) {
    const from = found.length > 0 && parts(body[end]) ? end + 1 : end;
    const one = body[from];
    if (one === undefined || !(one.kind === 'number' || isWord(one, /^(?:off|both)$/i))) break;
    found.push(one);
    end = from + 1;
  }
  const order = (one: Atom) => (one.kind === 'number' ? 1 : isWord(one, /^off$/i) ? 0 : 2);
  const inOrder = found.toSorted((one, other) => order(one) - order(other));
  const some = body.slice(at, end);
  const right = `positions ${textsOf(inOrder).toLowerCase()}`;
  if (found.length < 2 || textOf(some) === right) return undefined;
  const meant = inOrder.map((one) => (one.kind === 'word' ? word(one.value.toLowerCase(), [one]) : one));
  return rewritten(some, right, [word('positions', some), ...meant], true);
};
