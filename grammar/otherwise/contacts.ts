/** `S2 closed`, `S9 at 1`: how a case says that a switch or a selector stands. */
import { spanOf, word } from '../mend.ts';
import { problem } from '../phrases.ts';
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

/** The most positions that a selector has. */
const mostPositions = 4;

/** `S9 at 1`: a position, not a battery and its voltage. */
export const selectorAt: Rewriter = (body, at, ...known) => {
  const [name, preposition, position] = body.slice(at, at + 3);
  const isIt = isName(name, known) && isWord(preposition, /^at$/) && beginsClause(body, at);
  if (!isIt || position === undefined || !isPosition(position)) return undefined;
  const some = [name, preposition, position];
  const message = `A case sets no position: it says that ${name.value} is on or off, and each position is worked out by itself.`;
  return { count: 3, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};

function isPosition(atom: Atom): boolean {
  return isWord(atom, /^both$/i) || (atom.kind === 'number' && atom.value <= mostPositions);
}
