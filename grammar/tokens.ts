/**
 * The lexer of one statement's text (chevrotain). Patterns that begin with a letter of any script are custom with start
 * characters left open: `\p{L}` in a plain pattern silently breaks chevrotain's first-character optimisation.
 */
import { createToken, type CustomPatternMatcherFunc, Lexer, type TokenType } from 'chevrotain';
import { gaugeOf, toSi, type UnitSpelling, unitAt } from './units.ts';

/** What a quantity's token carries beside its text. */
export interface QuantityPayload {
  readonly numberText: string;
  readonly unitStart: number;
  readonly unit: UnitSpelling;
  readonly value: number | undefined;
  readonly si: number | undefined;
  /** `2,5` or `1,000` before a unit; `00` before AWG; `5/0`. */
  readonly trouble: 'decimal-comma' | 'aught' | 'no-gauge' | undefined;
}

const namePattern = /[\p{L}][\p{L}\p{M}\p{N}_-]*/uy;
const wordPattern = /[\p{L}][\p{L}\p{M}\p{N}_-]*(?:\/[\p{L}][\p{L}\p{M}\p{N}_-]*)*/uy;
const terminalTail = /:(?:[\p{L}\p{N}_]+(?:-[\p{L}\p{N}_]+)*[+\-\u2212]?|[+\-\u2212])?/uy;
const numberPattern = /[-+\u2212]?\d+(?:\.\d+)?(?:,\d+)*(?:\/0)?/y;
const inlineSpace = /[^\S\n]*/y;

function exec(pattern: RegExp, text: string, offset: number): RegExpExecArray | null {
  pattern.lastIndex = offset;
  return pattern.exec(text);
}

/** Custom matches must look like a regular expression's; the payload rides along as chevrotain asks. */
function found(text: string, payload?: unknown): RegExpExecArray {
  const match = [text] as unknown as RegExpExecArray;
  if (payload !== undefined) (match as unknown as { payload: unknown }).payload = payload;
  return match;
}

const matchWord: CustomPatternMatcherFunc = (text, offset) => exec(wordPattern, text, offset);

const matchTerminal: CustomPatternMatcherFunc = (text, offset) => {
  const name = exec(namePattern, text, offset);
  if (!name) return null;
  const tail = exec(terminalTail, text, offset + name[0].length);
  return tail ? found(name[0] + tail[0], name[0].length) : null;
};

/** `#` begins a comment at a line's start or after white space. */
const matchComment: CustomPatternMatcherFunc = (text, offset) => {
  if (text.charCodeAt(offset) !== 35) return null;
  if (offset > 0 && !/\s/.test(text.charAt(offset - 1))) return null;
  const newline = text.indexOf('\n', offset);
  let end = newline === -1 ? text.length : newline;
  if (text.charAt(end - 1) === '\r') end -= 1;
  return found(text.slice(offset, end));
};

const matchQuantity: CustomPatternMatcherFunc = (text, offset) => {
  let numberText: string;
  if (text.charAt(offset) === '?') numberText = '?';
  else {
    const number = exec(numberPattern, text, offset);
    if (!number) return null;
    numberText = number[0];
  }
  let unitStart = offset + numberText.length;
  let unit = unitAt(text, unitStart);
  if (!unit) {
    unitStart += exec(inlineSpace, text, unitStart)?.[0].length ?? 0;
    // A quote behind a space opens a text: only directly behind the number it means inches.
    if (text.charAt(unitStart) === '"') return null;
    unit = unitAt(text, unitStart);
  }
  if (!unit) return null;
  const whole = text.slice(offset, unitStart + unit.spelling.length);
  return found(whole, quantityPayload(numberText, unit, unitStart - offset));
};

function quantityPayload(numberText: string, unit: UnitSpelling, unitStart: number): QuantityPayload {
  const base = { numberText, unitStart, unit };
  if (numberText === '?') return { ...base, value: undefined, si: undefined, trouble: undefined };
  if (numberText.includes(',')) return { ...base, value: undefined, si: undefined, trouble: 'decimal-comma' };
  if (unit.unit.dimension === 'gauge') {
    const gauge = gaugeOf(numberText);
    if (gauge === undefined) return { ...base, value: undefined, si: undefined, trouble: 'no-gauge' };
    return { ...base, value: gauge, si: gauge, trouble: /^0+$/.test(numberText) ? 'aught' : undefined };
  }
  const value = Number(numberText.replace('\u2212', '-'));
  if (Number.isNaN(value)) return { ...base, value: undefined, si: undefined, trouble: 'no-gauge' };
  return { ...base, value, si: toSi(value, unit.unit), trouble: undefined };
}

/** Any atom: the flat body is a run of these. */
export const AnyAtom = createToken({ name: 'AnyAtom', pattern: Lexer.NA });

const token = (name: string, pattern: RegExp | CustomPatternMatcherFunc, hint?: string[], lineBreaks = false): TokenType =>
  createToken({
    name,
    pattern,
    categories: [AnyAtom],
    line_breaks: lineBreaks,
    ...(hint === undefined ? {} : { start_chars_hint: hint }),
  });

const digits = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];

export const Space = createToken({ name: 'Space', pattern: /[^\S\n\r]+|\r(?!\n)/, group: 'trivia', line_breaks: false });
export const Comment = createToken({
  name: 'Comment',
  pattern: matchComment,
  group: 'trivia',
  line_breaks: false,
  start_chars_hint: ['#'],
});
export const Line = token('Line', /\r?\n/, undefined, true);
export const Text = token('Text', /"[^"\r\n]*"?/);
export const DateToken = token('Date', /\d{4}-\d{2}-\d{2}(?!\d)/);
export const Clock = token('Clock', /\d{1,2}:\d{2}(?!\d)/);
export const Quantity = token('Quantity', matchQuantity, [...digits, '?', '-', '+', '\u2212']);
export const Times = token('Times', /\d+[ \t\u00a0\u2009]*[x×X](?=[ \t\u00a0\u2009?\dM])/);
export const Range = token('Range', /\d+[-\u2013]\d+(?![\p{L}\p{N}])/u);
export const NumberToken = token('Number', /[-+\u2212]?\d+(?:\.\d+)?(?:\/0)?/);
// Letters of any script may open these two, so every character may: no hint could list them.
export const Terminal = token('Terminal', matchTerminal);
export const Word = token('Word', matchWord);
export const Blank = token('Blank', /\?/);
export const Comma = token('Comma', /,/);
export const Equals = token('Equals', /=/);
export const Junk = token('Junk', /[^\s,]/u);

export const allTokens: TokenType[] = [
  Space,
  Comment,
  Line,
  Text,
  DateToken,
  Clock,
  Quantity,
  Times,
  Range,
  NumberToken,
  Terminal,
  Word,
  Blank,
  Comma,
  Equals,
  Junk,
];

export const statementLexer = new Lexer([...allTokens, AnyAtom], {
  positionTracking: 'onlyOffset',
  ensureOptimizations: false,
});
