/** Go to definition: the declaration of a name, the part of a terminal, the file of a `use`. */
import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { resolveIn } from '../model/files.ts';
import { at } from './at.ts';
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
  const { part, spec } = terminal;
  for (const fact of part.facts.all('terminal')) {
    const value = fact.clause.values.find(({ atom }) => atom.kind === 'word' && atom.value === spec.name);
    if (value === undefined) continue;
    const { offset } = fact.origin.statement;
    const span = { start: offset + value.span.start, end: offset + value.span.end };
    return [locationOf(analysis, { uri: fact.origin.file.uri, span })];
  }
  return [locationOf(analysis, part.namePlace)];
}
