/** Figures written otherwise than the notation has them: `minus 20 °C`, `1 200 W`, `6 1/2 ft`, `4,50`, `45±2 °C`. */
import { numberWithCommas } from '../lexical-problems.ts';
import { spanOf, textOf } from '../mend.ts';
import { readNumber } from '../numbers.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom, Dimension, QuantityAtom } from '../tree.ts';
import { plainNumber, unitOf } from '../units.ts';
import { quantityFor } from './quantity-for.ts';
import { isQuantity, isWord, type Rewriter, type Rewriting, rewritten } from './rewriting.ts';

/** The number of a quantity as it is written. */
export const numberIn = ({ text, numberSpan, span }: QuantityAtom): string =>
  text.slice(numberSpan.start - span.start, numberSpan.end - span.start);

/** What may be below zero. A dash before anything else is no sign. */
const signed: readonly Dimension[] = ['temperature', 'relative-drift', 'voltage-drift', 'current-drift'];
const temperatures = /^(?:coldest|hottest|ambient)$/;
const dash = /^[-–−—]$/u;

/** `minus 20 °C`, `- 20 °C`. At a line's beginning a dash is the mark of a list. */
export const minusApart: Rewriter = (body, at) => {
  const [before, sign, figure] = [body[at - 1], body[at], body[at + 1]];
  const isDash = sign?.kind === 'junk' && dash.test(sign.text) && (before?.kind === 'word' || before?.kind === 'comma');
  if (!isDash && !isWord(sign, /^(?:minus|neg(?:ative)?)$/i)) return undefined;
  // Without a unit the word before tells that it is a temperature.
  const isBare = figure?.kind === 'number' && isWord(before, temperatures);
  if (!(isBare || isQuantity(figure, ...signed)) || !/^[\d.]/.test(figure.text)) return undefined;
  const some = [sign, figure];
  const [number, symbol] = figure.kind === 'quantity' ? [numberIn(figure), figure.unit] : [figure.text, '°C'];
  const put = quantityFor(some, `-${number}`, symbol);
  return put === undefined ? undefined : { ...rewritten(some, put.text, [put], !isBare), sure: true };
};

const threeDigits = /^\d{3}(?![\d,])/;

/** `1 200 W`, `1'200 W`: a gap or a stroke between thousands. */
export const thousandsParted: Rewriter = (body, at) => {
  const first = body[at];
  // Read as feet: `1'`.
  const feet =
    first?.kind === 'quantity' && /^[1-9]\d{0,2}['′]$/u.test(first.text) ? first.text.slice(0, -1) : undefined;
  const digits = feet ?? (first?.kind === 'number' && /^[1-9]\d{0,2}$/.test(first.text) ? first.text : undefined);
  if (digits === undefined) return undefined;
  const stroke =
    feet === undefined && body[at + 1]?.kind === 'junk' && /^[’‘´`]$/u.test(body[at + 1]?.text ?? '') ? 1 : 0;
  const rest = body[at + 1 + stroke];
  const isStroke = feet !== undefined || stroke === 1;
  if (rest?.kind !== 'quantity' || !threeDigits.test(rest.text) || (rest.leading === '') !== isStroke) return undefined;
  const some = body.slice(at, at + 2 + stroke);
  const put = quantityFor(some, digits + numberIn(rest), rest.unit);
  if (put === undefined) return undefined;
  const message = `${quoted(textOf(some))} is written ${put.text}: nothing stands between thousands.`;
  // `2 150 W` may be two of 150 W.
  const fix = replace(`Write ${put.text}`, spanOf(some), put.text, isStroke);
  return { count: some.length, put: [put], problem: problem('decimal-comma', spanOf(some), message, [fix]) };
};

const signs: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
};
const inches = /^(?:ins?|inch(?:es)?)$/i;
const units: Readonly<Record<string, string>> = { ft: 'ft', feet: 'ft', foot: 'ft', m: 'm', '"': 'inch', '″': 'inch' };
const fraction = /^(?:(\d{1,3})[ -])?([1-9]\d?)\/(2|3|4|8|16|32|64)$/;
/** Of a whole number, its fraction and their unit. */
const mostPieces = 5;

/** `1/2 ft`, `6 1/2 ft`, `6½ ft`: a length in halves or quarters. */
export const fractions: Rewriter = (body, at) => {
  const first = body[at];
  const begins = first?.kind === 'number' || first?.kind === 'range' || signs[first?.text ?? ''] !== undefined;
  if (!begins || body[at - 1]?.kind === 'number') return undefined;
  for (let count = 2; count <= mostPieces; count++) {
    const some = body.slice(at, at + count);
    const last = some.at(-1);
    if (some.length < count || last === undefined || last.kind === 'comma' || last.kind === 'line') return undefined;
    const measured = last.kind === 'quantity' ? last.unit : inches.test(last.text) ? 'inch' : units[last.text];
    if (measured === undefined || unitOf(measured)?.dimension !== 'length') continue;
    if (last.kind === 'word' && /^ins?$/.test(last.value) && !endsClause(body[at + count])) return undefined;
    const number = textOf([
      ...some.slice(0, -1),
      ...(last.kind === 'quantity' ? [{ ...last, text: numberIn(last) }] : []),
    ]);
    const decimal = decimalOf(number);
    const put = decimal === undefined ? undefined : quantityFor(some, plainNumber(decimal, 4), measured);
    return put === undefined ? undefined : rewritten(some, put.text, [put], true);
  }
  return undefined;
};

function decimalOf(written: string): number | undefined {
  const plain = written.replace(/ ?([½¼¾⅓⅔⅛])/u, (_, sign: string) => ` ${signs[sign]}`).trim();
  const [, whole = '0', part, parts] = fraction.exec(plain) ?? [];
  const decimal = Number(whole) + Number(part) / Number(parts);
  return Number(part) < Number(parts) ? decimal : undefined;
}

/** Whether nothing of the clause follows. */
export function endsClause(atom: Atom | undefined): boolean {
  return atom === undefined || atom.kind === 'comma' || atom.kind === 'line';
}

/** `price 4,50 EUR`: a decimal comma in a number without a unit, where it parts two clauses. */
export const commaInNumber: Rewriter = (body, at) => {
  const [first, comma, last, behind] = body.slice(at, at + 4);
  if (first?.kind !== 'number' || comma?.kind !== 'comma' || last?.kind !== 'number') return undefined;
  const isGlued = comma.leading === '' && last.leading === '' && /^\d+$/.test(last.text);
  // `1,2,3` is a list.
  const isList = (behind?.kind === 'comma' && behind.leading === '') || body[at - 1]?.kind === 'comma';
  const written = `${first.text},${last.text}`;
  const meant = readNumber(written)?.meant ?? [];
  if (!isGlued || isList || meant.length === 0) return undefined;
  const some = [first, comma, last];
  const span = spanOf(some);
  const base = { span, leading: first.leading, text: written };
  const number: Atom =
    meant.length === 1 ? { ...base, kind: 'number', value: Number(meant[0]) } : { ...base, kind: 'blank' };
  return { count: 3, put: [number], problem: numberWithCommas(written, meant, '', span, span) };
};

/** `45±2 °C`, `45 °C +/- 2 °C`: a figure and how far it may be off. */
export const withTolerance: Rewriter = (body, at) => {
  const first = body[at];
  if (first?.kind !== 'number' && first?.kind !== 'quantity') return undefined;
  const sign = body[at + 1]?.text === '+/' && body[at + 2]?.text === '-' ? 2 : body[at + 1]?.text === '±' ? 1 : 0;
  const off = body[at + 1 + sign];
  if (sign === 0 || (off?.kind !== 'quantity' && off?.kind !== 'number')) return undefined;
  const symbol = first.kind === 'quantity' ? first.unit : off.kind === 'quantity' ? off.unit : undefined;
  const some = body.slice(at, at + 2 + sign);
  const number = first.kind === 'quantity' ? numberIn(first) : first.text;
  const put = symbol === undefined ? undefined : quantityFor(some, number, symbol);
  return put === undefined ? undefined : toldWithTolerance(some, put);
};

function toldWithTolerance(some: readonly Atom[], put: QuantityAtom): Rewriting {
  const span = spanOf(some);
  const message = `${quoted(textOf(some))} says a tolerance too, where one figure is said: write ${put.text}.`;
  const fix = replace(`Write ${put.text}`, span, put.text, false);
  return { count: some.length, put: [put], problem: problem('unknown-clause', span, message, [fix]) };
}
