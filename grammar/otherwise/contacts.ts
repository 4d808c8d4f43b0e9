/** `S2 closed`, `S9 at 1`: how a case says that a switch or a selector stands. */
import { spanOf, word } from '../mend.ts';
import { problem, replace } from '../phrases.ts';
import type { Atom, WordAtom } from '../tree.ts';
import { beginsClause, isName, isQuantity, isWord, type Rewriter, type Rewriting, rewritten } from './rewriting.ts';

const contacts: ReadonlyMap<string, string> = new Map([
  ['closed', 'on'],
  ['open', 'off'],
]);

/** `contacts 30 A` of a relay: what they carry is said of its contact; how much they resist, of its contacts. */
export const contactsCarry: Rewriter = (body, at, { byWord }) => {
  const [first, amps] = [body[at], body[at + 1]];
  if (!byWord.has('contact') || !isWord(first, /^contacts$/i) || !isQuantity(amps, 'current')) return undefined;
  const some = [first, amps];
  return rewritten(some, `contact ${amps.text}`, [word('contact', some), amps], true);
};

/** `S2 closed`: a contact that is closed is on. */
export const contactStands: Rewriter = (body, at, ...known) => {
  const [name, written] = [body[at], body[at + 1]];
  const meant = written?.kind === 'word' ? contacts.get(written.value.toLowerCase()) : undefined;
  if (written === undefined || meant === undefined || !isName(name, known)) return undefined;
  const { count, put, problem: told } = rewritten([written], meant, [word(meant, [written])], true);
  return { count: count + 1, put: [name, ...put], problem: told };
};

/** What is written between a selector and its position. */
const between = /^(?:at|is|in|on|to|set|turned|switched|position|supply|source|number)$/i;
const mostBetween = 4;
/** The most positions that a selector has. */
const mostPositions = 4;

/** `S9 to 2`, `S9 in position 2`, `S9 = 2`, `S9 2`: a selector stands at a position. */
export const selectorStands: Rewriter = (body, at, ...known) => {
  const first = body[at];
  // `S9: 2` has its colon with it.
  const isColon = first?.kind === 'terminal' && first.terminal === '';
  const name = isColon ? word(first.part, [first]) : first;
  if (!isName(name, known) || !beginsClause(body, at)) return undefined;
  let count = body[at + 1]?.kind === 'equals' || body[at + 1]?.text === ':' ? 1 : 0;
  while (count < mostBetween && isWord(body[at + 1 + count], between)) count += 1;
  const said = body.slice(at + 1, at + 1 + count);
  const position = body[at + 1 + count];
  if (position === undefined || !isPosition(position)) return undefined;
  const next = body[at + 2 + count];
  const isPlain = !isColon && isWord(said[0], /^at$/) && count === 1;
  if (next?.kind !== 'comma' && next?.kind !== 'line' && next !== undefined)
    return positionsJoined(body, at, at + 1 + count, name);
  const right = position.text.toLowerCase();
  // `FRIDGE off` is what it seems.
  if ((isPlain && right === position.text) || (count === 0 && position.kind === 'word')) return undefined;
  const meant = position.kind === 'word' ? word(right, [position]) : position;
  const isOneByOne = count > 0 && !isColon && isWord(said[0], between);
  const some = isOneByOne ? [...said, position] : [first as Atom, ...said, position];
  const { problem } = rewritten(some, `${isOneByOne ? '' : `${name.value} `}at ${right}`, [], true);
  return { count: 2 + count, put: [name, word('at', [position]), meant], problem };
};

/** `S9 at 1 and 2`, `S9 at 1 or 2`: at a time it stands at one. */
function positionsJoined(body: readonly Atom[], at: number, from: number, name: WordAtom): Rewriting | undefined {
  const [one, joint, other] = body.slice(from, from + 3);
  const isTwo = one?.kind === 'number' && other?.kind === 'number';
  const both = isWord(joint, /^and$/i) || joint?.text === '+' || joint?.text === '&';
  if (!isTwo || !(both || isWord(joint, /^or$/i) || joint?.text === '/')) return undefined;
  const some = body.slice(at, from + 3);
  const right = (position: string) => `${name.value} at ${position}`;
  if (both) return rewritten(some, right('both'), [name, word('at', some), word('both', some)], false);
  const [first, second] = [right(one.text), right(other.text)];
  const message = `In a case a selector stands at one position: write ${first} or ${second}, and another case for the other.`;
  const fixes = [first, second].map((position) => replace(`Write ${position}`, spanOf(some), position, false));
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message, fixes) };
}

function isPosition(atom: Atom): boolean {
  return isWord(atom, /^(?:both|off)$/i) || (atom.kind === 'number' && atom.value <= mostPositions);
}
