/** `vmpp 18.8 V`, `22.6 Voc`, `22.6 V voc`: figures of a panel as its data sheet writes them. */
import { word } from '../mend.ts';
import type { Atom } from '../tree.ts';
import { quantityFor } from './quantity-for.ts';
import { isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

interface Figure {
  readonly keyword: string;
  readonly unit: 'V' | 'A';
}

const alike = (keyword: string, unit: Figure['unit'], ...written: readonly string[]): [string, Figure][] =>
  written.map((one) => [one, { keyword, unit }]);

/** By the word in small letters. */
const figures: ReadonlyMap<string, Figure> = new Map([
  ...alike('voc', 'V', 'voc', 'v_oc', 'uoc'),
  ...alike('isc', 'A', 'isc', 'i_sc'),
  ...alike('vmp', 'V', 'vmp', 'vmpp', 'v_mp', 'vpm', 'vmax', 'umpp'),
  ...alike('imp', 'A', 'imp', 'impp', 'i_mp', 'ipm', 'imax'),
]);

const figureOf = (atom: Atom | undefined) =>
  atom?.kind === 'word' ? figures.get(atom.value.toLowerCase()) : undefined;

export const ofDataSheet: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (first === undefined || second === undefined) return undefined;
  const before = figureOf(first);
  if (before !== undefined) {
    const { keyword } = before;
    const isOther = first.text.toLowerCase() !== keyword;
    if (!isQuantity(second, 'voltage', 'current') || !isOther) return undefined;
    const told = rewritten([first], keyword, [word(keyword, [first])], true);
    return { ...told, habit: 'data sheet' };
  }
  const behind = figureOf(second);
  const isValue = first.kind === 'number' || isQuantity(first, 'voltage', 'current');
  if (behind === undefined || !isValue || isWord(body[at - 1], /^(?:voc|isc|vmp|imp|drift)$/i)) return undefined;
  // Its keyword stands before a figure of its own.
  if (first.kind !== 'number' && isQuantity(body[at + 2], 'voltage', 'current')) return undefined;
  const { keyword, unit } = behind;
  const figure = first.kind === 'number' ? quantityFor([first], String(first.value), unit) : first;
  if (figure === undefined) return undefined;
  const some = [first, second];
  return { ...rewritten(some, `${keyword} ${figure.text}`, [word(keyword, some), figure], true), habit: 'data sheet' };
};
