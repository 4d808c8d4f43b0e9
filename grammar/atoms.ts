/** From a statement's tokens to its typed node: atoms with their leading trivia, comments, and lexical problems. */
import type { IToken } from 'chevrotain';
import { statementParser, type Head } from './parser.ts';
import type { Atom, CommentNode, Problem, ProblemFix, Span, StatementNode, TextAtom, WordAtom } from './tree.ts';
import {
  Blank,
  Clock,
  Comma,
  Comment,
  DateToken,
  Equals,
  Line,
  NumberToken,
  Quantity,
  type QuantityPayload,
  Range,
  statementLexer,
  Terminal,
  Text,
  Times,
  Word,
} from './tokens.ts';
import { gaugeText, unitOf } from './units.ts';

export interface Heads {
  headOf(word: string): Head;
  titled(word: string): boolean;
}

/** Reads one statement's text. Never throws; whatever is odd becomes a junk atom or a problem. */
export function readStatement(text: string, heads: Heads): StatementNode {
  const lexed = statementLexer.tokenize(text);
  const problems: Problem[] = [];
  const atoms: Atom[] = [];
  const byToken = new Map<IToken, Atom>();
  let at = 0;
  for (const token of lexed.tokens) {
    const start = token.startOffset;
    const end = start + token.image.length;
    const atom = atomOf(token, { start, end }, text.slice(at, start), problems);
    atoms.push(atom);
    byToken.set(token, atom);
    at = end;
  }
  const comments: CommentNode[] = [];
  for (const token of lexed.groups.trivia ?? []) {
    if (token.tokenType === Comment)
      comments.push({ span: { start: token.startOffset, end: token.startOffset + token.image.length }, text: token.image });
  }
  const parsed = statementParser.read(lexed.tokens, heads.headOf, heads.titled);
  const of = (token: IToken) => byToken.get(token);
  const known = (atom: Atom | undefined): atom is Atom => atom !== undefined;
  return {
    text,
    keyword: parsed.keyword === undefined ? undefined : (of(parsed.keyword) as WordAtom | undefined),
    names: parsed.names.map(of).filter(known) as WordAtom[],
    title: parsed.title === undefined ? undefined : (of(parsed.title) as TextAtom | undefined),
    body: parsed.body.map(of).filter(known),
    atoms,
    trailing: text.slice(at),
    comments,
    problems,
  };
}

function atomOf(token: IToken, span: Span, leading: string, problems: Problem[]): Atom {
  const text = token.image;
  const base = { span, text, leading };
  switch (token.tokenType) {
    case Word:
      return { ...base, kind: 'word', value: text.normalize('NFC') };
    case Terminal: {
      const colon = token.payload as number;
      const partSpan = { start: span.start, end: span.start + colon };
      const terminalSpan = { start: span.start + colon + 1, end: span.end };
      const part = text.slice(0, colon).normalize('NFC');
      const terminal = text.slice(colon + 1).replace('\u2212', '-').normalize('NFC');
      return { ...base, kind: 'terminal', part, terminal, partSpan, terminalSpan };
    }
    case Quantity: {
      const { numberText, unitStart, unit, value, si, trouble } = token.payload as QuantityPayload;
      const numberSpan = { start: span.start, end: span.start + numberText.length };
      const unitSpan = { start: span.start + unitStart, end: span.end };
      const { symbol, dimension } = unit.unit;
      if (trouble === 'decimal-comma') problems.push(decimalComma(numberText, symbol, span, numberSpan));
      else if (trouble === 'aught') problems.push(spelling(text, `${gaugeText(value ?? 0)} AWG`, span));
      else if (trouble === 'no-gauge') problems.push(noGauge(text, span));
      else if (!unit.right) problems.push(spelling(unit.spelling, symbol, unitSpan, numberText));
      return { ...base, kind: 'quantity', value, si, unit: symbol, dimension, numberSpan, unitSpan };
    }
    case NumberToken:
      return { ...base, kind: 'number', value: Number.parseFloat(text.replace('\u2212', '-')) };
    case Times:
      return { ...base, kind: 'times', value: Number.parseInt(text, 10) };
    case Range: {
      const [from = '', to = ''] = text.split(/[-\u2013]/);
      return { ...base, kind: 'range', from: Number(from), to: Number(to) };
    }
    case Text: {
      const closed = text.length > 1 && text.endsWith('"');
      if (!closed) problems.push(unclosed(text, span));
      return { ...base, kind: 'text', value: closed ? text.slice(1, -1) : text.slice(1), closed };
    }
    case DateToken:
      return { ...base, kind: 'date', value: text };
    case Clock:
      return { ...base, kind: 'clock', value: text };
    case Blank:
      return { ...base, kind: 'blank' };
    case Comma:
      return { ...base, kind: 'comma' };
    case Line:
      return { ...base, kind: 'line' };
    case Equals:
      return { ...base, kind: 'equals' };
    default:
      return { ...base, kind: 'junk' };
  }
}

function fix(title: string, safe: boolean, span: Span, newText: string): ProblemFix {
  return { title, safe, edits: [{ span, newText }] };
}

function decimalComma(numberText: string, symbol: string, span: Span, numberSpan: Span): Problem {
  const parts = numberText.split(',');
  const point = numberText.replace(',', '.');
  const joined = parts.join('');
  // `1,000` may mean a thousand or one: only the person knows.
  const thousands = parts.slice(1).every((part) => part.length === 3) && !/^[-+]?0/.test(numberText);
  const fixes =
    parts.length > 2
      ? [fix(`Write ${joined} ${symbol}`, false, numberSpan, joined)]
      : thousands
        ? [
            fix(`Write ${joined} ${symbol}`, false, numberSpan, joined),
            fix(`Write ${point} ${symbol}`, false, numberSpan, point),
          ]
        : [fix(`Write ${point} ${symbol}`, true, numberSpan, point)];
  const say = thousands
    ? `${numberText} ${symbol} can be read two ways: write ${joined} or ${point}, with a point for the decimals and nothing between thousands.`
    : `${numberText} ${symbol} has a comma: write the decimals behind a point, ${point} ${symbol}.`;
  return { slug: 'decimal-comma', span, message: say, fixes };
}

function spelling(written: string, right: string, span: Span, number?: string): Problem {
  const whole = number === undefined ? right : `${number} ${right}`;
  return {
    slug: 'unit-spelling',
    span,
    message: `“${written}” is written ${number === undefined ? whole : `${right} here`}: ${whole}.`,
    fixes: [fix(`Write ${whole}`, true, span, right)],
  };
}

function noGauge(text: string, span: Span): Problem {
  return {
    slug: 'unit-spelling',
    span,
    message: `${text} is no wire gauge: gauges go from 40 AWG up to 1 AWG, then 1/0, 2/0, 3/0 and 4/0 AWG.`,
  };
}

function unclosed(text: string, span: Span): Problem {
  const end = span.start + text.trimEnd().length;
  return {
    slug: 'unclosed-text',
    span,
    message: 'This text has no closing quote: put " behind its last word.',
    fixes: [fix('Close the text', false, { start: end, end }, '"')],
  };
}

/** Whether a unit's dimension is the one asked for; `unitOf` never misses a symbol that the lexer gave. */
export function dimensionOf(symbol: string) {
  return unitOf(symbol)?.dimension;
}
