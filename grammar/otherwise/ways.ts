/** `8 ways: 5 A, 5 A, 10 A`, `ways 1-2 fuse 5 A`: the ways of a box of fuses in a row. */
import { spanOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, NumberAtom, QuantityAtom } from '../tree.ts';
import { commaAt, isName, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

const ways = /^ways?$/i;

const numberAt = (value: number, some: readonly Atom[]): NumberAtom => ({
  ...word(String(value), some),
  kind: 'number',
  value,
  text: String(value),
});

/** No box has more; lines of noise may. */
const mostWays = 60;

/** What joins the numbers of ways that are listed. */
const joinsWays = (atom: Atom | undefined): boolean =>
  atom?.kind === 'comma' || isWord(atom, /^and$/i) || /^(?:&|\+|\/)$/.test(atom?.text ?? '');

/** The numbers from `at` on, and where they end: `2, 3 and 4`, `2-4`, `2..4`. */
function waysFrom(body: readonly Atom[], at: number): { readonly numbers: readonly number[]; readonly end: number } {
  const numbers: number[] = [];
  let end = at;
  const row = (from: number, to: number) => {
    for (let way = from; way <= to && numbers.length < mostWays; way++) numbers.push(way);
  };
  while (numbers.length < mostWays) {
    const [one, dots, other] = [body[end], body[end + 1], body[end + 2]];
    if (one?.kind === 'range') row(one.from, one.to);
    else if (one?.kind !== 'number' || !Number.isInteger(one.value)) break;
    else if (/^\.+$|^…$/.test(dots?.text ?? '') && other?.kind === 'number') {
      row(one.value, Number(other.text.replace('.', '')));
      end += 2;
    } else numbers.push(one.value);
    end += 1;
    const next = body[joinsWays(body[end]) ? end + 1 : end];
    if (next?.kind !== 'number' && next?.kind !== 'range') break;
    if (joinsWays(body[end])) end += 1;
  }
  return { numbers, end };
}

/** `ways 1 and 2 fuse 5 A`, `ways 2, 3, 4 fuse 5 A`, `ways 2 and 4 fuse 5 A`. */
export const waysFromTo: Rewriter = (body, at) => {
  const [first] = body.slice(at, at + 1);
  if (!isWord(first, ways)) return undefined;
  const { numbers, end } = waysFrom(body, at + 1);
  const [from, last] = [numbers[0], numbers.at(-1)];
  if (from === undefined || last === undefined || numbers.length < 2) return undefined;
  const isRow = numbers.every((way, i) => way === from + i);
  const saysFuse = isWord(body[end], fuseWord);
  const fuse = body[saysFuse ? end + 1 : end];
  const isWhole = isRow && (saysFuse || !isQuantity(fuse, 'current'));
  if (!isWhole && !isQuantity(fuse, 'current')) return undefined;
  const some = body.slice(at, isWhole ? end : body.indexOf(fuse as Atom) + 1);
  const row = [word('ways', some), numberAt(from, some), word('to', some), numberAt(last, some)];
  if (isWhole) return rewritten(some, `ways ${from} to ${last}`, row, true);
  const rating = fuse as Atom;
  const behind = [word('fuse', some), rating];
  if (isRow) return rewritten(some, `ways ${from} to ${last} fuse ${rating.text}`, [...row, ...behind], true);
  const put = numbers.flatMap((way, i) => [
    ...(i === 0 ? [] : [commaAt(some)]),
    word('way', some),
    numberAt(way, some),
    ...behind,
  ]);
  return rewritten(some, numbers.map((way) => `way ${way} fuse ${rating.text}`).join(', '), put, true);
};

/** `way 1 with a fuse of 5 A`, `way 1, 5 A`. */
export const wayWithFuse: Rewriter = (body, at) => {
  const [first, number] = [body[at], body[at + 1]];
  if (!isWord(first, /^way$/i) || number?.kind !== 'number') return undefined;
  let end = at + 2;
  while (isWord(body[end], /^(?:with|a|an|fuse|of|at)$/i) || (end < at + 4 && body[end]?.kind === 'comma')) end += 1;
  const fuse = body[end];
  const isRight = end === at + 3 && isWord(body[at + 2], /^fuse$/);
  if (isRight || !isQuantity(fuse, 'current')) return undefined;
  const some = body.slice(at, end + 1);
  const put = [word('way', some), number, word('fuse', some), fuse];
  return rewritten(some, `way ${number.text} fuse ${fuse.text}`, put, true);
};

const fuseWord = /^fuse$/i;

function isLabel(atom: Atom | undefined, known: Parameters<typeof isName>[1]): boolean {
  return atom?.kind === 'text' || isName(atom, known);
}

/** So many words of a label are looked through. */
const mostLabel = 6;

/** `way 1 "Bench" fuse 5 A`, `way 1 fuse 5 A for BENCH`: what it feeds is told by its cables. */
export const wayNamed: Rewriter = (body, at, ...known) => {
  const [first, number] = [body[at], body[at + 1]];
  if (!isWord(first, /^way$/i) || number?.kind !== 'number') return undefined;
  const before = body[at + 2]?.kind === 'equals' || body[at + 2]?.kind === 'junk' ? at + 3 : at + 2;
  let end = labelEnd(body, before, known);
  const isBefore = end > before;
  if (isBefore && body[end]?.kind === 'comma') end += 1;
  if (isWord(body[end], fuseWord)) end += 1;
  const fuse = body[end];
  if (!isQuantity(fuse, 'current')) return undefined;
  end += 1;
  const behind = isWord(body[end], /^(?:to|for)$/i) ? end + 1 : end;
  const last = labelEnd(body, behind, known);
  const isBehind = last > behind && ['comma', 'line', undefined].includes(body[last]?.kind);
  if (!isBefore && !isBehind) return undefined;
  const some = body.slice(at, isBehind ? last : end);
  const right = `way ${number.text} fuse ${fuse.text}`;
  const message = `What a way feeds is told by its cables: write ${right}, and a note behind # where you want one.`;
  const fixes = [replace(`Write ${right}`, spanOf(some), right, false)];
  const put = [word('way', some), number, word('fuse', some), fuse];
  return { count: some.length, put, problem: problem('unknown-clause', spanOf(some), message, fixes) };
};

function labelEnd(body: readonly Atom[], from: number, known: Parameters<typeof isLabel>[1]): number {
  let end = from;
  while (end < from + mostLabel && !isWord(body[end], fuseWord) && isLabel(body[end], known)) end += 1;
  return end;
}

/** `8 ways: 5 A, 5 A, 10 A`. */
export const fusesInRow: Rewriter = (body, at) => {
  const [count, second] = [body[at], body[at + 1]];
  const isColon = second?.kind === 'terminal' && ways.test(second.part) && second.terminal === '';
  if (count?.kind !== 'number' || !(isColon || isWord(second, ways))) return undefined;
  let end = at + 2;
  while (['junk', 'equals', 'comma'].includes(body[end]?.kind ?? '') || isWord(body[end], /^(?:fuses?|with|of)$/i))
    end += 1;
  const fuses: QuantityAtom[] = [];
  for (let next = end; fuses.length < mostWays; next += 1) {
    const fuse = body[next];
    if (!isQuantity(fuse, 'current')) break;
    fuses.push(fuse);
    end = next + 1;
    if (body[end]?.kind === 'comma' || isWord(body[end], /^and$/i) || body[end]?.text === '/') next += 1;
  }
  if (fuses.length < 2) return undefined;
  const some = body.slice(at, end);
  const right = fuses.map(({ text }, i) => `way ${i + 1} fuse ${text}`);
  const put = fuses.flatMap((fuse, i) => [
    commaAt(some),
    word('way', some),
    numberAt(i + 1, some),
    word('fuse', some),
    fuse,
  ]);
  const message = `Each fuse is said with the number of its way: ${right[0]}, ${right[1]}${fuses.length > 2 ? ' and so on' : ''}.`;
  const fix = replace('Write them so', spanOf(some), `${count.text} ways, ${right.join(', ')}`, false);
  return {
    count: some.length,
    put: [count, word('ways', some), ...put],
    problem: problem('unknown-clause', spanOf(some), message, [fix]),
  };
};
