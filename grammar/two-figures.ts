/** `6-30 W`, `0.5 - 2 A`, `6 to 30 W`: two figures where one is said. The second is read, so that the rest keeps its meaning. */
import { type Mend, spanOf, textOf } from './mend.ts';
import { problem, quoted, replace } from './phrases.ts';
import type { Atom, Dimension, QuantityAtom } from './tree.ts';
import { toSi, unitGap, unitOf } from './units.ts';

const between = /^(?:-|–|−|—|to|\/|\.\.\.?|…)$/;

export function twoFigures(atoms: readonly Atom[], at: number, dimensions: readonly Dimension[]): Mend[] {
  const [first, second, third] = atoms.slice(at, at + 3);
  const found =
    rangeOf(first, second) ?? minusOf(first, second) ?? pointsOf(atoms, at) ?? partedOf(first, second, third);
  if (found === undefined || !dimensions.includes(found.last.dimension)) return [];
  const some = atoms.slice(at, at + found.count);
  const span = spanOf(some);
  const right = found.last.text;
  const message = `${quoted(textOf(some))} is two figures, where one is said: write the one that counts, such as ${right}.`;
  const told = problem('unknown-clause', span, message, [replace(`Write ${right}`, span, right, false)]);
  return [{ at, remove: found.count, put: [found.last], problem: told }];
}

interface Found {
  readonly count: number;
  readonly last: QuantityAtom;
}

/** `6-30 W`: a range of terminals with a unit behind it. */
function rangeOf(range: Atom | undefined, written: Atom | undefined): Found | undefined {
  const unit = written?.kind === 'word' || written?.kind === 'junk' ? unitOf(written.text) : undefined;
  if (range?.kind !== 'range' || written === undefined || unit === undefined) return undefined;
  const { symbol, dimension } = unit;
  const { span, leading, to } = range;
  const text = `${to}${unitGap(symbol)}${symbol}`;
  const si = toSi(to, unit);
  const own = { numberSpan: span, unitSpan: written.span };
  return { count: 2, last: { kind: 'quantity', span, leading, text, value: to, si, unit: symbol, dimension, ...own } };
}

/** `0.5-2 A`: the dash reads as a minus. */
function minusOf(number: Atom | undefined, quantity: Atom | undefined): Found | undefined {
  if (number?.kind !== 'number' || quantity?.kind !== 'quantity' || quantity.leading !== '') return undefined;
  const { value, si, text } = quantity;
  if (!text.startsWith('-') || value === undefined || si === undefined) return undefined;
  return { count: 2, last: { ...quantity, text: text.slice(1), value: -value, si: -si } };
}

/** `6..30 W`: two points are two signs. */
function pointsOf(atoms: readonly Atom[], at: number): Found | undefined {
  let end = at + 1;
  while (atoms[end]?.kind === 'junk' && atoms[end]?.text === '.') end += 1;
  const [number, quantity] = [atoms[at], atoms[end]];
  if (number?.kind !== 'number' || end < at + 2 || quantity?.kind !== 'quantity') return undefined;
  const unit = unitOf(quantity.unit);
  // The last point reads as that of a decimal: `.30 W`.
  if (!quantity.text.startsWith('.') || unit === undefined) return { count: end - at + 1, last: quantity };
  const text = quantity.text.slice(1);
  const value = Number.parseFloat(text);
  return { count: end - at + 1, last: { ...quantity, text, value, si: toSi(value, unit) } };
}

function partedOf(number: Atom | undefined, sign: Atom | undefined, quantity: Atom | undefined): Found | undefined {
  if (number?.kind !== 'number' || quantity?.kind !== 'quantity' || !between.test(sign?.text ?? '')) return undefined;
  return { count: 3, last: quantity };
}
