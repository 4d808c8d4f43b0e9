/**
 * Every request of an editor, answered from the analysis of the document as it is now. Each feature is a pure function of
 * `server/editor`; a test may hand in another one.
 */
import type { Connection } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { codeActions } from '../editor/code-actions.ts';
import { colourPresentations, documentColours } from '../editor/colours.ts';
import { completion } from '../editor/completion.ts';
import { definition } from '../editor/definition.ts';
import type { DiagnosticOptions } from '../editor/diagnostics.ts';
import { documentLinks } from '../editor/document-links.ts';
import { folding } from '../editor/folding.ts';
import { formatting } from '../editor/formatting.ts';
import { highlights } from '../editor/highlight.ts';
import { hover } from '../editor/hover.ts';
import { linkedEditing } from '../editor/linked-editing.ts';
import { flatOutline, outline } from '../editor/outline.ts';
import { references } from '../editor/references.ts';
import { prepareRename, rename } from '../editor/rename.ts';
import { selectionRanges } from '../editor/selection-ranges.ts';
import { type ReadSpec, workspaceSymbols } from '../editor/workspace-symbols.ts';
import type { Client } from './client.ts';
import { diagnosticAtClient } from './findings.ts';
import { guarded } from './guard.ts';
import { editAtClient, placed } from './placed.ts';
import { registerNames } from './register-names.ts';
import { registerShape } from './register-shape.ts';

export const features = {
  codeActions,
  colourPresentations,
  completion,
  definition,
  documentColours,
  documentLinks,
  flatOutline,
  folding,
  formatting,
  highlights,
  hover,
  linkedEditing,
  outline,
  prepareRename,
  references,
  rename,
  selectionRanges,
  workspaceSymbols,
};

export type Features = typeof features;

export interface Workspace {
  /** Analysis of a document by the address the client gave; undefined for one that is not open. */
  analysis(uri: string): Promise<Analysis | undefined>;
  /** Analyses of the open specs that use this file. */
  users(uri: string): Promise<readonly Analysis[]>;
  /** Analyses of the specs in the open folders, open or not, that use a file of this one. */
  around(analysis: Analysis): Promise<readonly Analysis[]>;
  /** All specs that are open or in the open folders, read and not worked out. */
  specs(): Promise<readonly ReadSpec[]>;
  /** An address as the client writes it. */
  clientUri(uri: string): string;
  client(): Client;
  diagnosticOptions(): DiagnosticOptions;
}

export function registerFeatures(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;

  connection.onHover(
    guarded(log, 'hover', null, async (params) => {
      const here = await placed(workspace, params);
      if (here === undefined) return null;
      const { analysis, offset } = here;
      return using.hover(analysis, offset, { markdown: workspace.client().markdown });
    }),
  );

  connection.onCompletion(
    guarded(log, 'completion', [], async (params) => {
      const here = await placed(workspace, params);
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
        ...(action.edit === undefined ? {} : { edit: editAtClient(workspace, action.edit) }),
      }));
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

  registerNames(connection, workspace, using);
  registerShape(connection, workspace, using);
}
