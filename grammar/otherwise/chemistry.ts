/** `LiFePO4 12.8V 100Ah`, `100 Ah lithium iron phosphate`: a battery as it stands on its label. */
import { word } from '../mend.ts';
import { meantByTrade } from '../trade-words.ts';
import type { Atom } from '../tree.ts';
import { beginsClause, commaAt, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

/** Words and figures on a label; more than these is prose. */
const mostPieces = 6;

const threeWords = /^lithium iron phosphate$/i;

export const labelOfBattery: Rewriter = (body, at, { byWord }) => {
  if (!beginsClause(body, at)) return undefined;
  const pieces: Atom[] = [];
  let isOtherwise = false;
  let chemistry: string | undefined;
  let next = at;
  for (; pieces.length < mostPieces; next += 1) {
    const atom = body[next];
    const three = body.slice(next, next + 3);
    if (isQuantity(atom, 'voltage', 'charge', 'energy')) pieces.push(atom);
    else if (pieces.length > 0 && (atom?.text === '/' || isWord(atom, /^and$/))) continue;
    else if (chemistry === undefined && threeWords.test(three.map(({ text }) => text).join(' '))) {
      chemistry = 'lithium-iron-phosphate';
      isOtherwise = true;
      pieces.push(word(chemistry, three));
      next += 2;
    } else if (chemistry === undefined && atom?.kind === 'word') {
      const meant = byWord.has(atom.value) ? [atom.value] : meantByTrade(atom.value, new Set(byWord.keys()));
      // Which lithium is meant, a person must say.
      if (meant.length !== 1) break;
      chemistry = meant[0] as string;
      isOtherwise ||= chemistry !== atom.value;
      pieces.push(word(chemistry, [atom]));
    } else break;
  }
  // With a figure alone, or a word alone, there is one thing to tell, which is told as such.
  if (!isOtherwise || pieces.length < 2) return undefined;
  const some = body.slice(at, next);
  const put = pieces.flatMap((piece, i) => (i === 0 ? [piece] : [commaAt([piece]), piece]));
  const right = pieces.map((piece) => (piece.kind === 'word' ? piece.value : piece.text)).join(', ');
  return rewritten(some, right, put, true);
};
