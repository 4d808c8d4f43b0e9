/** `2 wires 1.5 mm²`, `1.5 mm² 2 core`, `1.5 mm² twin`: several cores of one size. */
import { spanOf } from '../mend.ts';
import { polesByTrade } from '../trade-words.ts';
import type { Atom, QuantityAtom, TimesAtom } from '../tree.ts';
import { isQuantity, isWord, type Rewriter, type Rewriting, rewritten } from './rewriting.ts';

const cores = /^(?:cores?|wires?|conductors?)$/i;
const several = /^(?:twin|two|three|four)(?:-cores?)?$/i;

export const coresOfSize: Rewriter = (body, at) => {
  const [first, second, third] = body.slice(at, at + 3);
  if (first?.kind === 'number' && isWord(second, cores) && isQuantity(third, 'area', 'gauge'))
    return severalOf([first, second, third], first.text, third);
  if (!isQuantity(first, 'area', 'gauge') || body[at - 1]?.kind === 'times') return undefined;
  if (second?.kind === 'number' && isWord(third, cores)) return severalOf([first, second, third], second.text, first);
  if (!isWord(second, several)) return undefined;
  const count = polesByTrade(second.value.replace(/-cores?$/i, ''))?.poles;
  const some = [first, second, ...(isWord(third, cores) ? [third] : [])];
  return count === undefined ? undefined : severalOf(some, String(count), first);
};

function severalOf(some: readonly Atom[], count: string, size: QuantityAtom): Rewriting {
  const [span, text] = [spanOf(some), `${count} x`];
  const times: TimesAtom = { kind: 'times', span, leading: some[0]?.leading ?? '', text, value: Number(count) };
  return rewritten(some, `${text} ${size.text}`, [times, size], false);
}
