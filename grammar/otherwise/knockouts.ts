/** `4 knockouts M20`, `M20 knockouts 4`, `4 x M20 holes`: how many ready holes a box has, and their thread. */
import { word } from '../mend.ts';
import type { Atom, TimesAtom, WordAtom } from '../tree.ts';
import { beginsClause, isWord, type Rewriter, rewritten } from './rewriting.ts';

const holes = /^(?:knock-?outs?|holes?|entries|openings?)$/i;
const thread = /^(?:M|PG)\d+$/i;
const filling = /^(?:of|for|x|size|thread|ready)$/i;

/** No more atoms say it. */
const mostAtoms = 6;

export const knockoutsInOrder: Rewriter = (body, at, { byWord }) => {
  if (!byWord.has('knockouts') || !beginsClause(body, at)) return undefined;
  let end = at;
  const found: { count?: Atom & { value: number }; size?: WordAtom; word?: WordAtom } = {};
  for (; end < at + mostAtoms; end += 1) {
    const atom = body[end];
    if (atom?.kind === 'number' || atom?.kind === 'times') {
      if (found.count !== undefined) return undefined;
      found.count = atom;
    } else if (isWord(atom, holes)) {
      if (found.word !== undefined) return undefined;
      found.word = atom;
    } else if (isWord(atom, thread)) {
      if (found.size !== undefined) return undefined;
      found.size = atom;
    } else if (!isWord(atom, filling)) break;
  }
  const { count, size, word: said } = found;
  if (count === undefined || size === undefined || said === undefined) return undefined;
  const some = body.slice(at, end);
  const isRight = some.length === 3 && said.value === 'knockouts' && some[0] === said && some[1]?.kind === 'times';
  if (isRight || !Number.isInteger(count.value)) return undefined;
  const times: TimesAtom = { ...word(`${count.value} x`, some), kind: 'times', value: count.value };
  const written = size.value.toUpperCase();
  const put = [word('knockouts', some), times, word(written, some)];
  return rewritten(some, `knockouts ${count.value} x ${written}`, put, true);
};
