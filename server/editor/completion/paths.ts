/** Paths of other specs, between the quotes of a `use`. */
import { type CompletionItem, CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import { fileName, resolveIn } from '../../model/files.ts';
import { at } from '../at.ts';
import type { Paths } from '../moved-files.ts';
import { rangeOf } from '../ranges.ts';

interface PathAt {
  /** Between the quotes, or behind the only one. */
  readonly span: Span;
  readonly closed: boolean;
  readonly written: string;
}

/** The path of a `use` that the pointer is in. */
export function pathAt(analysis: Analysis, offset: number): PathAt | undefined {
  const { atom, statement } = at(analysis, offset) ?? {};
  if (atom?.kind !== 'text' || statement?.shaped.spec?.word !== 'use') return undefined;
  const start = statement.offset + atom.span.start + 1;
  const end = statement.offset + atom.span.end - (atom.closed ? 1 : 0);
  return start <= offset && offset <= end
    ? { span: { start, end }, closed: atom.closed, written: atom.value }
    : undefined;
}

/** Those of `addresses` that this file does not use yet, the nearest first. */
export function pathCompletion(
  analysis: Analysis,
  offset: number,
  addresses: readonly string[],
  paths: Paths,
): CompletionItem[] {
  const here = pathAt(analysis, offset);
  if (here === undefined) return [];
  const { span, closed, written } = here;
  const own = resolveIn(paths, analysis.uri, written);
  const used = new Set(analysis.model.uses.filter(({ target }) => target === 'file').map(({ name }) => name));
  const offered = addresses
    .filter((address) => address !== analysis.uri && (address === own || !used.has(address)))
    .flatMap((address) => {
      const path = paths.write(analysis.uri, address, written);
      return path === undefined || path.includes('"') ? [] : [{ path, address }];
    })
    .sort((a, b) => steps(a.path) - steps(b.path) || (a.path < b.path ? -1 : 1));
  return offered.map(({ path, address }, n) => ({
    label: path,
    kind: CompletionItemKind.File,
    detail: `what ${fileName(address)} fits and keeps in stock`,
    sortText: String(n).padStart(4, '0'),
    filterText: path,
    textEdit: { range: rangeOf(analysis.lines, span), newText: closed ? path : `${path}"` },
    insertTextFormat: InsertTextFormat.PlainText,
  }));
}

const steps = (path: string) => path.replace(/^\.\//u, '').split('/').length;
