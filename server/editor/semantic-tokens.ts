/**
 * Semantic tokens: what only the whole spec can tell of a word. Which kind of thing a name is, whether a terminal or a core
 * leads to plus or minus, what a number is of, and where a finding is accepted. Keywords are coloured by the grammar alone.
 */
import type { SemanticTokensEdit, SemanticTokensLegend } from 'vscode-languageserver';
import type { ShapedPlaced, SlotValue } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { type Polarities, polarities, type Sign } from '../answers/polarity.ts';
import type { Core, NameUse } from '../model/model.ts';

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
  readonly span: Span;
  readonly type: TokenType;
  readonly modifiers: readonly Modifier[];
}

/** The numbers of the protocol: five a token, each place counted from the token before. `within` leaves out what lies outside it. */
export function semanticTokens(analysis: Analysis, within?: Span): number[] {
  const { lines } = analysis;
  const data: number[] = [];
  let [line, last] = [0, { line: 0, start: 0 }];
  for (const { span, type, modifiers: more } of tokens(analysis, within)) {
    while (line + 1 < lines.lineCount && lines.lineStart(line + 1) <= span.start) line += 1;
    const start = span.start - lines.lineStart(line);
    const down = line - last.line;
    const bits = more.reduce((set, one) => set | (1 << modifiers.indexOf(one)), 0);
    data.push(down, down === 0 ? start - last.start : start, span.end - span.start, types.indexOf(type), bits);
    last = { line, start };
  }
  return data;
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

/** In order of place, none over another. */
function tokens(analysis: Analysis, within: Span | undefined): Token[] {
  const { model, answers } = analysis;
  const [file] = model.files;
  if (file === undefined) return [];
  const signs = polarities(answers, model.parts.values());
  const uses = new Map<number, NameUse>();
  for (const use of model.uses) if (use.place.uri === analysis.uri) uses.set(use.place.span.start, use);
  const accepted = analysis.accepted.filter(({ place }) => place.uri === analysis.uri).map(({ place }) => place.span);
  const isAccepted = (span: Span) => accepted.some(({ start, end }) => start < span.end && span.start < end);
  const found: Token[] = [];
  for (const statement of file.statements) {
    const { offset, node } = statement;
    if (within !== undefined && (offset > within.end || offset + node.text.length <= within.start)) continue;
    const here = tokensOf(analysis, statement, signs, uses).sort((a, b) => a.span.start - b.span.start);
    for (const token of here) {
      const { start, end } = token.span;
      if (start === end || start < (found.at(-1)?.span.end ?? 0)) continue;
      if (within !== undefined && (end <= within.start || within.end <= start)) continue;
      found.push(isAccepted(token.span) ? { ...token, modifiers: [...token.modifiers, 'accepted'] } : token);
    }
  }
  return found;
}

function tokensOf(
  { model }: Analysis,
  { node, shaped, offset }: ShapedPlaced,
  signs: Polarities,
  uses: ReadonlyMap<number, NameUse>,
): Token[] {
  const at = ({ start, end }: Span): Span => ({ start: offset + start, end: offset + end });
  const named = (span: Span, sign?: Sign): Token[] => {
    const use = uses.get(offset + span.start);
    if (use === undefined || use.target === 'file') return [];
    const declared = use.declaration ? (['declaration'] as const) : [];
    return [{ span: at(span), type: use.target, modifiers: [...declared, ...signed(sign)] }];
  };
  const run = model.runs.get(node.names[0]?.value ?? '');
  const signOf = (id: string) => {
    const terminal = model.terminals.get(id);
    return terminal === undefined ? undefined : signs.of(terminal);
  };
  const ofValue = ({ atom, type, slot, span }: SlotValue): Token[] => {
    switch (atom.kind) {
      case 'terminal':
        return [
          ...named(atom.partSpan),
          {
            span: at(atom.terminalSpan),
            type: 'terminal',
            modifiers: signed(signOf(`${atom.part}:${atom.terminal}`)),
          },
        ];
      case 'quantity':
        return [
          { span: at(atom.numberSpan), type: atom.value === undefined ? 'blank' : 'quantity', modifiers: [] },
          { span: at(atom.unitSpan), type: 'unit', modifiers: [] },
        ];
      case 'blank':
        return [{ span: at(span), type: 'blank', modifiers: [] }];
      case 'word':
        if (type === 'colour')
          return [{ span: at(span), type: 'colour', modifiers: signed(signOfCore(coreAt(offset + span.start))) }];
        if (type === 'name<slug>') return [{ span: at(span), type: 'finding', modifiers: [] }];
        return named(span, type === 'end' && slot !== '' ? signOf(atom.value) : undefined);
      default:
        return [];
    }
  };
  const coreAt = (start: number) => run?.cores.find(({ colourPlace }) => colourPlace?.span.start === start);
  const signOfCore = (core: Core | undefined) => {
    const end = core?.from ?? core?.to;
    return end === undefined ? undefined : signs.of(end);
  };
  return [
    ...node.names.flatMap(({ span }) => named(span)),
    ...shaped.clauses.flatMap(({ values }) => values.flatMap(ofValue)),
  ];
}

function signed(sign: Sign | undefined): Modifier[] {
  return sign === undefined ? [] : [sign === '+' ? 'positive' : 'negative'];
}
