/** What files that are moved or renamed change in the text of specs: the paths by which they use each other. */
import type { TextEdit } from 'vscode-languageserver';
import { resolveIn } from '../model/files.ts';
import { rangeOf } from './ranges.ts';
import type { ReadSpec } from './workspace-symbols.ts';

/** A file or folder, by its address before and after. */
export interface Move {
  readonly from: string;
  readonly to: string;
}

export interface Paths {
  /** Address of a path as the `use` of a file writes it. */
  readonly resolve: (from: string, path: string) => string;
  /** The other way round, written like `path`; undefined where no path leads there. */
  readonly write: (from: string, to: string, path: string) => string | undefined;
}

/** Edits of a spec where it stands still. Those of a spec that moves itself are for its text before the move. */
export function pathsAfterMoves({ uri, tree, lines }: ReadSpec, moves: readonly Move[], paths: Paths): TextEdit[] {
  const own = addressAfter(moves, uri);
  return tree.statements.flatMap(({ offset, shaped }) =>
    (shaped.spec?.word === 'use' ? shaped.clauses : []).flatMap(({ values }) =>
      values.flatMap(({ atom }): TextEdit[] => {
        if (atom.kind !== 'text' || !atom.closed) return [];
        const before = resolveIn(paths, uri, atom.value);
        const after = before === undefined ? undefined : addressAfter(moves, before);
        if (after === undefined || (after === before && own === uri)) return [];
        if (resolveIn(paths, own, atom.value) === after) return [];
        const newText = paths.write(own, after, atom.value);
        const span = { start: offset + atom.span.start + 1, end: offset + atom.span.end - 1 };
        return newText === undefined ? [] : [{ range: rangeOf(lines, span), newText }];
      }),
    ),
  );
}

function addressAfter(moves: readonly Move[], uri: string): string {
  for (const { from, to } of moves) {
    if (uri === from) return to;
    if (uri.startsWith(`${from}/`)) return to + uri.slice(from.length);
  }
  return uri;
}
