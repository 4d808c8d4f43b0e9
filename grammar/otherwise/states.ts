/** `everything on except FAN`, `loads FAN, PUMP on`: what a case says is on or off. */
import type { CompiledSpec, CompiledVocabulary } from '../compiled.ts';
import { spanOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, WordAtom } from '../tree.ts';
import { beginsClause, commaAt, isName, isWord, type Rewriter, rewritten, saysWord } from './rewriting.ts';

const state = /^(?:on|off)$/i;

export const everything: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (!isWord(first, /^(?:everything|all)$/i) || !isWord(second, state) || !beginsClause(body, at)) return undefined;
  const some = [first, second];
  const put = ['all', 'loads', second.value].map((one) => word(one, some));
  return rewritten(some, `all loads ${second.value}`, put, true);
};

/** `everything on except FAN`. */
export const everythingButSome: Rewriter = (body, at, ...known) => {
  const all = everything(body, at, ...known);
  const some = all && allButSome(body, at + all.count, ...known);
  if (all === undefined || some === undefined) return undefined;
  const count = all.count + some.count;
  const off = some.put.filter(({ kind }) => kind !== 'comma');
  const both = body.slice(at, at + count);
  const words = (atoms: readonly Atom[]) => atoms.map((one) => (one as WordAtom).value).join(' ');
  return rewritten(both, `${words(all.put)}, ${words(off)}`, [...all.put, commaAt(both), ...off], true);
};

/** No row of names is longer; lines of noise may be. */
const mostNames = 60;

const except = /^(?:except|but|without|excluding|not)$/i;

/** `all loads on except FAN`. */
export const allButSome: Rewriter = (body, at, ...known) => {
  if (!isWord(body[at], except)) return undefined;
  if (!saysWord(body, 'all') && !saysWord(body, 'everything')) return undefined;
  const names: WordAtom[] = [];
  let end = at + (isWord(body[at], /^but$/i) && isWord(body[at + 1], /^not$/i) ? 2 : 1);
  while (names.length < mostNames) {
    const name = body[end];
    if (!isName(name, known)) break;
    names.push(name);
    end += 1;
    if (isWord(body[end], /^and$/) && isName(body[end + 1], known)) end += 1;
  }
  if (names.length === 0) return undefined;
  if (isWord(body[end], /^off$/i)) end += 1;
  const some = body.slice(at, end);
  const off = `${names.map(({ value }) => value).join(' and ')} off`;
  const put = [...names.flatMap((name, i) => (i === 0 ? [name] : [word('and', some), name])), word('off', some)];
  if (beginsClause(body, at)) return rewritten(some, off, put, true);
  const from = (body[at - 1] as Atom).span.end;
  const span = { start: from, end: (some.at(-1) as Atom).span.end };
  const told = problem(
    'unknown-clause',
    (some[0] as Atom).span,
    `What is off among them is a clause of its own: write ${off} behind a comma.`,
    [replace(`Write ${off}`, span, `, ${off}`, true)],
  );
  return { count: some.length, put: [commaAt(some), ...put], problem: told };
};

const kinds = /^(?:loads?|lamps?|lights?|switch(?:es)?|isolators?|relays?|consumers?)$/i;

/** `FAN, PUMP on`, `loads FAN and PUMP on`. */
export const namesInRow: Rewriter = (body, at, ...known) => {
  const row = rowFrom(body, at, ...known);
  if (row === undefined) return undefined;
  const { names, end, isOtherwise } = row;
  const some = body.slice(at, end);
  if (!isOtherwise || !isWord(body[end], state)) return undefined;
  const put = names.flatMap((name, i) => (i === 0 ? [name] : [word('and', [name]), name]));
  return rewritten(some, joined(names), put, true);
};

/** `FAN, PUMP` and nothing more: one thing is not finished, and not two. */
export const namesAlone: Rewriter = (body, at, ...known) => {
  const row = rowFrom(body, at, ...known);
  if (row === undefined || row.names.length < 2) return undefined;
  const { names, end } = row;
  const behind = body[end];
  if (behind !== undefined && behind.kind !== 'comma' && behind.kind !== 'line') return undefined;
  const span = spanOf(body.slice(at, end));
  const [on, off] = [`${joined(names)} on`, `${joined(names)} off`];
  const told = problem('unknown-clause', span, `This is not finished: say whether ${joined(names)} are on or off.`, [
    replace(`Write ${on}`, span, on, false),
    replace(`Write ${off}`, span, off, false),
  ]);
  return { count: end - at, put: [], problem: told };
};

const joined = (names: readonly WordAtom[]): string => names.map(({ value }) => value).join(' and ');

/** Names that stand in a row from there, behind a word that says what they are or not. */
function rowFrom(body: readonly Atom[], at: number, ...known: readonly [CompiledSpec, CompiledVocabulary]) {
  if (!beginsClause(body, at)) return undefined;
  const from = isWord(body[at], kinds) && isName(body[at + 1], known) ? at + 1 : at;
  const first = body[from];
  if (!isName(first, known)) return undefined;
  const names = [first];
  let end = from + 1;
  for (; names.length < mostNames && (body[end]?.kind === 'comma' || isWord(body[end], /^and$/)); end += 2) {
    const name = body[end + 1];
    if (!isName(name, known)) break;
    names.push(name);
  }
  const isOtherwise = from > at || body.slice(at, end).some(({ kind }) => kind === 'comma');
  return { names, end, isOtherwise };
}
