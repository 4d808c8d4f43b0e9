/** Workspace symbols: everything that specs declare, found by letters of its name or title in their order, the nearest first. */
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

/** How near a name is to what is looked for: it is that, begins with it, holds it, its title does, or their letters do in order. */
export const nearnesses = [0, 1, 2, 3, 4] as const;
type Nearness = (typeof nearnesses)[number];

export function workspaceSymbols(
  specs: readonly ReadSpec[],
  query: string,
  most = mostSymbols,
  wanted: readonly Nearness[] = nearnesses,
): SymbolInformation[] {
  const letters = query.toLowerCase().replaceAll(/\s+/gu, '');
  const found = nearnesses.map((): SymbolInformation[] => []);
  for (const { uri, lines, tree } of specs)
    for (const { node, shaped, offset } of tree.statements) {
      const spec = shaped.wrapper ?? shaped.spec;
      if (spec === undefined || spec.word === 'link') continue;
      // A system has a title for its name.
      const isTitled = spec.word === 'system' && node.title !== undefined;
      const title = node.title === undefined || isTitled ? '' : ` “${node.title.value}”`;
      for (const { value, span } of isTitled ? [node.title] : node.names) {
        const near = nearness(value.toLowerCase(), title.toLowerCase(), letters);
        if (near === undefined || !wanted.includes(near)) continue;
        const range = rangeOf(lines, { start: offset + span.start, end: offset + span.end });
        const containerName = `${spec.word === 'stock' ? `${shaped.spec?.word ?? ''} stock` : spec.word}${title}, ${fileName(uri)}`;
        found[near]?.push({
          name: value,
          kind: iconOf(spec),
          location: { uri, range },
          containerName: containerName.trim(),
        });
      }
    }
  return found.flat().slice(0, most);
}

function nearness(name: string, title: string, letters: string): Nearness | undefined {
  if (name === letters || letters === '') return 0;
  if (name.startsWith(letters)) return 1;
  if (name.includes(letters)) return 2;
  if (title.replaceAll(/\s+/gu, '').includes(letters)) return 3;
  return holds(`${name}${title}`, letters) ? 4 : undefined;
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
