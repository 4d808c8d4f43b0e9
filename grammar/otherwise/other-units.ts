/** Units that the notation has not, by what they are in one that it has: `8 in-lb`, `20 ms`, `5000 mAh`, `80 in`. */
import { spanOf, textOf } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom } from '../tree.ts';
import { unitOf } from '../units.ts';
import { endsClause, numberIn } from './figures.ts';
import { quantityFor } from './quantity-for.ts';
import type { Rewriter, Rewriting } from './rewriting.ts';

interface OtherUnit {
  readonly symbol: string;
  /** Of one in the unit of `symbol`. */
  readonly factor: number;
}

/** Inch, foot, yard, pound: exact by definition (international yard and pound, 1959); the pound's weight at 9.80665 m/s². */
const pound = 0.45359237;
const gravity = 9.80665;
const inch = 0.0254;
/** A circular mil: the area of a circle of a thousandth of an inch. */
const circularMil = (Math.PI / 4) * (inch * 1000 * 0.001) ** 2;

/** By their letters alone, small, without what stands between them. */
const others: ReadonlyMap<string, OtherUnit> = new Map([
  ...named('Nm', pound * gravity * inch, 'inlb', 'inlbs', 'inlbf', 'lbin', 'lbsin', 'lbfin', 'inchpound', 'inchpounds'),
  ...named('Nm', pound * gravity * inch * 12, 'ftlb', 'ftlbs', 'ftlbf', 'lbft', 'lbsft', 'lbfft', 'footpound'),
  ...named('Nm', pound * gravity * inch * 12, 'footpounds', 'poundfoot', 'poundfeet'),
  ...named('Nm', gravity, 'kgm', 'kgfm', 'kpm'),
  ...named('Nm', gravity / 100, 'kgcm', 'kgfcm'),
  ...named('Nm', 0.01, 'ncm', 'cnm'),
  ...named('s', 0.001, 'ms', 'msec', 'msecs', 'millisecond', 'milliseconds'),
  ...named('h', 24, 'day', 'days'),
  ...named('Ah', 0.001, 'mah'),
  ...named('Ω', 1000, 'kω', 'kohm', 'kohms', 'kiloohm', 'kiloohms'),
  ...named('m', 1000, 'km'),
  ...named('m', 0.1, 'dm'),
  ...named('m', 36 * inch, 'yd', 'yds', 'yard', 'yards'),
  ...named('mm', inch, 'thou'),
  ...named('mm²', 100, 'cm²', 'cm2'),
  ...named('mm²', 1000 * circularMil, 'kcmil', 'mcm'),
  ...named('kg', pound, 'lb', 'lbs', 'pound', 'pounds'),
  ...named('kg', 0.001, 'g', 'gram', 'grams'),
]);

function named(symbol: string, factor: number, ...words: readonly string[]): (readonly [string, OtherUnit])[] {
  return words.map((one) => [one, { symbol, factor }]);
}

/** A unit of two words has a sign between them, and a point behind. */
const mostPieces = 3;

export const inOtherUnit: Rewriter = (body, at) => {
  const first = body[at];
  const number = first?.kind === 'number' ? first.text : first?.kind === 'quantity' ? numberIn(first) : undefined;
  if (first === undefined || number === undefined || !Number.isFinite(Number(number))) return undefined;
  // `8 ft lb`: its first word reads as a unit.
  const begun = first.kind === 'quantity' ? first.text.slice(first.unitSpan.start - first.span.start) : '';
  for (let count = mostPieces; count > 0; count--) {
    const words = body.slice(at + 1, at + 1 + count);
    if (words.length < count || words.some(({ kind }) => kind !== 'word' && kind !== 'junk')) continue;
    const some = [first, ...words];
    const written = begun === '' ? textOf(words) : textOf([{ ...first, text: begun }, ...words]);
    const found = begun === '' && count === 1 ? inchesAt(some, body[at + 2]) : undefined;
    const told = found ?? prefixApart(some, written, number) ?? converted(some, written, number);
    if (told !== undefined) return told;
  }
  return undefined;
};

/** `80 in`, where nothing follows that a thing could be in. */
function inchesAt(some: readonly Atom[], behind: Atom | undefined): Rewriting | undefined {
  const [number, word] = some;
  if (word?.kind !== 'word' || !/^ins?$/.test(word.value) || !endsClause(behind) || number === undefined)
    return undefined;
  return spelt(some, number.text, 'inch', false);
}

/** `5k A` for `5 kA`. */
function prefixApart(some: readonly Atom[], written: string, number: string): Rewriting | undefined {
  const [, prefix = '', unit = ''] = /^([km]) ?(\p{L}+)$/u.exec(written) ?? [];
  const symbol = prefix + unit;
  if (some.length !== 3 || unitOf(symbol) === undefined) return undefined;
  return spelt(some, number, symbol, true);
}

function spelt(some: readonly Atom[], number: string, symbol: string, safe: boolean): Rewriting | undefined {
  const put = quantityFor(some, number, symbol);
  if (put === undefined) return undefined;
  const span = spanOf(some);
  const told = problem('unit-spelling', span, `${quoted(textOf(some))} is written ${put.text} here.`, [
    replace(`Write ${put.text}`, span, put.text, safe),
  ]);
  return { count: some.length, put: [put], problem: told };
}

function converted(some: readonly Atom[], written: string, number: string): Rewriting | undefined {
  const other = others.get(written.toLowerCase().replaceAll(/[\s·.*/×-]/gu, ''));
  if (other === undefined) return undefined;
  const { symbol, factor } = other;
  // Where the factor is a power of ten no digit is lost; else three are as many as a fitter reads off a scale.
  const digits = Number.isInteger(Math.log10(factor)) ? 12 : 3;
  const put = quantityFor(some, String(Number((Number(number) * factor).toPrecision(digits))), symbol);
  if (put === undefined) return undefined;
  const span = spanOf(some);
  const message = `${quoted(written)} is no unit here: write it in ${symbol} (${textOf(some)} is ${put.text}).`;
  const told = problem('unit-spelling', span, message, [replace(`Write ${put.text}`, span, put.text, true)]);
  return { count: some.length, put: [put], problem: told };
}
