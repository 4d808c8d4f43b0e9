/** Workspace symbols: everything that specs declare, found by letters of its name or title in their order. */
import type { SymbolInformation } from 'vscode-languageserver';
import type { LineIndex } from '../../grammar/lines.ts';
import type { ShapedTree } from '../../grammar/parse.ts';
import { fileName } from '../model/files.ts';
import { iconOf } from './outline.ts';
import { rangeOf } from './ranges.ts';

/** A spec as far as its text has been read: names need no electrics. */
export interface ReadSpec {
  readonly uri: string;
  readonly lines: LineIndex;
  readonly tree: ShapedTree;
}

/** More than anyone reads; a client asks again with more letters. */
export const mostSymbols = 500;

export function workspaceSymbols(specs: readonly ReadSpec[], query: string, most = mostSymbols): SymbolInformation[] {
  const wanted = query.toLowerCase().replaceAll(/\s+/gu, '');
  const found: SymbolInformation[] = [];
  for (const { uri, lines, tree } of specs)
    for (const { node, shaped, offset } of tree.statements) {
      const spec = shaped.wrapper ?? shaped.spec;
      if (spec === undefined || spec.word === 'link') continue;
      const title = node.title === undefined ? '' : ` “${node.title.value}”`;
      for (const { value, span } of node.names) {
        if (!holds(`${value}${title}`.toLowerCase(), wanted)) continue;
        const range = rangeOf(lines, { start: offset + span.start, end: offset + span.end });
        const containerName = `${spec.word === 'stock' ? `${shaped.spec?.word ?? ''} stock` : spec.word}${title}, ${fileName(uri)}`;
        found.push({ name: value, kind: iconOf(spec), location: { uri, range }, containerName: containerName.trim() });
        if (found.length === most) return found;
      }
    }
  return found;
}

/** Whether all letters wanted stand in a text in their order. */
function holds(text: string, wanted: string): boolean {
  let at = 0;
  for (const letter of wanted) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
