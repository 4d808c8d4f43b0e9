/** Requests about files: what a client is about to move or rename. */
import type { Connection, FileOperationRegistrationOptions, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { editAtClient } from './placed.ts';
import { resolveUse, sameSpelling, writeUse } from './uris.ts';

/** A folder may have specs in it. */
export const movesAskedFor: FileOperationRegistrationOptions = {
  filters: [{ pattern: { glob: '**/*.amps', matches: 'file' } }, { pattern: { glob: '**', matches: 'folder' } }],
};

const paths = { resolve: resolveUse, write: writeUse };

export function registerFiles(connection: Connection, workspace: Workspace, using: Features): void {
  connection.workspace.onWillRenameFiles(
    guarded<{ files: { oldUri: string; newUri: string }[] }, WorkspaceEdit | null>(
      connection.console,
      'moved files',
      null,
      async ({ files }, token) => {
        const moves = files.map(({ oldUri, newUri }) => ({ from: sameSpelling(oldUri), to: sameSpelling(newUri) }));
        const changes: Record<string, TextEdit[]> = {};
        for await (const spec of workspace.specs()) {
          if (token.isCancellationRequested) return null;
          const edits = using.pathsAfterMoves(spec, moves, paths);
          if (edits.length > 0) changes[spec.uri] = edits;
        }
        return Object.keys(changes).length === 0 ? null : editAtClient(workspace, { changes });
      },
    ),
  );
}
