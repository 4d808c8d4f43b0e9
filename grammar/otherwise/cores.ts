/** `2 wires 1.5 mm²`, `1.5 mm² 2 core`, `1.5 mm² twin`: several cores of one size. */
import { spanOf, textOf } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import { polesByTrade } from '../trade-words.ts';
import type { Atom, QuantityAtom, TimesAtom } from '../tree.ts';
import { isQuantity, isWord, type Rewriter, type Rewriting } from './rewriting.ts';

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
  const right = `${count} x ${size.text}`;
  const span = spanOf(some);
  const times: TimesAtom = {
    kind: 'times',
    span,
    leading: some[0]?.leading ?? '',
    text: `${count} x`,
    value: Number(count),
  };
  const told = problem('unknown-clause', span, `${quoted(textOf(some))} is written ${right} here.`, [
    replace(`Write ${right}`, span, right, false),
  ]);
  return { count: some.length, put: [times, size], problem: told };
}
