/** `10 A start, 2.5 A running`: what is taken for a moment is a surge, also where it is said first. */
import { word } from '../mend.ts';
import { meantByTrade } from '../trade-words.ts';
import { beginsClause, isQuantity, type Rewriter, rewritten, saysWord } from './rewriting.ts';

const surge = new Set(['surge']);

export const surgeFirst: Rewriter = (body, at, { byWord }) => {
  const [figure, written] = [body[at], body[at + 1]];
  if (!byWord.has('surge') || !isQuantity(figure, 'current', 'power') || written?.kind !== 'word') return undefined;
  const isSurge = written.value === 'surge' || meantByTrade(written.value, surge).length > 0;
  if (!isSurge || !beginsClause(body, at + 3) || saysWord(body, 'surge', written)) return undefined;
  const some = [figure, written];
  return rewritten(some, `surge ${figure.text}`, [word('surge', some), figure], true);
};
