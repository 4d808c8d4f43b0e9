/**
 * Semantic tokens: what only the whole spec can tell of a word. Which kind of thing a name is, whether a terminal or a core
 * leads to plus or minus, what a number is of, and where a finding is accepted. Keywords are coloured by the grammar alone.
 */
import type { SemanticTokensEdit, SemanticTokensLegend } from 'vscode-languageserver';
import type { ShapedPlaced, SlotValue } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis, Piece } from '../analysis.ts';
import { groupBy } from '../answers/grouping.ts';
import type { Sign } from '../answers/polarity.ts';
import { keptWith } from '../model/lazily.ts';
import type { Core } from '../model/model.ts';
import { statementAt } from '../model/place.ts';
import { piecesByStatement } from './pieces.ts';

const types = [
  'part',
  'run',
  'place',
  'stock',
  'case',
  'finding',
  'terminal',
  'colour',
  'quantity',
  'unit',
  'blank',
] as const;
const modifiers = ['declaration', 'positive', 'negative', 'accepted'] as const;

type TokenType = (typeof types)[number];
type Modifier = (typeof modifiers)[number];

export const tokensLegend: SemanticTokensLegend = { tokenTypes: [...types], tokenModifiers: [...modifiers] };

interface Token {
  /** In its statement. */
  readonly span: Span;
  readonly type: TokenType;
  readonly modifiers: readonly Modifier[];
}

/** The tokens of statements, in numbers: five a token. */
interface Numbered {
  /** Of each token the line in its statement, the column (on the first line from where the statement begins), length, type, modifiers. */
  readonly numbers: Int32Array;
  /** For each statement, where its numbers end. */
  readonly ends: Int32Array;
}

/** The numbers of the protocol: five a token, each place counted from the token before. `within` leaves out what lies outside it. */
export function semanticTokens(analysis: Analysis, within?: Span): number[] {
  const { lines } = analysis;
  const accepted = acceptedIn(analysis);
  const all = inOrder(analysis, within);
  // Made in full length: a list that grows to that moves several times.
  const data = new Array<number>(all.reduce((sum, { from, at }) => sum + endOf(from, at) - endOf(from, at - 1), 0));
  let size = 0;
  let [line, lastLine, lastStart] = [0, 0, 0];
  for (const { statement, from, at } of all) {
    while (line + 1 < lines.lineCount && lines.lineStart(line + 1) <= statement.offset) line += 1;
    const column = statement.offset - lines.lineStart(line);
    const spans = accepted.get(statement) ?? [];
    const { numbers } = from;
    for (let i = endOf(from, at - 1); i < endOf(from, at); i += perToken) {
      const down = numbers[i] ?? 0;
      const here = line + down;
      const start = (down === 0 ? column : 0) + (numbers[i + 1] ?? 0);
      const length = numbers[i + 2] ?? 0;
      const offset = lines.lineStart(here) + start;
      if (within !== undefined && (offset + length <= within.start || within.end <= offset)) continue;
      const isAccepted = spans.some((span) => span.start < offset + length && offset < span.end);
      const bits = (numbers[i + 4] ?? 0) | (isAccepted ? bitOf('accepted') : 0);
      data[size++] = here - lastLine;
      data[size++] = here === lastLine ? start - lastStart : start;
      data[size++] = length;
      data[size++] = numbers[i + 3] ?? 0;
      data[size++] = bits;
      lastLine = here;
      lastStart = start;
    }
  }
  data.length = size;
  return data;
}

const perToken = 5;

/** Where the numbers of a statement end; those of none before the first. */
const endOf = ({ ends }: Numbered, at: number) => ends[at] ?? 0;

const bitOf = (modifier: Modifier) => 1 << modifiers.indexOf(modifier);

/** Accepted findings by the statement that they stand in. */
function acceptedIn({ accepted, uri }: Analysis): ReadonlyMap<ShapedPlaced | undefined, Span[]> {
  const byStatement = groupBy(
    accepted.filter(({ place }) => place.uri === uri),
    ({ place }) => statementAt(place),
  );
  return new Map([...byStatement].map(([statement, found]) => [statement, found.map(({ place }) => place.span)]));
}

interface Numberable {
  readonly statement: ShapedPlaced;
  readonly from: Numbered;
  /** Which of its statements. */
  readonly at: number;
}

/** The statements of the file, each with where its numbers are. */
function inOrder(analysis: Analysis, within: Span | undefined): Numberable[] {
  const { files } = analysis;
  const used = new Set(files.slice(1).flatMap(({ statements }) => statements));
  const isWanted = (statement: ShapedPlaced) =>
    !used.has(statement) &&
    (within === undefined ||
      (statement.offset <= within.end && within.start < statement.offset + statement.node.text.length));
  const found: Numberable[] = [];
  for (const piece of piecesByStatement(analysis))
    piece.statements.forEach((statement, at) => {
      if (isWanted(statement)) found.push({ statement, from: numberedPiece(piece), at });
    });
  return found.sort((a, b) => a.statement.offset - b.statement.offset);
}

/** A piece that an edit leaves as it is keeps its tokens, wherever they stand now. */
const numberedPiece = keptWith(numbered);

function numbered(piece: Piece): Numbered {
  const numbers: number[] = [];
  const ends = piece.statements.map((statement) => {
    const { text } = statement.node;
    let [line, lineStart, last] = [0, 0, 0];
    for (const { span, type, modifiers: more } of tokensOf(piece, statement)) {
      if (span.start === span.end || span.start < last) continue;
      for (let next = text.indexOf('\n', lineStart); next !== -1 && next < span.start; ) {
        [line, lineStart] = [line + 1, next + 1];
        next = text.indexOf('\n', lineStart);
      }
      const bits = more.reduce((set, one) => set | bitOf(one), 0);
      numbers.push(line, span.start - lineStart, span.end - span.start, types.indexOf(type), bits);
      last = span.end;
    }
    return numbers.length;
  });
  return { numbers: Int32Array.from(numbers), ends: Int32Array.from(ends) };
}

/** What changed between two answers, as one edit; none where nothing did. */
export function tokenEdits(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start += 1;
  let same = 0;
  while (same < most - start && before.at(-1 - same) === after.at(-1 - same)) same += 1;
  const deleteCount = before.length - start - same;
  const data = after.slice(start, after.length - same);
  return deleteCount === 0 && data.length === 0 ? [] : [{ start, deleteCount, data }];
}

/** In order of place. */
function tokensOf({ model, answers }: Piece, statement: ShapedPlaced): Token[] {
  const { node, shaped, offset } = statement;
  const uses = new Map(model.usesIn(statement).map((use) => [use.place.span.start - offset, use]));
  const named = (span: Span, sign?: Sign): Token[] => {
    const use = uses.get(span.start);
    if (use === undefined || use.target === 'file') return [];
    const declared = use.declaration ? (['declaration'] as const) : [];
    return [{ span, type: use.target, modifiers: [...declared, ...signed(sign)] }];
  };
  const run = model.runs.get(node.names[0]?.value ?? '');
  const signOf = (id: string) => {
    const terminal = model.terminals.get(id);
    return terminal === undefined ? undefined : answers.polarities.of(terminal);
  };
  const ofValue = ({ atom, type, slot, span }: SlotValue): Token[] => {
    switch (atom.kind) {
      case 'terminal':
        return [
          ...named(atom.partSpan),
          {
            span: atom.terminalSpan,
            type: 'terminal',
            modifiers: signed(signOf(`${atom.part}:${atom.terminal}`)),
          },
        ];
      case 'quantity':
        return [
          { span: atom.numberSpan, type: atom.value === undefined ? 'blank' : 'quantity', modifiers: [] },
          { span: atom.unitSpan, type: 'unit', modifiers: [] },
        ];
      case 'blank':
        return [{ span, type: 'blank', modifiers: [] }];
      case 'word':
        if (type === 'colour')
          return [{ span, type: 'colour', modifiers: signed(signOfCore(coreAt(offset + span.start))) }];
        if (type === 'name<slug>') return [{ span, type: 'finding', modifiers: [] }];
        return named(span, type === 'end' && slot !== '' ? signOf(atom.value) : undefined);
      default:
        return [];
    }
  };
  const coreAt = (start: number) => run?.cores.find(({ colourPlace }) => colourPlace?.span.start === start);
  const signOfCore = (core: Core | undefined) => {
    const end = core?.from ?? core?.to;
    return end === undefined ? undefined : answers.polarities.of(end);
  };
  return [
    ...node.names.flatMap(({ span }) => named(span)),
    ...shaped.clauses.flatMap(({ values }) => values.flatMap(ofValue)),
  ].sort((a, b) => a.span.start - b.span.start);
}

function signed(sign: Sign | undefined): Modifier[] {
  return sign === undefined ? [] : [sign === '+' ? 'positive' : 'negative'];
}
