/** Go to definition: the declaration of a name, the part of a terminal, the file of a `use`. */
import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { resolveIn } from '../model/files.ts';
import { at } from './at.ts';
import { declarationOf, ownTerminalClauseAt } from './own-terminals.ts';
import { locationOf } from './ranges.ts';
import { named, usesOf } from './uses.ts';

/** `resolve` gives the address of a path as a `use` writes it. */
export function definition(
  analysis: Analysis,
  offset: number,
  resolve: (from: string, path: string) => string,
): Location[] {
  const here = at(analysis, offset);
  if (here === undefined) return [];
  const { atom, clause } = here;
  if (clause?.spec.id === 'path' && atom?.kind === 'text') {
    const uri = resolveIn({ resolve }, analysis.uri, atom.value);
    const start = { line: 0, character: 0 };
    return uri !== undefined && analysis.model.files.some((file) => file.uri === uri)
      ? [{ uri, range: { start, end: start } }]
      : [];
  }
  const own = ownTerminalClauseAt(analysis, offset);
  if (own !== undefined) return [locationOf(analysis, own.place)];
  const use = named(analysis, offset);
  if (use === undefined) return [];
  if (use.target === 'terminal') return terminalDefinition(analysis, use.name);
  return usesOf(analysis, use)
    .filter(({ declaration }) => declaration)
    .map(({ place }) => locationOf(analysis, place));
}

/** A terminal is declared by its part; an extra one of a load by its own clause. */
function terminalDefinition(analysis: Analysis, id: string): Location[] {
  const terminal = analysis.model.terminals.get(id);
  if (terminal === undefined) return [];
  return [locationOf(analysis, declarationOf(terminal) ?? terminal.part.namePlace)];
}
