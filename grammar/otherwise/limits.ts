/** `limits our van`, `limits IEC 60364-5-52`, `limits "our-van"`: a set of limits goes by one word. */
import { textOf, word } from '../mend.ts';
import type { Atom } from '../tree.ts';
import { isWord, type Rewriter, rewritten } from './rewriting.ts';

/** No set of limits has a longer name. */
const mostPieces = 8;

export const limitsCalled: Rewriter = (body, at, { byWord, forms }) => {
  const first = body[at];
  if (!isWord(first, /^limits$/i)) return undefined;
  let end = at + 1;
  while (end <= at + mostPieces && isPiece(body[end], byWord)) end += 1;
  const some = body.slice(at + 1, end);
  if (some.length === 0 || (some.length === 1 && some[0]?.kind === 'word')) return undefined;
  const written = textOf(some.filter(({ kind }) => kind !== 'equals'))
    .replace(/["\u201c\u201d]/gu, '')
    .trim()
    .replace(/\s+/g, '-');
  const published = forms
    .flatMap(({ clause }) => (clause.id === 'limits' ? (clause.standardValues ?? []) : []))
    .map((value) => value.replace('limits ', ''));
  const small = written.toLowerCase();
  const set = published.find((one) => one === small || one === `iec-${small}`) ?? written;
  if (!/^\p{L}[\p{L}\p{N}_-]*$/u.test(set)) return undefined;
  return rewritten(body.slice(at, end), `limits ${set}`, [first, word(set, some)], true);
};

function isPiece(atom: Atom | undefined, openers: ReadonlyMap<string, unknown>): boolean {
  if (atom?.kind === 'word') return !openers.has(atom.value);
  return (
    ['number', 'range', 'text', 'equals', 'date'].includes(atom?.kind ?? '') ||
    /^-\d/.test(atom?.text ?? '') ||
    atom?.text === '-'
  );
}
