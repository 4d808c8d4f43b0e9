/** `S2 closed`, `S9 at 1`: how a case says that a switch or a selector stands. */
import { word } from '../mend.ts';
import type { Atom } from '../tree.ts';
import { beginsClause, isName, isWord, type Rewriter, rewritten } from './rewriting.ts';

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

/** What is written between a selector and its position. */
const between = /^(?:at|in|on|to|set|turned|switched|position)$/i;
const mostBetween = 3;
/** The most positions that a selector has. */
const mostPositions = 4;

/** `S9 to 2`, `S9 in position 2`: a selector stands at a position. */
export const selectorStands: Rewriter = (body, at, ...known) => {
  if (!isName(body[at], known) || !beginsClause(body, at)) return undefined;
  let count = 0;
  while (count < mostBetween && isWord(body[at + 1 + count], between)) count += 1;
  const said = body.slice(at + 1, at + 1 + count);
  const position = body[at + 1 + count];
  if (count === 0 || position === undefined || !isPosition(position)) return undefined;
  const right = position.text.toLowerCase();
  if (count === 1 && isWord(said[0], /^at$/) && right === position.text) return undefined;
  const meant = position.kind === 'word' ? word(right, [position]) : position;
  const { put, problem } = rewritten([...said, position], `at ${right}`, [word('at', said), meant], true);
  return { count: 2 + count, put: [body[at] as Atom, ...put], problem };
};

function isPosition(atom: Atom): boolean {
  return isWord(atom, /^(?:both|off)$/i) || (atom.kind === 'number' && atom.value <= mostPositions);
}
