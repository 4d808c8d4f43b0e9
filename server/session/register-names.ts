/** Requests that follow names: definition, references, highlights, rename, linked editing, symbols of the workspace. */
import {
  type CancellationToken,
  type Connection,
  type Location,
  type LocationLink,
  LSPErrorCodes,
  type PrepareRenameResult,
  ResponseError,
  type ResultProgressReporter,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { mostSymbols, nearnesses, type ReadSpec } from '../editor/workspace-symbols.ts';
import type { Client } from './client.ts';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { ofKind } from './kinds-known.ts';
import { inParts } from './parts.ts';
import { editAtClient, placed, symbolAtClient } from './placed.ts';
import { resolveUse } from './uris.ts';

export function registerNames(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;
  const definitions =
    (linked: (client: Client) => boolean) =>
    async (params: Parameters<typeof placed>[1], token: CancellationToken): Promise<Location[] | LocationLink[]> => {
      const here = await placed(workspace.named, params, token);
      if (here === undefined) return [];
      const found = using.definition(here.analysis, here.offset, resolveUse);
      if (!linked(workspace.client()))
        return found.map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
      return using
        .definitionLinks(here.analysis, here.offset, found)
        .map((link) => ({ ...link, targetUri: workspace.clientUri(link.targetUri) }));
    };

  connection.onDefinition(
    guarded(
      log,
      'definition',
      [],
      definitions(({ linksDefinitions }) => linksDefinitions),
    ),
  );
  // A spec says what a thing is where it declares it.
  connection.onDeclaration(
    guarded(
      log,
      'declaration',
      [],
      definitions(({ linksDeclarations }) => linksDeclarations),
    ),
  );

  /** The specs that can name what stands at a place. */
  const withAround = ({ textDocument, position }: Parameters<typeof placed>[1], token: CancellationToken) =>
    workspace.withAround(
      textDocument.uri,
      (analysis) => using.declaringFiles(analysis, analysis.lines.offset(position)),
      token,
    );

  connection.onReferences(
    guarded(log, 'references', [], async (params, token, _, partial?: ResultProgressReporter<Location[]>) => {
      async function* found() {
        const found = await withAround(params, token);
        if (found === undefined) return;
        const { analysis, others } = found;
        const options = { declaration: params.context.includeDeclaration };
        yield using
          .references(analysis, analysis.lines.offset(params.position), options, others)
          .map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
      }
      return inParts(found(), token, partial);
    }),
  );

  connection.onDocumentHighlight(
    guarded(log, 'highlights', [], async (params, token) => {
      const here = await placed(workspace.named, params, token);
      return here === undefined ? [] : using.highlights(here.analysis, here.offset);
    }),
  );

  connection.onPrepareRename(
    guarded<Parameters<typeof placed>[1], PrepareRenameResult | ResponseError<void> | null>(
      log,
      'rename',
      null,
      async (params, token) => {
        const here = await placed(workspace.named, params, token);
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
      async (params, token) => {
        const { uri } = params.textDocument;
        const version = workspace.version(uri);
        const found = await withAround(params, token);
        if (found === undefined) return null;
        // In another text the place may be that of another name.
        if (workspace.version(uri) !== version)
          return new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed since: rename it again.');
        const { analysis, others } = found;
        const renamed = using.rename(analysis, analysis.lines.offset(params.position), params.newName, others);
        if (renamed === undefined) return null;
        return 'refused' in renamed ? refusal(renamed.refused) : editAtClient(workspace, renamed.edit);
      },
    ),
  );

  connection.languages.onLinkedEditingRange(
    guarded(log, 'linked editing', null, async (params, token) => {
      const found = await workspace.withUsers(params.textDocument.uri, token);
      if (found === undefined) return null;
      const { analysis, others } = found;
      return using.linkedEditing(analysis, analysis.lines.offset(params.position), others);
    }),
  );

  connection.onWorkspaceSymbol(
    guarded(log, 'symbols of the workspace', [], async ({ query }, token, _, partial) => {
      async function* found() {
        let left = mostSymbols;
        let specs: AsyncIterable<ReadSpec> | readonly ReadSpec[] = workspace.specs();
        // The nearest of all specs first: of many no farther one may take the place of a nearer.
        for (const nearness of nearnesses) {
          const read: ReadSpec[] = [];
          for await (const spec of specs) {
            if (left === 0 || token.isCancellationRequested) return;
            read.push(spec);
            const symbols = using.workspaceSymbols([spec], query, left, [nearness]);
            left -= symbols.length;
            const { foundKind } = workspace.client();
            yield symbols.map((symbol) => ofKind(symbolAtClient(workspace, symbol), foundKind));
          }
          specs = read;
        }
      }
      return inParts(found(), token, partial);
    }),
  );
}

/** A client shows this to the person who asked. */
function refusal(why: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, why);
}
