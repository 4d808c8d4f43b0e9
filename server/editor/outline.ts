/** Outline: what the file declares, family by family, with what each says in a few words. */
import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { ClauseNode, ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span, WordAtom } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { Family } from '../kinds/kind.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import { rangeOf } from './ranges.ts';

type Group = Family | 'system' | 'use' | 'run' | 'link' | 'place' | 'case' | 'stock' | 'expect' | 'reading' | 'allow';

interface GroupSpec {
  readonly title: string;
  readonly kind: SymbolKind;
}

/** In the order in which a spec is thought of: where the current comes from first, what is stated about it last. */
const groups: Readonly<Record<Group, GroupSpec>> = {
  system: { title: 'System', kind: SymbolKind.Namespace },
  use: { title: 'Used files', kind: SymbolKind.File },
  place: { title: 'Places', kind: SymbolKind.Namespace },
  stock: { title: 'Stock', kind: SymbolKind.Class },
  source: { title: 'Sources', kind: SymbolKind.Event },
  conversion: { title: 'Conversion', kind: SymbolKind.Operator },
  protection: { title: 'Protection', kind: SymbolKind.Key },
  switching: { title: 'Switching', kind: SymbolKind.Boolean },
  joint: { title: 'Joints', kind: SymbolKind.Array },
  measurement: { title: 'Measurement', kind: SymbolKind.Number },
  load: { title: 'Loads', kind: SymbolKind.Object },
  return: { title: 'Return and bonding', kind: SymbolKind.Null },
  enclosure: { title: 'Enclosures and entries', kind: SymbolKind.Package },
  material: { title: 'Stock', kind: SymbolKind.Class },
  run: { title: 'Runs', kind: SymbolKind.Interface },
  link: { title: 'Links', kind: SymbolKind.Struct },
  case: { title: 'Cases', kind: SymbolKind.Enum },
  expect: { title: 'Expectations', kind: SymbolKind.Constant },
  reading: { title: 'Readings', kind: SymbolKind.Variable },
  allow: { title: 'Accepted findings', kind: SymbolKind.Property },
};

interface Entry {
  readonly group: Group;
  readonly symbol: DocumentSymbol;
  readonly span: Span;
}

export function outline(analysis: Analysis): DocumentSymbol[] {
  const entries = (analysis.model.files[0]?.statements ?? []).flatMap((statement) => entriesOf(analysis, statement));
  return (Object.keys(groups) as Group[]).flatMap((group): DocumentSymbol[] => {
    const own = entries.filter((entry) => entry.group === group);
    const [first] = own;
    if (first === undefined) return [];
    // One system or one used file needs no heading over it.
    if (group === 'system') return own.map(({ symbol }) => symbol);
    const span = { start: first.span.start, end: Math.max(...own.map(({ span: { end } }) => end)) };
    return [
      {
        name: groups[group].title,
        detail: String(own.length),
        kind: groups[group].kind,
        range: rangeOf(analysis.lines, span),
        selectionRange: first.symbol.selectionRange,
        children: own.map(({ symbol }) => symbol),
      },
    ];
  });
}

function entriesOf(analysis: Analysis, statement: ShapedPlaced): Entry[] {
  const { node, shaped, offset } = statement;
  const spec = shaped.wrapper ?? shaped.spec;
  if (spec === undefined || node.keyword === undefined) return [];
  const group: Group = spec.category === 'kind' ? (kindOf(spec.word)?.family ?? 'joint') : (spec.word as Group);
  const span = { start: offset + firstWord(node.text), end: offset + node.text.trimEnd().length };
  const entry = (name: string, at: Span, detail: string, children: DocumentSymbol[] = []): Entry => ({
    group,
    span,
    symbol: {
      name,
      ...(detail === '' ? {} : { detail }),
      kind: groups[group].kind,
      range: rangeOf(analysis.lines, span),
      selectionRange: rangeOf(analysis.lines, { start: offset + at.start, end: offset + at.end }),
      ...(children.length === 0 ? {} : { children }),
    },
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
  const children =
    spec.word === 'run' ? cores(analysis, statement) : spec.word === 'fusebox' ? ways(analysis, statement) : [];
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
function cores(analysis: Analysis, statement: ShapedPlaced): DocumentSymbol[] {
  const run = analysis.model.runs.get(statement.node.names[0]?.value ?? '');
  if (run === undefined || run.origin.statement !== statement || run.cores.length < 2) return [];
  return run.cores.map(({ label, spare, from, to, place, colourPlace }) => ({
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
