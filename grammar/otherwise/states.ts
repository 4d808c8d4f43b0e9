/** `everything on except FAN`, `loads FAN, PUMP on`, `sun 300 W/m²`: what a case says. */
import { spanOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, QuantityAtom, WordAtom } from '../tree.ts';
import { plainNumber } from '../units.ts';
import { beginsClause, commaAt, isWord, type Rewriter, rewritten, saysWord } from './rewriting.ts';

const state = /^(?:on|off)$/i;

/** A name of the user's own. */
const isName = (
  atom: Atom | undefined,
  [spec, compiled]: [Parameters<Rewriter>[2], Parameters<Rewriter>[3]],
): atom is WordAtom =>
  atom?.kind === 'word' && !spec.byWord.has(atom.value) && !compiled.words.reserved.has(atom.value);

export const everything: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (!isWord(first, /^(?:everything|all)$/i) || !isWord(second, state) || !beginsClause(body, at)) return undefined;
  const some = [first, second];
  const put = ['all', 'loads', second.value].map((one) => word(one, some));
  return rewritten(some, `all loads ${second.value}`, put, true);
};

/** No row of names is longer; lines of noise may be. */
const mostNames = 60;

const except = /^(?:except|but|without|excluding|not)$/i;

/** `all loads on except FAN`. */
export const allButSome: Rewriter = (body, at, ...known) => {
  if (!isWord(body[at], except)) return undefined;
  if (!saysWord(body, 'all') && !saysWord(body, 'everything')) return undefined;
  const names: WordAtom[] = [];
  let end = at + 1;
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
  const some = body.slice(at, end);
  const isOtherwise = from > at || some.some(({ kind }) => kind === 'comma');
  if (!isOtherwise || !isWord(body[end], state)) return undefined;
  const put = names.flatMap((name, i) => (i === 0 ? [name] : [word('and', [name]), name]));
  return rewritten(some, names.map(({ value }) => value).join(' and '), put, true);
};

const contacts: ReadonlyMap<string, string> = new Map([
  ['closed', 'on'],
  ['open', 'off'],
]);

/** `S2 closed`: a contact that is closed is on. */
export const contactStands: Rewriter = (body, at, ...known) => {
  const [name, written] = [body[at], body[at + 1]];
  const meant = written?.kind === 'word' ? contacts.get(written.value.toLowerCase()) : undefined;
  if (written === undefined || meant === undefined || !isName(name, known)) return undefined;
  const { count, put, problem: told } = rewritten([written], meant, [word(meant, [written])], true);
  return { count: count + 1, put: [name, ...put], problem: told };
};

/** The most positions that a selector has. */
const mostPositions = 4;

/** `S9 at 1`: a position, not a battery and its voltage. */
export const selectorAt: Rewriter = (body, at, ...known) => {
  const [name, preposition, position] = body.slice(at, at + 3);
  const isIt = isName(name, known) && isWord(preposition, /^at$/) && beginsClause(body, at);
  if (!isIt || position === undefined || !isPosition(position)) return undefined;
  const some = [name, preposition, position];
  const message = `A case sets no position: it says of ${name.value} that it is on or off, and every position is worked out besides.`;
  return { count: 3, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};

function isPosition(atom: Atom): boolean {
  return isWord(atom, /^both$/i) || (atom.kind === 'number' && atom.value <= mostPositions);
}

/** What full sun is (IEC 60904-3, standard test conditions; from memory). */
const fullSun = 1000;

/** `sun 300 W/m²`. */
export const irradiance: Rewriter = (body, at) => {
  const [number, unit] = [body[at], body[at + 1]];
  const isIt = number?.kind === 'number' && isWord(unit, /^W\/(?:m²|m2|sqm)$/i);
  if (!isIt || !isWord(body[at - 1], /^sun$/)) return undefined;
  const ratio = number.value / fullSun;
  const { span, leading } = number;
  const text = `${plainNumber(100 * ratio)} %`;
  const percent: QuantityAtom = {
    kind: 'quantity',
    span,
    leading,
    text,
    value: 100 * ratio,
    si: ratio,
    unit: '%',
    dimension: 'ratio',
    numberSpan: span,
    unitSpan: { start: span.end, end: span.end },
  };
  const both = { start: span.start, end: unit.span.end };
  const told = problem(
    'wrong-unit',
    both,
    `Sun is said in percent of ${fullSun} W/m², which is full sun: write ${text}.`,
    [replace(`Write ${text}`, both, text, true)],
  );
  return { count: 2, put: [percent], problem: told };
};
