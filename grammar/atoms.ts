/** From a statement's text to its typed node: tokens to atoms with what stands before them, comments, problems of writing. */
import type { IToken } from 'chevrotain';
import { quantityProblem, unclosedText } from './lexical-problems.ts';
import { plainSign } from './numbers.ts';
import { type Head, statementParser } from './parser.ts';
import { narrowed, seen, strayCharacters } from './stray-characters.ts';
import {
  Blank,
  Clock,
  Comma,
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
import type { Atom, CommentNode, Problem, StatementNode, TextAtom, WordAtom } from './tree.ts';
import { trimmed } from './trimmed.ts';

/** What the vocabulary says of a statement's first word. */
export interface Heads {
  headOf(word: string): Head;
  /** Whether a text may follow a head without names. */
  titled(word: string): boolean;
  /** Whether a word cannot be a name because a clause begins with it: the name was left out. */
  opensClause(word: string, first: string): boolean;
}

/** The atom rides on its token through the parser. */
interface AtomToken extends IToken {
  atom: Atom;
}

const atomOf = (token: IToken) => (token as AtomToken).atom;

/** Reads one statement's text. Never throws; whatever is odd becomes a junk atom or a problem. */
export function readStatement(text: string, heads: Heads): StatementNode {
  // Of the same length, so that places in it are places in the text.
  const lexed = narrowed(text);
  const { tokens, groups } = statementLexer.tokenize(lexed);
  const problems: Problem[] = [];
  const atoms: Atom[] = [];
  let at = 0;
  for (const token of tokens) {
    const start = token.startOffset;
    const made = makeAtom(token, start, at === start ? '' : text.slice(at, start), problems);
    const atom = lexed === text ? made : asWritten(made, text);
    atoms.push(atom);
    if (atom.kind === 'text' && !atom.closed) problems.push(unclosedText(text, atom.span));
    (token as AtomToken).atom = atom;
    at = atom.span.end;
  }
  const comments: CommentNode[] = [];
  for (const { startOffset, image } of groups.comments ?? [])
    comments.push({
      span: { start: startOffset, end: startOffset + image.length },
      text: text.slice(startOffset, startOffset + image.length),
    });
  const trailing = at === text.length ? '' : text.slice(at);
  problems.push(...strayCharacters(text, atoms, trailing));
  const parsed = statementParser.read(tokens, heads);
  return {
    text,
    keyword: parsed.keyword === undefined ? undefined : (atomOf(parsed.keyword) as WordAtom),
    names: parsed.names.map(atomOf) as WordAtom[],
    title: parsed.title === undefined ? undefined : (atomOf(parsed.title) as TextAtom),
    body: parsed.body.map(atomOf),
    atoms: trimmed(atoms),
    trailing,
    comments,
    problems,
  };
}

/** One object literal a kind, without spreading: this runs for every word of a spec. */
function makeAtom(token: IToken, start: number, leading: string, problems: Problem[]): Atom {
  const text = token.image;
  const span = { start, end: start + text.length };
  switch (token.tokenType) {
    case Word:
      return { kind: 'word', span, text, leading, value: composed(text) };
    case Comma:
      return { kind: 'comma', span, text, leading };
    case Quantity: {
      const payload = token.payload as QuantityPayload;
      const { spelling, value, si } = payload;
      const problem = quantityProblem(text, start, payload);
      if (problem !== undefined) problems.push(problem);
      return {
        kind: 'quantity',
        span,
        text,
        leading,
        value,
        si,
        unit: spelling.unit.symbol,
        dimension: spelling.unit.dimension,
        numberSpan: { start: start + payload.numberStart, end: start + payload.numberEnd },
        unitSpan: { start: start + payload.unitStart, end: start + payload.unitEnd },
      };
    }
    case Terminal: {
      const colon = token.payload as number;
      return {
        kind: 'terminal',
        span,
        text,
        leading,
        part: composed(text.slice(0, colon)),
        terminal: composed(text.slice(colon + 1)).replace(/[\u2212\u2013]$/, '-'),
        partSpan: { start, end: start + colon },
        terminalSpan: { start: start + colon + 1, end: span.end },
      };
    }
    case Line:
      return { kind: 'line', span, text, leading };
    case NumberToken:
      return { kind: 'number', span, text, leading, value: Number.parseFloat(plainSign(text)) };
    case Times:
      return { kind: 'times', span, text, leading, value: Number.parseInt(text, 10) };
    case Range: {
      const [from, to] = text.split(/[-\u2013]/);
      return { kind: 'range', span, text, leading, from: Number(from), to: Number(to) };
    }
    case Text: {
      const closed = text.length > 1 && /["\u201c\u201d]$/.test(text);
      return { kind: 'text', span, text, leading, value: closed ? text.slice(1, -1) : text.slice(1).trimEnd(), closed };
    }
    case DateToken:
      return { kind: 'date', span, text, leading, value: text };
    case Clock:
      return { kind: 'clock', span, text, leading, value: text };
    case Blank:
      return { kind: 'blank', span, text, leading };
    case Equals:
      return { kind: 'equals', span, text, leading };
    default:
      return { kind: 'junk', span, text, leading };
  }
}

/** The same with the text's own characters in place of their usual forms. */
function asWritten(atom: Atom, text: string): Atom {
  const own = text.slice(atom.span.start, atom.span.end);
  if (atom.kind !== 'text') return { ...atom, text: own };
  return { ...atom, text: own, value: atom.closed ? own.slice(1, -1) : own.slice(1).trimEnd() };
}

/** NFC and without what cannot be seen, without asking for what is plain already. */
function composed(text: string): string {
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 127) return seen(text).normalize('NFC');
  return text;
}
