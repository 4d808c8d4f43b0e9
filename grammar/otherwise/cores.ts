/** `2 wires 1.5 mm²`, `1.5 mm² 2 core`, `1.5 mm² twin`: several cores of one size. */
import { spanOf, textOf } from '../mend.ts';
import { polesByTrade } from '../trade-words.ts';
import type { Atom, QuantityAtom, TimesAtom } from '../tree.ts';
import { quantityFor } from './quantity-for.ts';
import { isQuantity, isWord, type Rewriter, type Rewriting, rewritten } from './rewriting.ts';

const cores = /^(?:cores?|wires?|conductors?)$/i;
const several = /^(?:twin|two|three|four)(?:-cores?)?$/i;

export const coresOfSize: Rewriter = (body, at) => {
  const [first, second, third] = body.slice(at, at + 3);
  const printed = asPrinted(body, at) ?? timesBehind(first, second, third, body[at - 1]);
  if (printed !== undefined) return printed;
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

/** `2G2.5 mm²`, `3G4`: as it stands on the sheath, G with a green/yellow core among them. */
function asPrinted(body: readonly Atom[], at: number): Rewriting | undefined {
  const [count, letter] = [body[at], body[at + 1]];
  if (count?.kind !== 'number' || letter?.kind !== 'word') return undefined;
  const [, whole] = /^[Gg](\d*)$/.exec(letter.value) ?? [];
  if (whole === undefined) return undefined;
  // `G2` and `.5 mm²`, or `G4` and a unit behind a space, or `G 4 mm²`.
  const comma = body[at + 2]?.kind === 'comma' ? 1 : 0;
  const end = [at + 4 + comma, at + 3 + comma, at + 2].find((one) => sizeOf(body, at, one) !== undefined);
  const size = end === undefined ? undefined : sizeOf(body, at, end);
  const some = body.slice(at, end);
  const put = size === undefined ? undefined : quantityFor(some, size, 'mm²');
  return put === undefined ? undefined : severalOf(some, count.text, put);
}

/** The number of mm² that the atoms up to `end` print. */
function sizeOf(body: readonly Atom[], at: number, end: number): string | undefined {
  const text = textOf(body.slice(at, end));
  return /^\d ?[Gg] ?(\d{1,3}(?:[.,]\d{1,2})?) ?(?:mm²|mm2|mm\^2|sq ?mm|qmm)?$/.exec(text)?.[1]?.replace(',', '.');
}

/** `2.5 mm² x 2`. */
function timesBehind(
  size: Atom | undefined,
  sign: Atom | undefined,
  count: Atom | undefined,
  before: Atom | undefined,
): Rewriting | undefined {
  if (!isQuantity(size, 'area', 'gauge') || before?.kind === 'times' || sign === undefined) return undefined;
  const [, glued] = /^[xX×](\d)$/.exec(sign.text) ?? [];
  if (glued !== undefined) return severalOf([size, sign], glued, size);
  if (!/^[xX×]$/.test(sign.text) || count?.kind !== 'number' || !/^\d$/.test(count.text)) return undefined;
  return severalOf([size, sign, count], count.text, size);
}
