/**
 * The lexer of one statement's text (chevrotain). A pattern that may begin with a letter of any script, or with anything but
 * some characters, is custom and says what it may begin with (`start_chars_hint`): chevrotain cannot see that in `\p{L}` or
 * `[^…]`, and without it would try every pattern at every place. It also drops the flag `u` of a plain pattern.
 */
import { type CustomPatternMatcherFunc, createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { numberRun, readNumber } from './numbers.ts';
import { unseen } from './stray-characters.ts';
import { gaugeOf, plainNumber, toSi, type UnitSpelling, unitAt, unitOf } from './units.ts';

/** What a quantity's token carries beside its text. */
export interface QuantityPayload {
  /** Place of the number and of the unit within the token. */
  readonly numberStart: number;
  readonly numberEnd: number;
  readonly unitStart: number;
  readonly unitEnd: number;
  readonly spelling: UnitSpelling;
  readonly value: number | undefined;
  readonly si: number | undefined;
  readonly trouble: Trouble | undefined;
}

export type Trouble =
  /** `2,5` or `1,000` before a unit; what may be meant. */
  | { readonly is: 'comma'; readonly meant: readonly string[] }
  /** Rightly written so: `2/0 AWG` for `00 AWG`, `10 AWG` for `AWG 10`, `5.5 ft` for `5'6"`. */
  | { readonly is: 'spelling'; readonly right: string }
  /** `#10` for `10 AWG`. */
  | { readonly is: 'hash'; readonly right: string }
  /** `5/0 AWG`. */
  | { readonly is: 'no-gauge' };

const name = String.raw`\p{L}[\p{L}\p{M}\p{N}_${unseen}-]*`;
const namePattern = new RegExp(name, 'uy');
const wordPattern = new RegExp(`${name}(?:/${name})*`, 'uy');
const pole = String.raw`[\p{L}\p{N}_${unseen}]+`;
const terminalTail = new RegExp(`:(?:${pole}(?:-${pole})*[+\\-\u2212\u2013]?|[+\\-\u2212\u2013])?`, 'uy');
const inlineSpace = new RegExp(`(?:[^\\S\\n]|[${unseen}])*`, 'y');
const gaugeFirst = /(?:AWG|awg|Awg)([^\S\n]*)([1-4]\/0|\d{1,2})(?![\d.,/]*\d)/y;
const hashGauge = /#([1-4]\/0|\d{1,2})(?:[ \t]*(?:AWG|awg|Awg|gauge|ga))?(?=[\s,]|$)/y;
/** `5'6"`, `5 ft 6 inch`; `5 ft 6 in` only where nothing follows that a thing could be in. */
const feetInches =
  /(\d+)(?:['′]\s?|[ \t]?(?:ft\.?|feet|foot)[ \t]?)(\d{1,2}(?:\.\d+)?)(?:"|″|''|[ \t]?inch(?:es)?(?![\p{L}\p{N}_-])|[ \t]?in\.?(?=[ \t]*(?:[,\n\r#]|$)))/uy;
const rangePattern = /\d+[-\u2013]\d+(?![\p{L}\p{N}])/uy;
/** `2 x`, `2x` glued to what is counted, but no part of a word. */
const timesPattern = /\d+[ \t\u00a0\u2009]*[x×X](?=[\d?#.]|M\d|(?![\p{L}\p{M}\p{N}_:/-]))/uy;
/** One character that begins nothing, and those behind it that begin nothing either. */
const junkPattern = /[^\s,][^\s,\p{L}\p{N}"\u201c\u201d\u201e=?#.+\-\u2212\u2013]*/uy;
const space = /\s/;
/** What cannot be seen parts words as white space does, where it does not stand within one. */
const spacePattern = new RegExp(`(?:[^\\S\\n\\r]|[${unseen}]|\\r(?!\\n))+`, 'y');

function exec(pattern: RegExp, text: string, offset: number): RegExpExecArray | null {
  pattern.lastIndex = offset;
  return pattern.exec(text);
}

/** Where a match at `offset` ends, -1 without one: for patterns of which nothing more is asked. */
function endOf(pattern: RegExp, text: string, offset: number): number {
  pattern.lastIndex = offset;
  return pattern.test(text) ? pattern.lastIndex : -1;
}

/** One for all that is found: chevrotain reads it before it looks for the next. */
const last: { 0: string; payload: unknown } = { 0: '', payload: undefined };

/** Of a custom match chevrotain reads the text, as of a regular expression's, and the payload. */
function found(text: string, payload?: unknown): RegExpExecArray {
  last[0] = text;
  last.payload = payload;
  return last as unknown as RegExpExecArray;
}

/** End of the name of plain letters, digits, `_` and `-` at `offset`; -1 where other scripts come in. */
function asciiNameEnd(text: string, offset: number): number {
  let at = offset;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if ((code >= 97 && code <= 122) || (code >= 65 && code <= 90)) continue;
    if (at > offset && ((code >= 48 && code <= 57) || code === 45 || code === 95)) continue;
    return code < 128 ? at : -1;
  }
  return at;
}

const colon = 58;
const hash = 35;
const slash = 47;

const matchSpace: CustomPatternMatcherFunc = (text, offset) => {
  const next = text.charCodeAt(offset + 1);
  // One space before a plain letter, as nearly always, needs no pattern.
  if (text.charCodeAt(offset) === 32 && next > 32 && next < 127) return found(' ');
  const end = endOf(spacePattern, text, offset);
  return end === -1 ? null : found(text.slice(offset, end));
};

const matchWord: CustomPatternMatcherFunc = (text, offset) => {
  const end = asciiNameEnd(text, offset);
  if (end === offset) return null;
  const next = text.charCodeAt(end);
  if (end > 0 && next !== slash) return next === colon ? null : found(text.slice(offset, end));
  const word = exec(wordPattern, text, offset);
  return word === null || text.charCodeAt(offset + word[0].length) === colon ? null : word;
};

const matchTerminal: CustomPatternMatcherFunc = (text, offset) => {
  const ascii = asciiNameEnd(text, offset);
  const end = ascii > offset ? ascii : endOf(namePattern, text, offset);
  if (end === -1 || text.charCodeAt(end) !== colon) return null;
  const tailEnd = endOf(terminalTail, text, end);
  return tailEnd === -1 ? null : found(text.slice(offset, tailEnd), end - offset);
};

/** `#` begins a comment at a line's start or after white space. */
const matchComment: CustomPatternMatcherFunc = (text, offset) => {
  if (text.charCodeAt(offset) !== hash) return null;
  if (offset > 0 && !space.test(text.charAt(offset - 1))) return null;
  const newline = text.indexOf('\n', offset);
  let end = newline === -1 ? text.length : newline;
  if (text.charAt(end - 1) === '\r') end -= 1;
  return found(text.slice(offset, end));
};

const matchQuantity: CustomPatternMatcherFunc = (text, offset, matched) => {
  switch (text.charAt(offset)) {
    case '#':
      return matchHashGauge(text, offset, matched);
    case 'A':
    case 'a':
      return matchGaugeFirst(text, offset, matched);
    case '?':
      return matchPlainQuantity(text, offset, '?');
    default: {
      const feet = exec(feetInches, text, offset);
      if (feet !== null) return matchFeetInches(feet);
      const end = endOf(numberRun, text, offset);
      return end === -1 ? null : matchPlainQuantity(text, offset, text.slice(offset, end));
    }
  }
};

function matchPlainQuantity(text: string, offset: number, numberText: string): RegExpExecArray | null {
  const numberEnd = offset + numberText.length;
  let unitStart = numberEnd;
  let spelling = unitAt(text, unitStart);
  if (spelling === undefined) {
    unitStart = Math.max(unitStart, endOf(inlineSpace, text, unitStart));
    // A quote behind a space opens a text: only directly behind the number it means inches.
    if (unitStart === numberEnd || text.charAt(unitStart) === '"') return null;
    spelling = unitAt(text, unitStart);
    if (spelling === undefined) return null;
  }
  const end = unitStart + spelling.spelling.length;
  const read = readValue(numberText, spelling);
  if (read === undefined) return null;
  const { value, trouble } = read;
  const payload: QuantityPayload = {
    numberStart: 0,
    numberEnd: numberText.length,
    unitStart: unitStart - offset,
    unitEnd: end - offset,
    spelling,
    value,
    si: value === undefined ? undefined : toSi(value, spelling.unit),
    trouble,
  };
  return found(text.slice(offset, end), payload);
}

interface ReadValue {
  readonly value: number | undefined;
  readonly trouble: Trouble | undefined;
}

const blank: ReadValue = { value: undefined, trouble: undefined };

/** The value in the unit as written; undefined where number and unit are no quantity together (`1,2,3 A`, `2/0 mm²`). */
function readValue(numberText: string, { unit }: UnitSpelling): ReadValue | undefined {
  if (numberText === '?') return blank;
  const read = readNumber(numberText);
  if (read === undefined) return undefined;
  if (read.meant.length > 0) return { value: undefined, trouble: { is: 'comma', meant: read.meant } };
  if (unit.dimension !== 'gauge')
    return read.value === undefined ? undefined : { value: read.value, trouble: undefined };
  const gauge = gaugeOf(numberText);
  if (gauge === undefined) return { value: undefined, trouble: { is: 'no-gauge' } };
  const noughts = numberText.startsWith('0');
  return { value: gauge, trouble: noughts ? { is: 'spelling', right: `${numberText.length}/0 AWG` } : undefined };
}

/** What stands for a unit that is written before its number, or not at all. */
function impliedSpelling(symbol: string): UnitSpelling {
  const unit = unitOf(symbol);
  if (unit === undefined) throw new RangeError(`no unit ${symbol}`);
  return { unit, spelling: symbol, right: true };
}

const awg = impliedSpelling('AWG');
const foot = impliedSpelling('ft');

/** `AWG 10`: the number belongs behind nothing else, and it is no part that is called AWG. */
function matchGaugeFirst(text: string, offset: number, matched: readonly IToken[]): RegExpExecArray | null {
  const match = exec(gaugeFirst, text, offset);
  if (match === null || matched.length < 2) return null;
  const [whole, gap = '', number = ''] = match;
  const end = offset + whole.length;
  const behind = end + (exec(inlineSpace, text, end)?.[0].length ?? 0);
  if (unitAt(text, behind) !== undefined || /[\p{L}_:]/u.test(text.charAt(end))) return null;
  const gauge = gaugeOf(number);
  const numberStart = 3 + gap.length;
  const payload: QuantityPayload = {
    numberStart,
    numberEnd: numberStart + number.length,
    unitStart: 0,
    unitEnd: 3,
    spelling: awg,
    value: gauge,
    si: gauge,
    trouble:
      gauge === undefined
        ? { is: 'no-gauge' }
        : { is: 'spelling', right: `${number.startsWith('0') ? `${number.length}/0` : number} AWG` },
  };
  return found(whole, payload);
}

/** `#10` in a run or stock that has said no size yet, where one may stand: else `#` begins a comment. */
function matchHashGauge(text: string, offset: number, matched: readonly IToken[]): RegExpExecArray | null {
  const match = exec(hashGauge, text, offset);
  const gauge = match?.[1] === undefined ? undefined : gaugeOf(match[1]);
  const last = matched.at(-1);
  if (match?.[1] === undefined || gauge === undefined || last === undefined) return null;
  const headLength = { run: 2, stock: 3 }[matched[0]?.image ?? ''];
  if (headLength === undefined || matched.length < headLength) return null;
  const behindHead = matched.length === headLength && last.tokenType === Word;
  const behindTitle = matched.length === headLength + 1 && last.tokenType === Text;
  if (!behindHead && !behindTitle && last.tokenType !== Times && last.tokenType !== Comma) return null;
  const sized = ({ tokenType, payload }: IToken) =>
    tokenType === Equals ||
    (tokenType === Quantity && ['area', 'gauge'].includes((payload as QuantityPayload).spelling.unit.dimension));
  if (matched.some(sized)) return null;
  const payload: QuantityPayload = {
    numberStart: 1,
    numberEnd: match[0].length,
    unitStart: 0,
    unitEnd: 1,
    spelling: awg,
    value: gauge,
    si: gauge,
    trouble: { is: 'hash', right: `${match[1]} AWG` },
  };
  return found(match[0], payload);
}

/** `5'6"` is one length. */
function matchFeetInches([whole, feet, inches]: RegExpExecArray): RegExpExecArray {
  const value = Number(feet) + Number(inches) / 12;
  const right = `${plainNumber(value, 3)} ft`;
  const payload: QuantityPayload = {
    numberStart: 0,
    numberEnd: whole.length,
    unitStart: whole.length,
    unitEnd: whole.length,
    spelling: foot,
    value,
    si: toSi(value, foot.unit),
    trouble: { is: 'spelling', right },
  };
  return found(whole, payload);
}

/** Any atom: the flat body is a run of these. */
export const AnyAtom = createToken({ name: 'AnyAtom', pattern: Lexer.NA });

const token = (name: string, pattern: RegExp | CustomPatternMatcherFunc, hint?: (string | number)[]): TokenType =>
  createToken({
    name,
    pattern,
    categories: [AnyAtom],
    line_breaks: false,
    ...(hint === undefined ? {} : { start_chars_hint: hint }),
  });

/** Beyond Latin-1 chevrotain keeps one list of patterns for each 255 codes; one code of each is hint enough. */
const beyondLatin1 = [256, ...Array.from({ length: 256 }, (_, block) => (block + 2) * 255)].filter(
  (code) => code < 65536,
);
const latin1 = Array.from({ length: 256 }, (_, code) => code);
const anything = [...latin1, ...beyondLatin1];
const letters = [...latin1.filter((code) => /\p{L}/u.test(String.fromCharCode(code))), ...beyondLatin1];
const passedOver = new RegExp(`[\\s${unseen}]`);
const spaces = [...latin1.filter((code) => passedOver.test(String.fromCharCode(code))), ...beyondLatin1];
const digits = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];
const numberStarts = [...digits, '-', '+', '.', '\u2212', '\u2013'];

export const Space = createToken({
  name: 'Space',
  pattern: matchSpace,
  group: Lexer.SKIPPED,
  line_breaks: false,
  start_chars_hint: spaces,
});
export const Comment = createToken({
  name: 'Comment',
  pattern: matchComment,
  group: 'comments',
  line_breaks: false,
  start_chars_hint: ['#'],
});
export const Line = token('Line', /\r?\n/);
/** Writing programs turn quotes into curly ones. */
export const Text = token('Text', /["\u201c\u201d\u201e][^"\u201c\u201d\u201e\r\n]*["\u201c\u201d]?/);
export const DateToken = token('Date', /\d{4}-\d{2}-\d{2}(?!\d)/);
export const Clock = token('Clock', /\d{1,2}:\d{2}(?!\d)/);
export const Quantity = token('Quantity', matchQuantity, ['#', 'A', 'a', '?', ...numberStarts]);
export const Times = token('Times', (text, offset) => exec(timesPattern, text, offset), digits);
export const Range = token('Range', (text, offset) => exec(rangePattern, text, offset), digits);
export const NumberToken = token('Number', /[-+\u2212\u2013]?(?:\d+(?:\.\d+)?|\.\d+)(?:\/0)?/);
export const Word = token('Word', matchWord, letters);
export const Terminal = token('Terminal', matchTerminal, letters);
export const Blank = token('Blank', /\?/);
export const Comma = token('Comma', /,/);
export const Equals = token('Equals', /=/);
export const Junk = token('Junk', (text, offset) => exec(junkPattern, text, offset), anything);

/** In the order in which they are tried. */
export const allTokens: TokenType[] = [
  Space,
  Comma,
  Quantity,
  Comment,
  Line,
  Text,
  DateToken,
  Clock,
  Times,
  Range,
  NumberToken,
  Word,
  Terminal,
  Blank,
  Equals,
  Junk,
];

/** A test looks the patterns over; at every start it would only cost time. */
export function lexer(skipValidations = true): Lexer {
  return new Lexer([...allTokens, AnyAtom], {
    positionTracking: 'onlyOffset',
    ensureOptimizations: true,
    skipValidations,
  });
}

export const statementLexer = lexer();
