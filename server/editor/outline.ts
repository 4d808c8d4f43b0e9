/** Outline: what the file declares, with what each says in a few words. */
import {
  type DocumentSymbol,
  type Position,
  type Range,
  type SymbolInformation,
  SymbolKind,
} from 'vscode-languageserver';
import type { ClauseNode, ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span, WordAtom } from '../../grammar/tree.ts';
import type { StatementSpec } from '../../grammar/vocabulary.ts';
import type { Analysis } from '../analysis.ts';
import type { Family } from '../kinds/kind.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Run } from '../model/model.ts';
import { rangeOf } from './ranges.ts';

type Group = Family | 'system' | 'use' | 'run' | 'link' | 'place' | 'case' | 'stock' | 'expect' | 'reading' | 'allow';

/** An icon for each family; editors can also sort by it. */
const icons: Readonly<Record<Group, SymbolKind>> = {
  system: SymbolKind.Namespace,
  use: SymbolKind.File,
  place: SymbolKind.Namespace,
  stock: SymbolKind.Class,
  source: SymbolKind.Event,
  conversion: SymbolKind.Operator,
  protection: SymbolKind.Key,
  switching: SymbolKind.Boolean,
  joint: SymbolKind.Array,
  measurement: SymbolKind.Number,
  load: SymbolKind.Object,
  return: SymbolKind.Null,
  enclosure: SymbolKind.Package,
  material: SymbolKind.Class,
  limits: SymbolKind.Class,
  run: SymbolKind.Interface,
  link: SymbolKind.Struct,
  case: SymbolKind.Enum,
  expect: SymbolKind.Constant,
  reading: SymbolKind.Variable,
  allow: SymbolKind.Property,
};

export function iconOf({ category, word }: StatementSpec): SymbolKind {
  return icons[category === 'kind' ? (kindOf(word)?.family ?? 'joint') : (word as Group)];
}

/**
 * In the order of the file, and no family under a heading of its own: editors take a symbol's range to tell where the pointer
 * is and which line to keep in sight, and families lie mingled.
 */
export function outline(analysis: Analysis): DocumentSymbol[] {
  return (analysis.model.files[0]?.statements ?? []).flatMap((statement) => keptSymbols(analysis, statement));
}

interface Kept {
  readonly at: Position;
  /** What the model makes of it: its cores are told by what they end on. */
  readonly run: Run | undefined;
  readonly symbols: readonly DocumentSymbol[];
}

/** Of a statement that stays as it is, wherever it moves: after every edit the whole outline is asked for again. */
const kept = new WeakMap<ShapedPlaced, Kept>();

function keptSymbols(analysis: Analysis, statement: ShapedPlaced): readonly DocumentSymbol[] {
  const at = analysis.lines.position(statement.offset);
  const run = runOf(analysis, statement);
  const known = kept.get(statement);
  const isKnown = known !== undefined && known.at.character === at.character && known.run === run;
  if (isKnown && known.at.line === at.line) return known.symbols;
  const symbols = isKnown
    ? known.symbols.map((symbol) => movedBy(at.line - known.at.line, symbol))
    : symbolsOf(analysis, statement, run);
  kept.set(statement, { at, run, symbols });
  return symbols;
}

/** The run that a statement declares; undefined where it declares none, or one that is declared before. */
function runOf({ model }: Analysis, statement: ShapedPlaced): Run | undefined {
  const { node, shaped } = statement;
  if ((shaped.wrapper ?? shaped.spec)?.word !== 'run') return undefined;
  const run = model.runs.get(node.names[0]?.value ?? '');
  return run?.origin.statement === statement ? run : undefined;
}

function movedBy(lines: number, symbol: DocumentSymbol): DocumentSymbol {
  const { range, selectionRange, children } = symbol;
  const moved = ({ start, end }: Range): Range => ({
    start: { ...start, line: start.line + lines },
    end: { ...end, line: end.line + lines },
  });
  return {
    ...symbol,
    range: moved(range),
    selectionRange: moved(selectionRange),
    ...(children === undefined ? {} : { children: children.map((child) => movedBy(lines, child)) }),
  };
}

function symbolsOf(analysis: Analysis, statement: ShapedPlaced, run: Run | undefined): DocumentSymbol[] {
  const { node, shaped, offset } = statement;
  const spec = shaped.wrapper ?? shaped.spec;
  if (spec === undefined || node.keyword === undefined) return [];
  const span = { start: offset + firstWord(node.text), end: offset + node.text.trimEnd().length };
  const entry = (name: string, at: Span, detail: string, children: DocumentSymbol[] = []): DocumentSymbol => ({
    name,
    ...(detail === '' ? {} : { detail }),
    kind: iconOf(spec),
    range: rangeOf(analysis.lines, span),
    selectionRange: rangeOf(analysis.lines, { start: offset + at.start, end: offset + at.end }),
    ...(children.length === 0 ? {} : { children }),
  });
  if (node.names.length === 0) {
    const name =
      spec.word === 'system'
        ? (node.title?.value ?? 'system')
        : oneLine(node.text, node.keyword.span.end, node.text.length);
    return [
      entry(name === '' ? spec.word : name, node.keyword.span, spec.word === 'system' ? detailOf(statement) : ''),
    ];
  }
  if (spec.word === 'link') {
    const [name] = node.names as [WordAtom];
    return [entry(`${name.value} ${detailOf(statement)}`.trim(), name.span, '')];
  }
  const children = run !== undefined ? cores(analysis, run) : spec.word === 'fusebox' ? ways(analysis, statement) : [];
  const kind = spec.category === 'kind' ? spec.word : spec.word === 'stock' ? (shaped.spec?.word ?? '') : '';
  const title = node.title === undefined ? '' : `“${node.title.value}”`;
  const detail = [kind, title, detailOf(statement)].filter((piece) => piece !== '').join(' ');
  return node.names.map((name) => entry(name.value, name.span, detail, children));
}

/** Clauses that have lines of their own below the statement, or lead away from it. */
const toldBelow: Readonly<Record<string, readonly string[]>> = {
  run: ['ends', 'core', 'spare', 'enters', 'along'],
  fusebox: ['way', 'most'],
};

/** The first clauses as they are written: size and length of a run, rating of a fuse. */
function detailOf({ node, shaped }: ShapedPlaced): string {
  const below = toldBelow[shaped.spec?.word ?? ''] ?? [];
  // A colour on a line of its own begins one of several cores.
  const clauses = shaped.clauses.filter(
    ({ spec: { id }, line }) => !below.includes(id) && !(id === 'colour' && line > 0),
  );
  return clauses
    .slice(0, 3)
    .map(({ span }) => oneLine(node.text, span.start, span.end))
    .join(', ');
}

/** The cores of a run with several: where each goes. */
function cores(analysis: Analysis, run: Run): DocumentSymbol[] {
  return (run.cores.length < 2 ? [] : run.cores).map(({ label, spare, from, to, place, colourPlace }) => ({
    name: label,
    detail: spare ? 'spare' : `${from?.id ?? '?'} to ${to?.id ?? '?'}`,
    kind: SymbolKind.Field,
    range: rangeOf(analysis.lines, place.span),
    selectionRange: rangeOf(analysis.lines, colourPlace?.span ?? place.span),
  }));
}

function ways(analysis: Analysis, { node, shaped, offset }: ShapedPlaced): DocumentSymbol[] {
  const symbol = ({ span }: ClauseNode): DocumentSymbol => {
    const range = rangeOf(analysis.lines, { start: offset + span.start, end: offset + span.end });
    return { name: oneLine(node.text, span.start, span.end), kind: SymbolKind.Field, range, selectionRange: range };
  };
  return shaped.clauses.filter(({ spec }) => spec.id === 'way').map(symbol);
}

function firstWord(text: string): number {
  return text.length - text.trimStart().length;
}

function oneLine(text: string, start: number, end: number): string {
  return text.slice(start, end).replace(/\s+/g, ' ').trim();
}

/** For clients that know no nested symbols. */
export function flatOutline(analysis: Analysis): SymbolInformation[] {
  const flat: SymbolInformation[] = [];
  const visit = (symbols: readonly DocumentSymbol[], containerName: string | undefined) => {
    for (const { name, kind, range, children } of symbols) {
      flat.push({
        name,
        kind,
        location: { uri: analysis.uri, range },
        ...(containerName === undefined ? {} : { containerName }),
      });
      visit(children ?? [], name);
    }
  };
  visit(outline(analysis), undefined);
  return flat;
}
