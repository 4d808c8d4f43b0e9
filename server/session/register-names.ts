/** Requests that follow names: definition, references, highlights, rename, linked editing, symbols of the workspace. */
import {
  type Connection,
  LSPErrorCodes,
  type PrepareRenameResult,
  ResponseError,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { editAtClient, placed, symbolAtClient } from './placed.ts';
import { resolveUse } from './uris.ts';

export function registerNames(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;
  const definitions = async (params: Parameters<typeof placed>[1]) => {
    const here = await placed(workspace, params);
    if (here === undefined) return [];
    return using
      .definition(here.analysis, here.offset, resolveUse)
      .map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
  };

  connection.onDefinition(guarded(log, 'definition', [], definitions));
  // A spec says what a thing is where it declares it.
  connection.onDeclaration(guarded(log, 'declaration', [], definitions));

  connection.onReferences(
    guarded(log, 'references', [], async (params) => {
      const here = await placed(workspace, params);
      if (here === undefined) return [];
      const users = await workspace.users(params.textDocument.uri);
      return using
        .references(here.analysis, here.offset, { declaration: params.context.includeDeclaration }, users)
        .map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
    }),
  );

  connection.onDocumentHighlight(
    guarded(log, 'highlights', [], async (params) => {
      const here = await placed(workspace, params);
      return here === undefined ? [] : using.highlights(here.analysis, here.offset);
    }),
  );

  connection.onPrepareRename(
    guarded<Parameters<typeof placed>[1], PrepareRenameResult | ResponseError<void> | null>(
      log,
      'rename',
      null,
      async (params) => {
        const here = await placed(workspace, params);
        const found = here === undefined ? undefined : using.prepareRename(here.analysis, here.offset);
        if (found === undefined) return null;
        return 'refused' in found ? refusal(found.refused) : found;
      },
    ),
  );

  connection.onRenameRequest(
    guarded<Parameters<typeof placed>[1] & { newName: string }, WorkspaceEdit | ResponseError<void> | null>(
      log,
      'rename',
      null,
      async (params) => {
        const here = await placed(workspace, params);
        if (here === undefined) return null;
        const { analysis, offset } = here;
        const renamed = using.rename(analysis, offset, params.newName, await workspace.around(analysis));
        if (renamed === undefined) return null;
        return 'refused' in renamed ? refusal(renamed.refused) : editAtClient(workspace, renamed.edit);
      },
    ),
  );

  connection.languages.onLinkedEditingRange(
    guarded(log, 'linked editing', null, async (params) => {
      const here = await placed(workspace, params);
      if (here === undefined) return null;
      return using.linkedEditing(here.analysis, here.offset, await workspace.users(params.textDocument.uri));
    }),
  );

  connection.onWorkspaceSymbol(
    guarded(log, 'symbols of the workspace', [], async ({ query }) =>
      using.workspaceSymbols(await workspace.specs(), query).map((symbol) => symbolAtClient(workspace, symbol)),
    ),
  );
}

/** A client shows this to the person who asked. */
function refusal(why: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, why);
}
