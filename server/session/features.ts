/**
 * Every request of an editor, answered from the analysis of the document as it is now. Each feature is a pure function of
 * `server/editor`; a test may hand in another one.
 */
import type { Connection, TextDocumentPositionParams } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { codeActions } from '../editor/code-actions.ts';
import { completion } from '../editor/completion.ts';
import { definition } from '../editor/definition.ts';
import type { DiagnosticOptions } from '../editor/diagnostics.ts';
import { formatting } from '../editor/formatting.ts';
import { highlights } from '../editor/highlight.ts';
import { hover } from '../editor/hover.ts';
import { flatOutline, outline } from '../editor/outline.ts';
import { references } from '../editor/references.ts';
import type { Client } from './client.ts';
import { diagnosticAtClient } from './findings.ts';
import { guarded } from './guard.ts';
import { resolveUse } from './uris.ts';

export const features = {
  codeActions,
  completion,
  definition,
  flatOutline,
  formatting,
  highlights,
  hover,
  outline,
  references,
};

export type Features = typeof features;

export interface Workspace {
  /** Analysis of a document by the address the client gave; undefined for one that is not open. */
  analysis(uri: string): Promise<Analysis | undefined>;
  /** Analyses of the open specs that use this file. */
  users(uri: string): Promise<readonly Analysis[]>;
  /** An address as the client writes it. */
  clientUri(uri: string): string;
  client(): Client;
  diagnosticOptions(): DiagnosticOptions;
}

export function registerFeatures(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;

  const placed = async ({ textDocument, position }: TextDocumentPositionParams) => {
    const analysis = await workspace.analysis(textDocument.uri);
    return analysis === undefined ? undefined : { analysis, offset: analysis.lines.offset(position) };
  };

  connection.onHover(
    guarded(log, 'hover', null, async (params) => {
      const here = await placed(params);
      if (here === undefined) return null;
      const { analysis, offset } = here;
      return using.hover(analysis, offset, { markdown: workspace.client().markdown });
    }),
  );

  connection.onCompletion(
    guarded(log, 'completion', [], async (params) => {
      const here = await placed(params);
      if (here === undefined) return [];
      const { analysis, offset } = here;
      const { snippets, completionMarkdown } = workspace.client();
      return using.completion(analysis, offset, { snippets, markdown: completionMarkdown });
    }),
  );

  connection.onCodeAction(
    guarded(log, 'code actions', [], async ({ textDocument, range, context }) => {
      const analysis = await workspace.analysis(textDocument.uri);
      if (analysis === undefined) return [];
      const span = { start: analysis.lines.offset(range.start), end: analysis.lines.offset(range.end) };
      const actions = using.codeActions(analysis, span, { ...workspace.diagnosticOptions(), only: context.only });
      return actions.map((action) => ({
        ...action,
        ...(action.diagnostics === undefined
          ? {}
          : { diagnostics: action.diagnostics.map((one) => diagnosticAtClient(one, workspace.clientUri)) }),
        ...(action.edit?.changes === undefined ? {} : { edit: { changes: rename(action.edit.changes) } }),
      }));
    }),
  );

  connection.onDocumentSymbol(
    guarded(log, 'outline', [], async ({ textDocument }) => {
      const analysis = await workspace.analysis(textDocument.uri);
      if (analysis === undefined) return [];
      return workspace.client().nestedSymbols ? using.outline(analysis) : using.flatOutline(analysis).map(atClient);
    }),
  );

  connection.onDefinition(
    guarded(log, 'definition', [], async (params) => {
      const here = await placed(params);
      if (here === undefined) return [];
      const { analysis, offset } = here;
      return using
        .definition(analysis, offset, resolveUse)
        .map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
    }),
  );

  connection.onReferences(
    guarded(log, 'references', [], async (params) => {
      const here = await placed(params);
      if (here === undefined) return [];
      const { analysis, offset } = here;
      const users = await workspace.users(params.textDocument.uri);
      return using
        .references(analysis, offset, { declaration: params.context.includeDeclaration }, users)
        .map((location) => ({ ...location, uri: workspace.clientUri(location.uri) }));
    }),
  );

  connection.onDocumentHighlight(
    guarded(log, 'highlights', [], async (params) => {
      const here = await placed(params);
      if (here === undefined) return [];
      const { analysis, offset } = here;
      return using.highlights(analysis, offset);
    }),
  );

  connection.onDocumentFormatting(
    guarded(log, 'formatting', [], async ({ textDocument }) => {
      const analysis = await workspace.analysis(textDocument.uri);
      return analysis === undefined ? [] : using.formatting(analysis);
    }),
  );

  connection.onDocumentRangeFormatting(
    guarded(log, 'range formatting', [], async ({ textDocument, range }) => {
      const analysis = await workspace.analysis(textDocument.uri);
      if (analysis === undefined) return [];
      return using.formatting(analysis, {
        start: analysis.lines.offset(range.start),
        end: analysis.lines.offset(range.end),
      });
    }),
  );

  /** Edits by the addresses the client knows its documents by. */
  function rename<T>(changes: Readonly<Record<string, T>>): Record<string, T> {
    return Object.fromEntries(Object.entries(changes).map(([uri, edits]) => [workspace.clientUri(uri), edits]));
  }

  function atClient<T extends { location: { uri: string } }>(symbol: T): T {
    return { ...symbol, location: { ...symbol.location, uri: workspace.clientUri(symbol.location.uri) } };
  }
}
